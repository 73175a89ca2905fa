package cutaway.app.report;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.DurableFile;
import cutaway.bench.dossier.Solved;
import cutaway.bench.noise.NoiseClips;
import cutaway.bench.noise.NoiseClips.Clip;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.take.SignalFile;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Base64;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;

/** The report: one HTML file that asks nothing of the outside. */
public final class Report {
  /** Of a sample of a sound. */
  private static final int BYTES = 2;

  private Report() {}

  /** Writes the report into the dossier and returns where. */
  public static Path write(Dossier dossier, Solved solved) {
    dossier
        .notKept()
        .ifPresent(
            p -> {
              throw new ProblemException(p);
            });
    Path file = dossier.folder().resolve(Dossier.MADE).resolve("report.html");
    DurableFile.write(file, html(StoryTeller.tell(dossier.sheet(), solved), sounds(dossier)));
    return file;
  }

  /** Each sound by its name, written into the report itself. */
  private static Map<String, String> sounds(Dossier dossier) {
    return NoiseClips.of(dossier.sheet(), dossier::resolve).stream()
        .collect(
            Collectors.toMap(
                Clip::name,
                c ->
                    "data:audio/wav;base64,"
                        + Base64.getEncoder()
                            .encodeToString(SignalFile.wav(c.samples(), c.rate(), BYTES))));
  }

  /** The report's text. */
  private static String html(Story story, Map<String, String> sounds) {
    StringOutput out = new StringOutput();
    TemplateEngine.createPrecompiled(ContentType.Html)
        .render(
            "report.jte",
            Map.of("story", story, "sounds", sounds, "style", text("/cutaway/app/style.css")),
            out);
    return out.toString();
  }

  /** A text resource. */
  public static String text(String resource) {
    try (InputStream in = Report.class.getResourceAsStream(resource)) {
      return new String(
          Objects.requireNonNull(in, resource).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
