// Each slider tells what it stands at.
document.addEventListener("input", (e) => {
  if (e.target.type === "range") e.target.nextElementSibling.value = e.target.value;
});
// a page that is read again keeps its sliders where they were
for (const slider of document.querySelectorAll("input[type=range]")) slider.nextElementSibling.value = slider.value;
