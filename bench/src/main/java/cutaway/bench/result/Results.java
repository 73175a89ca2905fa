package cutaway.bench.result;

import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Judgement;
import cutaway.bench.finding.ModeShape;
import cutaway.bench.finding.NextReading;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Spectrogram;
import cutaway.bench.finding.Suspicion;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Collects what the exams yield, in order. */
public final class Results {
  private final Evidence evidence;
  private final List<Finding> findings = new ArrayList<>();
  private final List<Notice> notices = new ArrayList<>();
  private final List<CrossCheck> crossChecks = new ArrayList<>();
  private final List<Judgement> judgements = new ArrayList<>();
  private final List<Curve> curves = new ArrayList<>();
  private final List<NextReading> nextReadings = new ArrayList<>();
  private final List<ModeShape> shapes = new ArrayList<>();
  private final List<Spectrogram> spectrograms = new ArrayList<>();
  private Optional<Suspicion> suspicion = Optional.empty();

  public Results(Evidence evidence) {
    this.evidence = evidence;
  }

  /** Takes over what another exam found. */
  public void add(Findings part) {
    findings.addAll(part.findings());
    notices.addAll(part.notices());
    crossChecks.addAll(part.crossChecks());
    judgements.addAll(part.judgements());
    curves.addAll(part.curves());
    nextReadings.addAll(part.nextReadings());
    shapes.addAll(part.shapes());
    spectrograms.addAll(part.spectrograms());
    suspicion = part.suspicion().or(() -> suspicion);
  }

  public void add(
      String id,
      String name,
      String symbol,
      Estimate estimate,
      String unit,
      String method,
      List<String> restsOn,
      String... cautions) {
    findings.add(
        new Finding(
            id,
            name,
            symbol,
            estimate,
            unit,
            method,
            restsOn,
            evidence.of(restsOn),
            List.of(cautions)));
  }

  public void add(
      String id,
      String name,
      String symbol,
      Optional<Estimate> estimate,
      String unit,
      String method,
      List<String> restsOn,
      String... cautions) {
    estimate.ifPresent(e -> add(id, name, symbol, e, unit, method, restsOn, cautions));
  }

  public void notice(Notice notice) {
    notices.add(notice);
  }

  public void crossCheck(CrossCheck check) {
    crossChecks.add(check);
  }

  public void judge(Judgement judgement) {
    judgements.add(judgement);
  }

  public void curve(Curve curve) {
    curves.add(curve);
  }

  public void next(NextReading next) {
    nextReadings.add(next);
  }

  public void shape(ModeShape shape) {
    shapes.add(shape);
  }

  public void spectrogram(Spectrogram spectrogram) {
    spectrograms.add(spectrogram);
  }

  public void suspicion(Suspicion what) {
    suspicion = Optional.of(what);
  }

  public Optional<Finding> finding(String id) {
    return findings.stream().filter(f -> f.id().equals(id)).findFirst();
  }

  /** Ids of everything found so far. */
  public List<String> ids() {
    return findings.stream().map(Finding::id).toList();
  }

  /** Everything so far, the gravest notices first. */
  public Findings done() {
    List<Notice> sorted = new ArrayList<>(notices);
    sorted.sort(Comparator.comparing(Notice::severity).reversed());
    return new Findings(
        findings,
        sorted,
        crossChecks,
        judgements,
        curves,
        nextReadings,
        shapes,
        spectrograms,
        suspicion);
  }
}
