// Draws each chart description with uPlot in place of its paper form: bands, a cursor and its read-out.
(() => {
  "use strict";
  const colour = (n) => getComputedStyle(document.documentElement).getPropertyValue("--" + n).trim();
  const faded = (hex, share) => hex + Math.round(255 * share).toString(16).padStart(2, "0");
  const figures = new Map();

  const tick = (v) => v == null ? "" : Math.abs(v) >= 1000 ? v / 1000 + "k" : String(+v.toPrecision(4)).replace("-", "−");
  const figure = (v) => v == null ? "" : String(+v.toPrecision(4)).replace("-", "−");

  function decades(u, axis, low, high) {
    const out = [];
    for (let e = Math.floor(Math.log10(low)); e <= Math.log10(high) + 1; e++) {
      for (const m of [1, 2, 5]) {
        const t = m * 10 ** e;
        if (t >= low * 0.999 && t <= high * 1.001) out.push(t);
      }
    }
    return out;
  }

  function tables(chart) {
    return chart.series.map((s) => s.low.length ? [s.x, s.y, s.low, s.high] : [s.x, s.y]);
  }

  function draw(box) {
    const chart = JSON.parse(box.dataset.chart);
    const parent = box.parentElement;
    const readout = parent.querySelector(".readout");
    const ink = colour("ink"), soft = colour("soft"), edge = colour("edge"), line = colour("line");
    const series = [{}], bands = [], lines = [];
    for (const s of chart.series) {
      const c = colour("c" + s.colour);
      const at = series.length;
      const points = s.kind === "POINTS";
      series.push({ label: s.label, stroke: c, width: points ? 0 : 2.4, dash: s.dashed ? [8, 5] : undefined, spanGaps: true,
        paths: points ? () => null : undefined, points: { show: points, size: 5, fill: faded(c, 0.55), stroke: faded(c, 0) } });
      if (!points) lines.push({ at, s, c, banded: s.low.length > 0 });
      if (s.low.length) {
        series.push({ stroke: faded(c, 0), width: 0, points: { show: false }, spanGaps: true });
        series.push({ stroke: faded(c, 0), width: 0, points: { show: false }, spanGaps: true });
        bands.push({ series: [at + 2, at + 1], fill: faded(c, 0.2) });
      }
    }
    const data = uPlot.join(tables(chart));
    const bounds = chart.series.flatMap((s) => [s.x[0], s.x[s.x.length - 1]]);
    const from = Math.min(...bounds), to = Math.max(...bounds);
    const given = (v) => typeof v === "number" && Number.isFinite(v);
    const ys = chart.series.flatMap((s) => s.y);
    const pad = (Math.max(...ys) - Math.min(...ys)) * 0.06 || 1;
    const low = given(chart.low_y) ? chart.low_y : Math.min(...ys) - pad;
    const high = given(chart.high_y) ? chart.high_y : Math.max(...ys) + pad;
    const axis = { stroke: soft, grid: { stroke: edge, width: 1 }, ticks: { show: false }, font: "13px sans-serif", labelFont: "13px sans-serif" };
    const nearest = (s, x) => {
      let best = 0;
      for (let i = 1; i < s.x.length; i++) if (Math.abs(s.x[i] - x) < Math.abs(s.x[best] - x)) best = i;
      return best;
    };
    const say = (u) => {
      const { left } = u.cursor;
      if (left == null || left < 0) { readout.textContent = ""; return; }
      const x = u.posToVal(left, "x");
      const parts = (lines.length ? lines.map((l) => l.s) : chart.series).map((s) => {
        const i = nearest(s, x);
        const pm = s.low.length ? " ± " + figure((s.high[i] - s.low[i]) / 4) : "";
        return s.label + " " + figure(s.y[i]) + pm;
      });
      const [name, unit] = chart.label_x.split(", ");
      readout.textContent = name + " " + figure(x) + " " + unit + " | " + chart.label_y + ": " + parts.join(", ");
    };
    const ends = (u) => {
      const ctx = u.ctx, ratio = devicePixelRatio;
      ctx.save();
      ctx.textAlign = "left";
      ctx.textBaseline = "alphabetic";
      ctx.font = "600 " + 13 * ratio + "px sans-serif";
      const named = lines.length ? lines : chart.series.map((s) => ({ s, c: colour("c" + s.colour) }));
      const spots = named.map((l) => ({ l, y: u.valToPos(Math.min(high, Math.max(low, l.s.y[l.s.y.length - 1])), "y", true) })).sort((a, b) => a.y - b.y);
      let before = -1e9;
      for (const spot of spots) {
        const y = Math.max(spot.y + 4 * ratio, before + 16 * ratio);
        before = y;
        ctx.fillStyle = spot.l.c;
        ctx.fillText(spot.l.s.label, u.bbox.left + u.bbox.width + 8 * ratio, y);
      }
      ctx.setLineDash([2 * ratio, 4 * ratio]);
      ctx.strokeStyle = line;
      ctx.fillStyle = ink;
      ctx.font = 13 * ratio + "px sans-serif";
      for (const m of chart.markers) {
        if (m.x < from || m.x > to) continue;
        const x = u.valToPos(m.x, "x", true);
        ctx.beginPath(); ctx.moveTo(x, u.bbox.top); ctx.lineTo(x, u.bbox.top + u.bbox.height); ctx.stroke();
        const [base, sub] = m.label.split("_");
        const y = u.bbox.top + 13 * ratio;
        ctx.font = 13 * ratio + "px sans-serif";
        ctx.fillText(base, x + 4 * ratio, y);
        const after = x + 4 * ratio + ctx.measureText(base).width;
        ctx.font = 10 * ratio + "px sans-serif";
        ctx.fillText(sub ?? "", after + ratio, y + 3 * ratio);
      }
      ctx.restore();
    };
    const width = parent.clientWidth;
    const narrow = width < 560;
    box.replaceChildren();
    const plot = new uPlot({
      width, height: narrow ? 280 : 360, series, bands, padding: [8, narrow ? 86 : 118, 0, 0], legend: { show: false },
      cursor: { drag: { x: false, y: false }, points: { show: false }, y: false },
      scales: { x: { time: false, distr: chart.log_x ? 3 : 1, range: () => [from, to] }, y: { range: () => [low, high] } },
      axes: [{ ...axis, label: chart.label_x, splits: chart.log_x ? (u, i, a, b) => decades(u, i, a, b).filter((t, k, all) => !narrow || String(t)[0] === "1" || all.length < 6) : undefined, values: (u, v) => v.map(tick), filter: (u, v) => v, size: 30, labelSize: 24 },
        { ...axis, label: chart.label_y, values: (u, v) => v.map(tick), size: 44, labelSize: 24 }],
      hooks: { setCursor: [say], draw: [ends] },
    }, data, box);
    parent.classList.add("drawn");
    box.tabIndex = 0;
    box.setAttribute("role", "img");
    box.setAttribute("aria-label", chart.title + "; arrow keys move the cursor");
    box.onkeydown = (e) => {
      const step = { ArrowLeft: -8, ArrowRight: 8 }[e.key];
      if (!step) return;
      e.preventDefault();
      const at = plot.cursor.left < 0 ? plot.over.clientWidth / 2 : plot.cursor.left;
      plot.setCursor({ left: Math.max(0, Math.min(plot.over.clientWidth, at + step)), top: 10 });
    };
    figures.set(box, plot);
  }

  const all = () => document.querySelectorAll("[data-chart]").forEach((box) => {
    figures.get(box)?.destroy();
    draw(box);
  });
  let wait = 0;
  let width = innerWidth;
  addEventListener("resize", () => { if (innerWidth !== width) { width = innerWidth; clearTimeout(wait); wait = setTimeout(all, 150); } });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", all);
  addEventListener("hashchange", open);
  function open() {
    const target = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (target instanceof HTMLDetailsElement) { target.open = true; target.querySelector("summary").focus(); }
  }
  all();
  open();
})();
