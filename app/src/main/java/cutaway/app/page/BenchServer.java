package cutaway.app.page;

import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.app.report.Story;
import cutaway.app.report.StoryTeller;
import cutaway.app.report.TrialView;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.Solved;
import cutaway.bench.dossier.SolvedJson;
import cutaway.bench.exam.RemedyBench;
import cutaway.bench.finding.Suspicion.Sound;
import cutaway.bench.finding.Trial;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.Javalin;
import io.javalin.http.Context;
import io.javalin.http.ForbiddenResponse;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;

/** Serves one dossier, read-only, to this machine alone. */
public final class BenchServer {
  private static final String LOOPBACK = "127.0.0.1";
  private static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; media-src 'self'; connect-src 'self';"
          + " base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

  private static final Map<String, String> ASSETS =
      Map.of(
          "icon.svg",
          "/cutaway/app/icon.svg",
          "style.css",
          "/cutaway/app/style.css",
          "charts.js",
          "/cutaway/app/charts.js",
          "desk.js",
          "/cutaway/app/desk.js",
          "uplot.js",
          "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.iife.min.js",
          "uplot.css",
          "/META-INF/resources/webjars/uplot/1.6.30/dist/uPlot.min.css",
          "htmx.js",
          "/META-INF/resources/webjars/htmx.org/2.0.4/dist/htmx.min.js");

  private final Path folder;
  private final TemplateEngine templates = TemplateEngine.createPrecompiled(ContentType.Html);
  private final Javalin javalin;
  private final RemedyDesk desk = new RemedyDesk();
  private final ClipShelf clips = new ClipShelf();

  private BenchServer(Path folder) {
    this.folder = folder;
    this.javalin =
        Javalin.create(
            config -> {
              config.showJavalinBanner = false;
              config.startupWatcherEnabled = false;
              config.useVirtualThreads = false;
            });
  }

  /**
   * Starts serving a dossier.
   *
   * @param folder the dossier
   * @param port port on loopback, 0 for a free one
   * @throws ProblemException where the port is taken
   */
  public static BenchServer start(Path folder, int port) {
    BenchServer server = new BenchServer(folder);
    server.routes();
    try {
      server.javalin.start(LOOPBACK, port);
    } catch (RuntimeException e) {
      throw new ProblemException(
          Problem.of(
              LOOPBACK + ":" + port, "cannot be listened on", "choose another --port, or none"));
    }
    return server;
  }

  /** Address of the page. */
  public String address() {
    return "http://" + LOOPBACK + ":" + javalin.port() + "/";
  }

  /** Ends serving. */
  public void stop() {
    javalin.stop();
  }

  private void routes() {
    javalin.before(this::guard);
    javalin.get("/", this::page);
    javalin.get("/remedies", this::remedies);
    javalin.get("/remedies/trial", this::trial);
    javalin.get("/changed/{stamp}", this::changed);
    javalin.get("/findings.json", this::findings);
    javalin.get("/sound/{name}", this::sound);
    javalin.get("/asset/{name}", BenchServer::asset);
    javalin.exception(ProblemException.class, this::problem);
    javalin.exception(
        RuntimeException.class,
        (e, c) ->
            problem(
                new ProblemException(
                    Problem.of(
                        folder.toString(),
                        "met a fault of Cutaway itself (" + e + ")",
                        "please report it with the dossier that brings it about")),
                c));
    javalin.error(404, c -> c.contentType("text/plain").result("Nothing is served here."));
  }

  /** Only this machine, under its own name, and never on behalf of another page. */
  private void guard(Context c) {
    c.header("Content-Security-Policy", POLICY);
    c.header("X-Content-Type-Options", "nosniff");
    c.header("Referrer-Policy", "no-referrer");
    c.header("Cache-Control", "no-store");
    c.header("Cross-Origin-Resource-Policy", "same-origin");
    String host = String.valueOf(c.header("Host"));
    List<String> own = List.of(LOOPBACK + ":" + javalin.port(), "localhost:" + javalin.port());
    if (!own.contains(host)) {
      throw new ForbiddenResponse("This page is served to " + address() + " only.");
    }
    String origin = c.header("Origin");
    if (origin != null && own.stream().noneMatch(o -> origin.equals("http://" + o))) {
      throw new ForbiddenResponse("Requests from other pages are not answered.");
    }
  }

  private void page(Context c) {
    // taken before anything is read: what changes meanwhile is then seen as a change
    String stamp = stamp();
    Dossier dossier = Dossier.open(folder);
    Story story = StoryTeller.tell(dossier.sheet(), solve(dossier));
    Map<String, String> sounds =
        story.suspicion().stream()
            .flatMap(s -> s.sounds().stream())
            .collect(Collectors.toMap(Sound::name, s -> "/sound/" + s.name() + ".wav"));
    render(c, "page.jte", Map.of("story", story, "sounds", sounds, "stamp", stamp));
  }

