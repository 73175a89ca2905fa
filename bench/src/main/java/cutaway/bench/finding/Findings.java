package cutaway.bench.finding;

import java.util.List;
import java.util.Optional;

/**
 * Everything a solve yields, in the order it is to be shown.
 *
 * @param findings derived results
 * @param notices what to know about the input, gravest first
 * @param crossChecks independent ways to one quantity
 * @param judgements claims held against findings
 * @param curves measured, fitted and predicted curves
 * @param nextReadings what to measure next, most telling first
 * @param shapes how the walls move, for pictures
 * @param spectrograms how knocks die away, for pictures
 * @param suspicion who makes a noise, where sounds were taken
 */
public record Findings(
    List<Finding> findings,
    List<Notice> notices,
    List<CrossCheck> crossChecks,
    List<Judgement> judgements,
    List<Curve> curves,
    List<NextReading> nextReadings,
    List<ModeShape> shapes,
    List<Spectrogram> spectrograms,
    Optional<Suspicion> suspicion) {
  /** None. */
  public static final Findings NONE =
      new Findings(
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          Optional.empty());

  /** Copies its lists. */
  public Findings {
    findings = List.copyOf(findings);
    notices = List.copyOf(notices);
    crossChecks = List.copyOf(crossChecks);
    judgements = List.copyOf(judgements);
    curves = List.copyOf(curves);
    nextReadings = List.copyOf(nextReadings);
    shapes = List.copyOf(shapes);
    spectrograms = List.copyOf(spectrograms);
  }

  /** A finding by its id. */
  public Optional<Finding> finding(String id) {
    return findings.stream().filter(f -> f.id().equals(id)).findFirst();
  }

  /** A curve by its id. */
  public Optional<Curve> curve(String id) {
    return curves.stream().filter(c -> c.id().equals(id)).findFirst();
  }
}
