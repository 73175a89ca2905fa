package cutaway.bench.exam;

import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.ScaleCheck;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What a fitted drive unit's takes and readings show to be wrong, and what is missing. */
final class DriveUnitNotices {
  private static final double POOR_FIT = 0.04;

  private final JointFit fit;
  private final Sheet sheet;
  private final Results results;

  private DriveUnitNotices(JointFit fit, Sheet sheet, Results results) {
    this.fit = fit;
    this.sheet = sheet;
    this.results = results;
  }

  static void tell(JointFit fit, Sheet sheet, Results results) {
    new DriveUnitNotices(fit, sheet, results).tell();
  }

  private void tell() {
    fit.best()
        .supportResonance()
        .ifPresent(
            f ->
                results.notice(
                    Notice.caution(
                        "takes." + fit.bench().get(0).id(),
                        String.format(
                            Locale.ROOT,
                            "a second resonance at %.1f Hz, as of a frame on a loose clamp; it is"
                                + " modelled and its pull on the results taken out",
                            f.value()),
                        "clamp the frame firmly, hold loose parts, take it again")));
    for (int k = 0; k < fit.bench().size(); k++) {
      shift(k);
      String about = "takes." + fit.bench().get(k).id();
      int take = k;
      sheet.mains().stream()
          .map(mains -> MainsBump.find(fit, take, mains))
          .flatMap(Optional::stream)
          .findFirst()
          .ifPresent(
              message ->
                  results.notice(
                      Notice.note(
                          about,
                          message,
                          "keep cables away from transformers; use a longer sweep")));
      scatter(k);
    }
    scale();
    drift(fit, "f_s", "exercise the suspension first, keep level and temperature alike", results);
    if (fit.best().mms().isEmpty()) {
      results.notice(
          Notice.caution(
              DriveUnitExam.ABOUT,
              DriveUnitExam.onlyBoxed(fit)
                  ? "the box alone does not tell M_ms, Bl, V_as nor the box's volume, only ratios"
                  : "no reading tells the moving mass: M_ms, C_ms, Bl, V_as and sensitivity are not"
                      + " known",
              "add a take with a known mass on the cone, or with a test box"));
    } else if (fit.best().sd().isEmpty()) {
      results.notice(
          Notice.caution(
              DriveUnitExam.ABOUT,
              "without the piston diameter V_as, sensitivity and box volumes are not known",
              "measure from the middle of the surround to the middle of the surround"));
    }
  }

  private void shift(int k) {
    fit.best()
        .addedMassRatio(k)
        .ifPresent(
            mu -> {
              double shift = 1 - 1 / Math.sqrt(1 + mu.value());
              if (shift < 0.12) {
                results.notice(
                    Notice.caution(
                        "takes." + fit.bench().get(k).id(),
                        String.format(
                            Locale.ROOT,
                            "the added mass moves f_s by only %.0f %%; 20 to 50 %% is common"
                                + " practice",
                            100 * shift),
                        "use a mass near that of the moving parts"));
              }
            });
  }

  private void scatter(int k) {
    double sigma = DriveUnitExam.relative(fit, k);
    Take take = fit.bench().get(k);
    if (sigma > POOR_FIT) {
      results.notice(
          Notice.caution(
              "takes." + take.id(),
              String.format(Locale.ROOT, "the model stays %.1f %% off this curve", 100 * sigma),
              "look at the residuals: a ripple points to a resonance, a slope to a wrong scale"));
    }
  }

  /** Tells where a take's phase does not belong to its magnitude; whether it told. */
  static boolean phase(Take take, Results results) {
    Optional<String> wrong = take.curve().phaseKnown() ? PhaseCheck.of(take) : Optional.empty();
    wrong.ifPresent(
        message ->
            results.notice(
                Notice.fault(
                    "takes." + take.id(),
                    message,
                    "check the polarity of the probes, or leave the phase column away with"
                        + " 'read: { columns: [frequency, magnitude, ignore] }'")));
    return wrong.isPresent();
  }

  private void scale() {
    ScaleCheck check = fit.scaleCheck();
    List<ScaleCheck.Opinion> opinions = check.opinions();
    for (ScaleCheck.Conflict pair : check.pairs()) {
      results.crossCheck(
          new CrossCheck(
              "drive-unit.mms." + slug(pair.first()) + "." + slug(pair.second()),
              "moving mass",
              pair.first(),
              mass(opinions, pair.first()),
              pair.second(),
              mass(opinions, pair.second()),
              "kg",
              pair.sigmas()));
    }
    check
        .conflict()
        .ifPresent(
            c -> {
              Optional<String> guilty = check.guilty();
              String message =
                  String.format(
                      Locale.ROOT,
                      "%s and %s disagree on the moving mass by %.1f σ: %s against %s g",
                      c.first(),
                      c.second(),
                      c.sigmas(),
                      Shown.digits(1000 * mass(opinions, c.first()).value(), 4),
                      Shown.digits(1000 * mass(opinions, c.second()).value(), 4));
              results.notice(
                  guilty
                      .map(
                          g ->
                              Notice.fault(
                                  DriveUnitExam.ABOUT,
                                  message
                                      + "; the others agree without "
                                      + g
                                      + ", so it is left"
                                      + " out",
                                  "weigh or measure again what stands for " + g))
                      .orElseGet(
                          () ->
                              Notice.fault(
                                  DriveUnitExam.ABOUT,
                                  message + "; one of the two is wrong and the result covers both",
                                  "weigh the mass again, measure the volume and the piston again, or"
                                      + " add a third way")));
            });
  }

  private static Estimate mass(List<ScaleCheck.Opinion> opinions, String about) {
    return opinions.stream()
        .filter(o -> o.about().equals(about))
        .map(ScaleCheck.Opinion::movingMass)
        .findFirst()
        .orElseThrow();
  }

  private static String slug(String about) {
    return about.replace(' ', '-');
  }

  /** Takes in one set-up must show one resonance. */
  static void drift(JointFit fit, String symbol, String remedy, Results results) {
    fit.drift()
        .ifPresent(
            d -> {
              Estimate a = d.resonances().get(0);
              for (int i = 1; i < d.takes().size(); i++) {
                Estimate b = d.resonances().get(i);
                if (a.disagreement(b) > 3.5) {
                  results.notice(
                      Notice.caution(
                          "takes." + d.takes().get(i),
                          String.format(
                              Locale.ROOT,
                              "%s drifted by %s %% from %s to %s (%.1f σ); every result allows for as"
                                  + " much between any two takes",
                              symbol,
                              signedPercent(b.value() / a.value() - 1),
                              d.takes().get(0),
                              d.takes().get(i),
                              a.disagreement(b)),
                          remedy));
                }
              }
            });
  }

  private static String signedPercent(double x) {
    return (x < 0 ? "−" : "+") + Shown.digits(100 * Math.abs(x), 2);
  }
}
