package cutaway.bench.exam;

import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Judgement;
import cutaway.bench.finding.Judgement.Verdict;
import cutaway.bench.finding.Notice;
import cutaway.bench.measure.Kind;
import cutaway.bench.measure.Reading;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Nearness;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.ClaimEntry;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Holds claims against findings.
 *
 * <p>A figure claimed "about" is granted its own rounding and 3 % for the language of brochures;
 * beyond that it is contradicted only where the finding is more than three standard deviations
 * away, and supported only where it lies within the grace with a probability of 95 %.
 */
final class ClaimExam {
  private static final double LENIENCE = 0.03;
  private static final double LEVEL_LENIENCE = 0.5;

  /** One-sided 95 % of a Gaussian. */
  private static final double SURE = 1.645;

  private ClaimExam() {}

  static void run(Sheet sheet, Results results) {
    for (ClaimEntry claim : sheet.claims()) {
      results.judge(judge(claim, results));
    }
  }

  private static Judgement judge(ClaimEntry claim, Results results) {
    Optional<Finding> finding = results.finding(claim.about());
    if (finding.isEmpty()) {
      typo(claim, results);
      return of(claim, Verdict.NOT_SHOWN, "nothing measured tells " + claim.about(), List.of());
    }
    List<String> evidence = List.of(claim.about());
    if (claim.value().isEmpty()) {
      return of(claim, Verdict.NOT_SHOWN, "the claim gives no figure to compare", evidence);
    }
    Finding f = finding.get();
    Optional<Kind> kind = Kind.in(f.unit());
    if (kind.isEmpty()) {
      return of(
          claim, Verdict.NOT_SHOWN, "a figure in " + f.unit() + " cannot be compared", evidence);
    }
    try {
      return compare(
          claim, f.estimate(), Reading.parse(claim.value().get(), kind.get()), f, evidence);
    } catch (Reading.UnreadableException e) {
      results.notice(Notice.caution("claims." + claim.about(), e.what(), e.remedy()));
      return of(claim, Verdict.NOT_SHOWN, "its figure cannot be read", evidence);
    }
  }

  /** A claim about what is no finding's id is the tester's slip, not the maker's. */
  private static void typo(ClaimEntry claim, Results results) {
    Nearness.nearest(claim.about(), results.ids())
        .filter(near -> near.length() > 5)
        .ifPresent(
            near ->
                results.notice(
                    Notice.caution(
                        "claims",
                        "'" + claim.about() + "' is the id of nothing that was found",
                        "did you mean '" + near + "'?")));
  }

  private static Judgement compare(
      ClaimEntry claim, Estimate found, Reading value, Finding f, List<String> evidence) {
    double claimed = value.estimate().value();
    // a written tolerance is granted as it stands; a rounded last digit half its step
    double own = value.estimate().sd() * (value.uncertaintyWritten() ? 1 : Math.sqrt(3));
    double grace =
        Math.max(own, f.unit().equals("dB") ? LEVEL_LENIENCE : LENIENCE * Math.abs(claimed));
    double off = found.value() - claimed;
    double wrong =
        switch (claim.sense()) {
          case AT_LEAST -> Math.max(0, -off);
          case AT_MOST -> Math.max(0, off);
          case ABOUT -> Math.abs(off);
        };
    double beyond = Math.max(0, wrong - grace);
    double sigmas = beyond == 0 ? 0 : beyond / Math.max(found.sd(), 1e-300);
    String figures =
        String.format(
            Locale.ROOT,
            "found %s, claimed %s",
            cutaway.bench.finding.Shown.of(f).text(),
            value.text());
    if (beyond > 0 && sigmas > 3) {
      return of(
          claim,
          Verdict.CONTRADICTED,
          figures
              + String.format(
                  Locale.ROOT,
                  ": off by %s, %s",
                  f.unit().equals("dB")
                      ? String.format(Locale.ROOT, "%.1f dB", Math.abs(off))
                      : claimed == 0
                          ? "any measure"
                          : String.format(Locale.ROOT, "%.0f %%", 100 * Math.abs(off / claimed)),
                  sigmas > 20
                      ? "far beyond the uncertainty stated"
                      : String.format(Locale.ROOT, "%.0f σ beyond the grace given", sigmas)),
          evidence);
    }
    if (beyond > 0) {
      return of(claim, Verdict.NOT_SHOWN, figures + ": within three σ, so neither way", evidence);
    }
    double room =
        switch (claim.sense()) {
          case AT_LEAST -> off + grace;
          case AT_MOST -> grace - off;
          case ABOUT -> grace - Math.abs(off);
        };
    return room >= SURE * found.sd()
        ? of(claim, Verdict.SUPPORTED, figures, evidence)
        : of(claim, Verdict.NOT_SHOWN, figures + ": the finding is not sure enough", evidence);
  }

  private static Judgement of(
      ClaimEntry claim, Verdict verdict, String reason, List<String> evidence) {
    return new Judgement(claim.by(), claim.says(), claim.about(), verdict, reason, evidence);
  }
}