  /** One solve at a time: whoever asks second finds it kept. */
  private synchronized Solved solve(Dossier dossier) {
    return dossier.solve(step -> {});
  }

  private Optional<RemedyBench> remedyBench(String stamp) {
    try {
      return desk.bench(stamp, Dossier.open(folder), this::solve);
    } catch (ImpossibleShapeException e) {
      throw new ProblemException(
          Problem.of(
              "box", String.valueOf(e.getMessage()), "correct the places of cut-outs and braces"));
    }
  }

  private void remedies(Context c) {
    String stamp = stamp();
    String title = Dossier.open(folder).sheet().unit().name();
    Optional<RemedyBench> bench = remedyBench(stamp);
    render(
        c,
        "remedies.jte",
        Map.of(
            "title",
            title,
            "stamp",
            stamp,
            "materials",
            RemedyDesk.materials(),
            "walls",
            bench.map(RemedyBench::walls).orElse(List.of()),
            "worst",
            bench.map(RemedyBench::worst).orElse(""),
            "heights",
            bench.map(RemedyDesk::heights).orElse(List.of()),
            "waves",
            bench.map(RemedyBench::tellsWaves).orElse(false)));
    bench.ifPresent(desk::prepare);
  }

  private void trial(Context c) {
    Optional<RemedyBench> bench = remedyBench(stamp());
    if (bench.isEmpty()) {
      c.status(404).contentType("text/plain").result("The walls are not known.");
      return;
    }
    try {
      Trial trial = desk.tryOut(bench.get(), RemedyDesk.change(bench.get(), c::queryParam));
      render(c, "trial.jte", Map.of("trial", TrialView.of(trial)));
      desk.prepare(bench.get());
    } catch (ImpossibleShapeException e) {
      render(c, "misfit.jte", Map.of("why", String.valueOf(e.getMessage())));
    }
  }

  private void render(Context c, String template, Map<String, Object> parameters) {
    StringOutput out = new StringOutput();
    templates.render(template, parameters, out);
    c.html(out.toString());
  }

  /** Told by the page every few seconds what it shows; asks it to load anew where that is old. */
  private void changed(Context c) {
    if (!c.pathParam("stamp").equals(stamp())) {
      c.header("HX-Refresh", "true");
    }
    c.status(204);
  }

  /** Which files stand in the dossier, what Cutaway made left out, and when each last changed. */
  private String stamp() {
    try (var files = Files.walk(folder, 3)) {
      long sum =
          files
              .filter(f -> !f.startsWith(folder.resolve(Dossier.MADE)))
              .filter(f -> !Files.isDirectory(f, LinkOption.NOFOLLOW_LINKS))
              .mapToLong(f -> 31 * changedAt(f) + f.hashCode())
              .sum();
      return Long.toString(sum & Long.MAX_VALUE);
    } catch (IOException | UncheckedIOException e) {
      return "0";
    }
  }

  /** When a file, or the link that stands for one, last changed; 0 where it has gone meanwhile. */
  private static long changedAt(Path file) {
    try {
      return Files.getLastModifiedTime(file, LinkOption.NOFOLLOW_LINKS).toMillis();
    } catch (IOException e) {
      return 0;
    }
  }

  private void findings(Context c) {
    Dossier dossier = Dossier.open(folder);
    c.contentType("application/json").result(SolvedJson.write(solve(dossier)));
  }

  private void sound(Context c) {
    String stamp = stamp();
    Optional<byte[]> wav = clips.wav(stamp, Dossier.open(folder), c.pathParam("name"));
    if (wav.isEmpty()) {
      c.status(404).contentType("text/plain").result("There is no such sound.");
      return;
    }
    c.writeSeekableStream(new ByteArrayInputStream(wav.get()), "audio/wav");
  }

  private static void asset(Context c) throws IOException {
    String name = c.pathParam("name");
    String resource = ASSETS.get(name);
    if (resource == null) {
      c.status(404).contentType("text/plain").result("Nothing is served here.");
      return;
    }
    try (InputStream in = BenchServer.class.getResourceAsStream(resource)) {
      c.contentType(contentType(name));
      c.result(Objects.requireNonNull(in, resource).readAllBytes());
    }
  }

  private static String contentType(String name) {
    return name.endsWith(".css")
        ? "text/css"
        : name.endsWith(".svg") ? "image/svg+xml" : "text/javascript";
  }

  private void problem(ProblemException e, Context c) {
    String stamp = stamp();
    List<String> sentences =
        e.problems().stream().map(Problem::sentence).collect(Collectors.toList());
    c.status(422);
    render(c, "problem.jte", Map.of("problems", sentences, "stamp", stamp));
  }
}
