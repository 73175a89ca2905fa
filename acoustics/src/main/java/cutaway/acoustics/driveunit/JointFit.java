package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.SingularInformationException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * One fit over every take and reading of a drive unit.
 *
 * <p>{@link #of} tries the kinds of coil, suspension, support and box in turn and keeps what
 * Schwarz's criterion prefers. Quantities that no reading determines are absent.
 */
public final class JointFit {
  /** A rival that weighs less than this against the best does not make a quantity doubtful. */
  private static final double NEGLIGIBLE = 0.1;

  private final List<Take> bench;
  private final Readings readings;
  private final Fitted best;
  private final List<Rival> rivals;
  private final ScaleCheck scaleCheck;
  private final Optional<Drift> drift;

  private JointFit(
      List<Take> bench,
      Readings readings,
      Fitted best,
      ScaleCheck scaleCheck,
      Optional<Drift> drift,
      List<Rival> rivals) {
    this.bench = bench;
    this.readings = readings;
    this.best = best;
    this.scaleCheck = scaleCheck;
    this.drift = drift;
    this.rivals = List.copyOf(rivals);
  }

  /**
   * Fits.
   *
   * @param bench the takes, at least one, each with at least eight points
   * @param readings what else is known
   * @throws cutaway.acoustics.estimate.SingularInformationException where not even the plainest
   *     model is determined
   */
  public static JointFit of(List<Take> bench, Readings readings) {
    if (bench.isEmpty()) {
      throw new IllegalArgumentException("no take to fit");
    }
    List<Take> takes = List.copyOf(bench);
    Optional<Drift> drift = Drift.of(takes, readings);
    return of(
        takes, drift.map(d -> readings.withResonanceSpread(d.spread())).orElse(readings), drift);
  }

  private static JointFit of(List<Take> takes, Readings readings, Optional<Drift> drift) {
    ModelSearch.Outcome outcome = ModelSearch.run(takes, readings);
    Candidate unscaled = outcome.best();
    if (!unscaled.determined()) {
      throw new SingularInformationException("no model is determined by these takes");
    }
    List<ScaleReading> scale = scaleReadings(takes, readings);
    ScaleCheck check = ScaleCheck.of(unscaled, scale, readings);
    List<Rival> rivals = new ArrayList<>();
    for (ModelSearch.Contender c : outcome.contenders()) {
      Candidate rival =
          scale.isEmpty() ? c.candidate() : scaled(c.candidate(), check, takes, readings);
      if (rival.determined()) {
        rivals.add(new Rival(new Fitted(takes, readings, rival), c.weight()));
      }
    }
    Candidate best = scale.isEmpty() ? unscaled : scaled(unscaled, check, takes, readings);
    if (!best.determined() && !rivals.isEmpty()) {
      // the readings have pushed a value of this choice out of sight: the nearest rival holds
      Rival next = rivals.stream().max(Comparator.comparingDouble(Rival::weight)).orElseThrow();
      rivals.remove(next);
      rivals.replaceAll(r -> new Rival(r.fitted(), r.weight() / next.weight()));
      best = next.fitted().candidate();
    }
    return new JointFit(takes, readings, new Fitted(takes, readings, best), check, drift, rivals);
  }

  /** A choice of model that the data cannot tell from the best, and its weight against it. */
  private record Rival(Fitted fitted, double weight) {}

  /**
   * A quantity with the uncertainty of the choice of model counted in: rivals that explain the
   * takes nearly as well pull its value and widen it by their spread (J. A. Hoeting et al.,
   * Statist. Sci. 14 (1999) 382–417, from memory).
   */
  public Estimate averaged(Function<Fitted, Estimate> quantity) {
    return averagedIfShown(quantity.andThen(Optional::of)).orElseThrow();
  }

  /**
   * The same for a quantity that may be absent; absent too where a rival that counts lacks it, and
   * with this fit's own in place of a lesser rival's.
   */
  public Optional<Estimate> averagedIfShown(Function<Fitted, Optional<Estimate>> quantity) {
    Optional<Estimate> shown = quantity.apply(best);
    if (shown.isEmpty()) {
      return shown;
    }
    Estimate own = shown.get();
    double weight = 1;
    double shift = 0;
    double square = square(own.sd());
    for (Rival r : rivals) {
      Optional<Estimate> its = quantity.apply(r.fitted());
      if (its.isEmpty() && r.weight() >= NEGLIGIBLE) {
        return its;
      }
      Estimate e = its.orElse(own);
      double off = e.value() - own.value();
      weight += r.weight();
      shift += r.weight() * off;
      square += r.weight() * (square(e.sd()) + square(off));
    }
    double mean = shift / weight;
    return Optional.of(
        new Estimate(
            own.value() + mean,
            Math.sqrt(Math.max(square(own.sd()) / weight, square / weight - square(mean)))));
  }

  /**
   * The same for a curve, point by point.
   *
   * @param curve values, then standard uncertainties
   */
  private double[][] averagedCurve(Function<Fitted, double[][]> curve) {
    List<Fitted> fits = new ArrayList<>(List.of(best));
    rivals.forEach(r -> fits.add(r.fitted()));
    List<double[][]> curves = fits.parallelStream().map(curve).toList();
    double[][] own = curves.get(0);
    int n = own[0].length;
    double weight = 1;
    double[] mean = own[0].clone();
    double[] square = new double[n];
    for (int i = 0; i < n; i++) {
      square[i] = square(own[1][i]) + square(own[0][i]);
    }
    for (int k = 0; k < rivals.size(); k++) {
      double[][] its = curves.get(k + 1);
      double w = rivals.get(k).weight();
      weight += w;
      for (int i = 0; i < n; i++) {
        mean[i] += w * its[0][i];
        square[i] += w * (square(its[1][i]) + square(its[0][i]));
      }
    }
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      mean[i] /= weight;
      sd[i] = Math.sqrt(Math.max(square(own[1][i]) / weight, square[i] / weight - square(mean[i])));
    }
    return new double[][] {mean, sd};
  }

  /** Losses that this model has and a rival that counts has not, by their symbols. */
  public List<String> undecidedLosses(int take) {
    return best.choice().loads().get(take).symbols().stream()
        .filter(s -> s.startsWith("Q"))
        .filter(s -> averagedIfShown(f -> f.box(take).value(s)).isEmpty())
        .toList();
  }

  private static double square(double x) {
    return x * x;
  }

  static List<ScaleReading> scaleReadings(List<Take> bench, Readings readings) {
    List<ScaleReading> out = new ArrayList<>();
    for (int k = 0; k < bench.size(); k++) {
      Take take = bench.get(k);
      if (take.mounting() instanceof Mounting.AddedMass added) {
        out.add(new ScaleReading.Mass(k, take.id(), added.mass()));
      } else if (take.mounting() instanceof Mounting.Boxed boxed
          && boxed.volume().isPresent()
          && readings.pistonDiameter().isPresent()) {
        out.add(new ScaleReading.Volume(k, take.id(), boxed.volume().orElseThrow()));
      }
    }
    readings.movingMass().ifPresent(m -> out.add(new ScaleReading.MovingMass(m)));
    return List.copyOf(out);
  }

  private static Candidate scaled(
      Candidate unscaled, ScaleCheck check, List<Take> bench, Readings readings) {
    JointModel model = new JointModel(unscaled.model().choice(), bench, readings, check.credible());
    double[] start = unscaled.model().layout().carriedTo(model.layout(), unscaled.solution());
    start[model.layout().movingMass] = Math.log(check.opinions().get(0).movingMass().value());
    return Candidate.fit(model, bench, start);
  }

  /** Whether the readings that tell the moving mass agree. */
  public ScaleCheck scaleCheck() {
    return scaleCheck;
  }

  /** The takes, in the order given. */
  public List<Take> bench() {
    return bench;
  }

  /** How the suspension wandered between takes in free air, where it did. */
  public Optional<Drift> drift() {
    return drift;
  }

  /** The single readings that were used. */
  public Readings readings() {
    return readings;
  }

  /**
   * Curves of a take's small-signal behaviour with their uncertainty, the choice of model counted
   * in; the air's is not.
   *
   * @param quantities each gives a quantity at a frequency in Hz
   * @return for each, values, then standard uncertainties; none where mass or area are not known
   */
  public List<double[][]> predict(
      int take, Drive drive, double[] frequency, List<Quantity> quantities) {
    if (!best.predicts()) {
      return List.of();
    }
    double[][] all = averagedCurve(f -> f.predicted(take, drive, frequency, quantities));
    int n = frequency.length;
    List<double[][]> out = new ArrayList<>();
    for (int q = 0; q < quantities.size(); q++) {
      out.add(
          new double[][] {
            Arrays.copyOfRange(all[0], q * n, (q + 1) * n),
            Arrays.copyOfRange(all[1], q * n, (q + 1) * n)
          });
    }
    return List.copyOf(out);
  }

  /** A quantity of the small-signal behaviour at one frequency. */
  @FunctionalInterface
  public interface Quantity {
    /** The quantity at f in Hz. */
    double at(SmallSignal system, double f);
  }

  /** Model impedance magnitude of a take with its uncertainty, Ω. */
  public double[][] impedanceBand(int take, double[] frequency) {
    return averagedCurve(f -> f.magnitudeBand(take, frequency));
  }

  /** What a further take or reading would tell. */
  public List<Plan.Proposal> proposals() {
    return new Plan(bench, readings, best.candidate(), scaleCheck).proposals();
  }

  /** The choice of model that the criterion prefers. */
  public Fitted best() {
    return best;
  }
}
