package cutaway.bench.exam;

import cutaway.acoustics.driveunit.JointFit;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Notice;
import cutaway.bench.sheet.Sheet;
import java.util.Optional;
import java.util.function.Consumer;

/** All exams in their order: a pure function of sheet and takes. */
public final class Examination {
  private Examination() {}

  /**
   * Runs every exam.
   *
   * @param sheet the sheet
   * @param bench its takes, loaded
   * @param progress told in a word what is being done
   */
  public static Findings run(Sheet sheet, Bench bench, Consumer<String> progress) {
    Results results = new Results();
    bench.notices().forEach(results::notice);
    if (sheet.air().temperature().isEmpty() || sheet.air().pressure().isEmpty()) {
      results.notice(
          Notice.note(
              "air",
              "no reading of the air's "
                  + (sheet.air().temperature().isEmpty() ? "temperature" : "pressure")
                  + "; a usual room is taken, and its spread counted",
              "note temperature and pressure with each session of takes"));
    }
    progress.accept("drive unit");
    Optional<JointFit> fit = DriveUnitExam.run(sheet, bench, results);
    fit.ifPresent(
        f -> {
          progress.accept("box");
          BoxExam.run(sheet, f, results);
          progress.accept("predictions");
          PredictionExam.run(sheet, f, results);
        });
    ClaimExam.run(sheet, results);
    return results.done();
  }
}
