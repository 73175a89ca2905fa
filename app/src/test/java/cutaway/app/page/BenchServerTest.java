package cutaway.app.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import cutaway.bench.dossier.DemoDossier;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** The served page: its doors, and what a browser makes of it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BenchServerTest {
  @SuppressWarnings("NullAway.Init")
  private BenchServer server;

  private Path folder = Path.of("");

  @BeforeAll
  void start(@TempDir Path dossier) {
    folder = dossier;
    DemoDossier.copyTo(folder);
    server = BenchServer.start(folder, 0);
  }

  @AfterAll
  void stop() {
    server.stop();
  }

  private HttpResponse<String> get(String path, String... headers) throws Exception {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(server.address()).resolve(path));
    if (headers.length > 0) {
      request.headers(headers);
    }
    return HttpClient.newHttpClient().send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  @Test
  void showsTheFindingsUnderAStrictPolicy() throws Exception {
    HttpResponse<String> page = get("/");
    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body()).contains("Workshop loan 7", "What does the box do?", "42.13");
    assertThat(page.headers().firstValue("Content-Security-Policy").orElseThrow())
        .contains("default-src 'none'")
        .doesNotContain("unsafe");
    assertThat(get("/findings.json").body()).contains("\"drive-unit.fs\"");
  }

  @Test
  void playsTheNoise() throws Exception {
    assertThat(get("/").body()).contains("src=\"/sound/noise-tone-left-over.wav\"");
    HttpResponse<String> sound = get("/sound/noise-tone-left-over.wav");
    assertThat(sound.statusCode()).isEqualTo(200);
    assertThat(sound.headers().firstValue("Content-Type").orElseThrow()).startsWith("audio/wav");
    assertThat(sound.body()).startsWith("RIFF");
    assertThat(get("/sound/dossier.yaml").statusCode()).isEqualTo(404);
  }

  @Test
  void triesChangesOnPaper() throws Exception {
    assertThat(get("/").body()).contains("href=\"/remedies\"");
    HttpResponse<String> page = get("/remedies");
    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.body()).contains("What would mend it?", "name=\"batten\"", "dust");
    String batten = get("/remedies/trial?wall=left&batten=across&place=50&lined=top").body();
    assertThat(batten)
        .contains("at 50 % of the height", "30 mm of polyester fibre on the top", "<svg", "kg");
    assertThat(page.body()).contains("<option value=\"30\">at 30 % of the height</option>");
    assertThat(get("/remedies/trial?wall=left&frame=30").body()).contains("Window brace");
    assertThat(get("/remedies/trial?wall=left&frame=50").body()).contains("cut-out");
    // what a form never sends does no harm
    HttpResponse<String> odd =
        get("/remedies/trial?wall=%3Cscript%3E&batten=diagonal&place=nowhere&thicker=-4&sheet=x");
    assertThat(odd.statusCode()).isEqualTo(200);
    assertThat(odd.body()).contains("As it is", "Nothing is changed yet").doesNotContain("script");
  }

  @Test
  void answersOnlyItself() throws Exception {
    assertThat(get("/", "Origin", "http://elsewhere.example").statusCode()).isEqualTo(403);
    assertThat(get("/", "Origin", server.address().replaceFirst("/$", "")).statusCode())
        .isEqualTo(200);
    assertThat(raw("GET / HTTP/1.1\r\nHost: elsewhere.example\r\nConnection: close\r\n\r\n"))
        .contains("403");
  }

  @Test
  void servesNothingElse() throws Exception {
    assertThat(get("/dossier.yaml").statusCode()).isEqualTo(404);
    assertThat(get("/asset/nothing.js").statusCode()).isEqualTo(404);
    int port = URI.create(server.address()).getPort();
    String host = "\r\nHost: 127.0.0.1:" + port + "\r\nConnection: close\r\n\r\n";
    assertThat(raw("GET /asset/../../../etc/passwd HTTP/1.1" + host)).doesNotContain("200");
    assertThat(raw("GET /asset/%2e%2e%2fdossier.yaml HTTP/1.1" + host)).doesNotContain(" 200");
  }

  private String raw(String request) throws IOException {
    int port = URI.create(server.address()).getPort();
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8))
          .readLine();
    }
  }

  @Test
  void asksForReloadWhereTheSheetHasChanged() throws Exception {
    assertThat(get("/changed/0").headers().firstValue("HX-Refresh")).contains("true");
    String page = get("/").body();
    String stamp = page.replaceAll("(?s).*hx-get=\"(/changed/\\d+)\".*", "$1");
    assertThat(get(stamp).headers().firstValue("HX-Refresh")).isEmpty();
    // an editor's lock file is a link to nowhere
    Files.createSymbolicLink(folder.resolve(".#dossier.yaml"), Path.of("nobody@nowhere"));
    Files.setLastModifiedTime(
        folder.resolve("dossier.yaml"), FileTime.fromMillis(System.currentTimeMillis() + 5000));
    assertThat(get(stamp).headers().firstValue("HX-Refresh")).contains("true");
    Files.delete(folder.resolve(".#dossier.yaml"));
  }

  @Test
  void saysWhatIsWrongWithASheetInsteadOfFailing(@TempDir Path broken) throws Exception {
    DemoDossier.copyTo(broken);
    BenchServer other = BenchServer.start(broken, 0);
    try {
      Files.writeString(broken.resolve("dossier.yaml"), "cutaway: 1\nunit: { nmae: x }\n");
      HttpResponse<String> r =
          HttpClient.newHttpClient()
              .send(
                  HttpRequest.newBuilder(URI.create(other.address())).build(),
                  HttpResponse.BodyHandlers.ofString());
      assertThat(r.statusCode()).isEqualTo(422);
      assertThat(r.body()).contains("did you mean 'name'?");
    } finally {
      other.stop();
    }
  }

  @Test
  void worksInABrowserByKeyboardInBothThemesAndWidths() {
    Optional<Path> installed =
        Stream.of("/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome")
            .map(Path::of)
            .filter(Files::exists)
            .findFirst();
    assumeTrue(
        installed.isPresent() || System.getenv("CUTAWAY_ALL_TESTS") != null,
        "chromium is not installed, so the page is not looked at in a browser");
    Path chromium = installed.orElseThrow();
    Playwright.CreateOptions create =
        new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1"));
    try (Playwright playwright = Playwright.create(create);
        Browser browser =
            playwright
                .chromium()
                .launch(
                    new BrowserType.LaunchOptions()
                        .setExecutablePath(chromium)
                        .setArgs(
                            List.of(
                                "--no-sandbox",
                                "--disable-gpu",
                                "--disable-background-networking")))) {
      for (ColorScheme scheme : List.of(ColorScheme.LIGHT, ColorScheme.DARK)) {
        for (int width : new int[] {1280, 390}) {
          look(browser, scheme, width);
        }
      }
    }
  }

  private void look(Browser browser, ColorScheme scheme, int width) {
    try (Page page =
        browser.newPage(
            new Browser.NewPageOptions().setColorScheme(scheme).setViewportSize(width, 900))) {
      List<String> complaints = new ArrayList<>();
      page.onConsoleMessage(
          m -> {
            if (m.type().equals("error")) {
              complaints.add(m.text());
            }
          });
      page.onPageError(complaints::add);
      page.navigate(server.address());
      page.waitForSelector(".drawn canvas");
      assertThat(complaints).as("console at %d px", width).isEmpty();
      assertThat(page.locator("canvas").count()).isGreaterThan(5);
      // nothing wider than the window but what scrolls in its own frame
      assertThat((Integer) page.evaluate("document.documentElement.scrollWidth"))
          .isLessThanOrEqualTo(width);
      page.locator("#drive-unit\\.fs summary").focus();
      page.keyboard().press("Enter");
      assertThat(page.locator("#drive-unit\\.fs .evidence").isVisible()).isTrue();
      page.locator("#chart-impedance-unit .screen").focus();
      page.keyboard().press("ArrowRight");
      assertThat(page.locator("#chart-impedance-unit .readout").innerText())
          .contains("frequency", "impedance", "±");
      assertThat(contrast(page)).as("text contrast, %s", scheme).isGreaterThanOrEqualTo(4.5);
    }
  }

  /** Least contrast of the page's text colours on their grounds, WCAG 2.2. */
  private static double contrast(Page page) {
    Object least =
        page.evaluate(
            """
            () => {
              const lum = (c) => {
                const [r, g, b] = c.match(/[\\d.]+/g).slice(0, 3).map((v) => {
                  const x = v / 255;
                  return x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
                });
                return 0.2126 * r + 0.7152 * g + 0.0722 * b;
              };
              const ground = (e) => {
                for (let n = e; n; n = n.parentElement) {
                  const c = getComputedStyle(n).backgroundColor;
                  if (c !== "rgba(0, 0, 0, 0)") return c;
                }
                return "rgb(255, 255, 255)";
              };
              let least = 99;
              for (const e of document.querySelectorAll("h1,h2,p,li,dt,dd,summary span,strong,a,code,figcaption")) {
                if (!e.innerText?.trim()) continue;
                const a = lum(getComputedStyle(e).color), b = lum(ground(e));
                least = Math.min(least, (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05));
              }
              return least;
            }
            """);
    return ((Number) least).doubleValue();
  }
}
