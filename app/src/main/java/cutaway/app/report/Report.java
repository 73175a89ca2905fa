package cutaway.app.report;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.DurableFile;
import cutaway.bench.dossier.Solved;
import cutaway.bench.problem.ProblemException;
import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import java.util.Objects;

/** The report: one HTML file that asks nothing of the outside. */
public final class Report {
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
    DurableFile.write(file, html(StoryTeller.tell(dossier.sheet(), solved)));
    return file;
  }

  /** The report's text. */
  public static String html(Story story) {
    StringOutput out = new StringOutput();
    TemplateEngine.createPrecompiled(ContentType.Html)
        .render("report.jte", Map.of("story", story, "style", text("/cutaway/app/style.css")), out);
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
