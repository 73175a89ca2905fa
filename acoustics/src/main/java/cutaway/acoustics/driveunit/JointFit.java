package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Covariance;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.Noise;
import cutaway.acoustics.estimate.SingularInformationException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

/**
 * One fit over every take and reading of a drive unit.
 *
 * <p>{@link #of} tries the kinds of coil, suspension, support and box in turn and keeps what
 * Schwarz's criterion prefers. Quantities that no reading determines are absent.
 */
public final class JointFit {
  private final List<Take> bench;
  private final Readings readings;
  private final Candidate best;
  private static final double NEGLIGIBLE = 0.1;

  private final List<Rival> rivals;
  private final ScaleCheck scaleCheck;
  private final double[] theta;
  private final Covariance covariance;

  private JointFit(
      List<Take> bench,
      Readings readings,
      Candidate best,
      ScaleCheck scaleCheck,
      List<Rival> rivals) {
    this.rivals = List.copyOf(rivals);
    this.bench = bench;
    this.readings = readings;
    this.best = best;
    this.scaleCheck = scaleCheck;
    this.theta = best.solution().theta();
    this.covariance = best.solution().covariance();
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
        rivals.add(new Rival(new JointFit(takes, readings, rival, check, List.of()), c.weight()));
      }
    }
    Candidate best = scale.isEmpty() ? unscaled : scaled(unscaled, check, takes, readings);
    if (!best.determined() && !rivals.isEmpty()) {
      // the readings have pushed a value of this choice out of sight: the nearest rival holds
      Rival next = rivals.stream().max(Comparator.comparingDouble(Rival::weight)).orElseThrow();
      rivals.remove(next);
      best = next.fit().best;
    }
    return new JointFit(takes, readings, best, check, rivals);
  }

  /** A choice of model that the data cannot tell from the best, and its weight against it. */
  private record Rival(JointFit fit, double weight) {}

  /**
   * A quantity with the uncertainty of the choice of model counted in: rivals that explain the
   * takes nearly as well pull its value and widen it by their spread (J. A. Hoeting et al.,
   * Statist. Sci. 14 (1999) 382–417, from memory).
   */
  public Estimate averaged(Function<JointFit, Estimate> quantity) {
    return averagedIfShown(quantity.andThen(Optional::of)).orElseThrow();
  }

  /**
   * The same for a quantity that may be absent; absent too where a rival that counts lacks it, and
   * with this fit's own in place of a lesser rival's.
   */
  public Optional<Estimate> averagedIfShown(Function<JointFit, Optional<Estimate>> quantity) {
    Optional<Estimate> own = quantity.apply(this);
    if (own.isEmpty()) {
      return own;
    }
    Estimate best = own.get();
    double weight = 1;
    double shift = 0;
    double square = square(best.sd());
    for (Rival r : rivals) {
      Optional<Estimate> its = quantity.apply(r.fit());
      if (its.isEmpty() && r.weight() >= NEGLIGIBLE) {
        return its;
      }
      Estimate e = its.orElse(best);
      double off = e.value() - best.value();
      weight += r.weight();
      shift += r.weight() * off;
      square += r.weight() * (square(e.sd()) + square(off));
    }
    double mean = shift / weight;
    return Optional.of(
        new Estimate(best.value() + mean, Math.sqrt(square / weight - square(mean))));
  }

  /**
   * The same for a curve, point by point.
   *
   * @param curve values, then standard uncertainties
   */
  private double[][] averagedCurve(Function<JointFit, double[][]> curve) {
    List<JointFit> fits = new ArrayList<>(List.of(this));
    rivals.forEach(r -> fits.add(r.fit()));
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
    return best.model().choice().loads().get(take).symbols().stream()
        .filter(s -> s.startsWith("Q"))
        .filter(s -> averagedIfShown(f -> f.boxValue(take, s)).isEmpty())
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

  private Estimate derive(ToDoubleFunction<double[]> quantity) {
    return covariance.propagate(theta, quantity);
  }

  private Layout layout() {
    return best.model().layout();
  }

  /** The takes, in the order given. */
  public List<Take> bench() {
    return bench;
  }

  /** The single readings that were used. */
  public Readings readings() {
    return readings;
  }

  /** The kind of coil loss found, with its values. */
  public CoilLoss coil() {
    double[] values = new double[best.model().choice().coil().size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(theta[layout().coil + i]);
    }
    return best.model().choice().coil().with(values);
  }

  /** Each value of the coil loss, SI, in the order of its symbols. */
  public List<Estimate> coilValues() {
    List<Estimate> out = new ArrayList<>();
    for (int i = 0; i < best.model().choice().coil().size(); i++) {
      int at = layout().coil + i;
      out.add(derive(t -> Math.exp(t[at])));
    }
    return out;
  }

  /** The kind of suspension found, with its shape. */
  public Suspension suspension() {
    Suspension kind = best.model().choice().suspension();
    return layout().suspension < 0 ? kind : kind.with(theta[layout().suspension]);
  }

  /** Uncertainty of the suspension's shape, absent for a plain one. */
  public Optional<Estimate> suspensionShape() {
    int at = layout().suspension;
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> t[at]));
  }

  /** Resonance of the frame on its support where the takes show one: frequency, Hz. */
  public Optional<Estimate> supportResonance() {
    int at = layout().supportMass;
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at + 1])));
  }

  /** DC resistance of the coil during the first take, Ω. */
  public Estimate re() {
    return derive(t -> Math.exp(t[Layout.RE]));
  }

  /** DC resistance of the coil during a take, Ω. */
  public Estimate re(int take) {
    int at = layout().take(take).resistance();
    return derive(t -> Math.exp(t[Layout.RE] + (at < 0 ? 0 : t[at])));
  }

  /** Whether a take's coil resistance was found to differ from the first take's. */
  public boolean ownResistance(int take) {
    return layout().take(take).resistance() >= 0;
  }

  /** Free-air resonance, Hz. */
  public Estimate fs() {
    return derive(t -> Math.exp(t[Layout.FS]));
  }

  /** Mechanical Q at f_s. */
  public Estimate qms() {
    return derive(t -> Math.exp(t[Layout.QMS]));
  }

  /** Electrical Q at f_s. */
  public Estimate qes() {
    return derive(t -> Math.exp(t[Layout.QES]));
  }

  /** Total Q at f_s. */
  public Estimate qts() {
    return derive(JointFit::qts);
  }

  private static double qts(double[] t) {
    return 1 / (Math.exp(-t[Layout.QMS]) + Math.exp(-t[Layout.QES]));
  }

  /** Bl²/R_e, N·s/m, where the mass is known. */
  public Optional<Estimate> motorDamping() {
    return withMass(m -> t -> omega(t) * Math.exp(t[m] - t[Layout.QES]));
  }

  private interface ByMass {
    ToDoubleFunction<double[]> at(int massIndex);
  }

  private Optional<Estimate> withMass(ByMass quantity) {
    int m = layout().movingMass;
    return m < 0 ? Optional.empty() : Optional.of(derive(quantity.at(m)));
  }

  private static double omega(double[] t) {
    return 2 * Math.PI * Math.exp(t[Layout.FS]);
  }

  /** Moving mass with its free-air load, kg. */
  public Optional<Estimate> mms() {
    return withMass(m -> t -> Math.exp(t[m]));
  }

  /** Compliance, m/N. */
  public Optional<Estimate> cms() {
    return withMass(m -> t -> 1 / (omega(t) * omega(t) * Math.exp(t[m])));
  }

  /** Whole mechanical resistance at f_s, N·s/m. */
  public Optional<Estimate> rms() {
    return withMass(m -> t -> omega(t) * Math.exp(t[m] - t[Layout.QMS]));
  }

  /** Force factor, T·m. */
  public Optional<Estimate> bl() {
    return withMass(m -> t -> Math.sqrt(omega(t) * Math.exp(t[m] + t[Layout.RE] - t[Layout.QES])));
  }

  /** Piston area, m². */
  public Optional<Estimate> sd() {
    int at = layout().area;
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
  }

  /** Equivalent volume of the suspension, m³. */
  public Optional<Estimate> vas() {
    int s = layout().area;
    if (s < 0) {
      return Optional.empty();
    }
    Estimate stiffness = readings.air().stiffness();
    return withMass(m -> t -> stiffness.value() * Math.exp(2 * t[s] - t[m]) / (omega(t) * omega(t)))
        .map(v -> v.widened(stiffness.relativeSd()));
  }

  private static double hypot(Estimate a, Estimate b) {
    return Math.hypot(a.relativeSd(), b.relativeSd());
  }

  /** Reference efficiency, dimensionless (R. H. Small 1972): ρ Bl² S_d² / (2π c R_e M_ms²). */
  public Optional<Estimate> efficiency() {
    int s = layout().area;
    if (s < 0) {
      return Optional.empty();
    }
    double density = readings.air().density().value();
    double c = readings.air().soundSpeed().value();
    double air = hypot(readings.air().density(), readings.air().soundSpeed());
    return withMass(
            m ->
                t ->
                    density
                        / (2 * Math.PI * c)
                        * omega(t)
                        * Math.exp(2 * t[s] - t[m] - t[Layout.QES]))
        .map(e -> e.widened(air));
  }

  /** Half-space pressure at 1 m for an rms voltage above resonance, Pa. */
  public Optional<Estimate> pressure(double volts) {
    int s = layout().area;
    if (s < 0) {
      return Optional.empty();
    }
    double density = readings.air().density().value();
    return withMass(
            m ->
                t -> {
                  double bl = Math.sqrt(omega(t) * Math.exp(t[m] + t[Layout.RE] - t[Layout.QES]));
                  return density
                      * bl
                      * Math.exp(t[s] - t[m] - t[Layout.RE])
                      * volts
                      / (2 * Math.PI);
                })
        .map(e -> e.widened(readings.air().density().relativeSd()));
  }

  /** Coil reactance over ω at a frequency, H. */
  public Estimate inductance(double hertz) {
    CoilLoss kind = best.model().choice().coil();
    int at = layout().coil;
    double omega = 2 * Math.PI * hertz;
    return derive(
        t -> {
          double[] values = new double[kind.size()];
          for (int i = 0; i < values.length; i++) {
            values[i] = Math.exp(t[at + i]);
          }
          double[][] out = new double[12][1];
          kind.with(values).at(new double[] {omega}, out);
          return out[1][0] / omega;
        });
  }

  /** Added over moving mass in a take with an added mass. */
  public Optional<Estimate> addedMassRatio(int take) {
    int at = layout().take(take).addedMass();
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
  }

  /** The box found behind the diaphragm in a take, absent in free air. */
  public Optional<RearLoad> load(int take) {
    RearLoad load = best.model().choice().loads().get(take);
    return load instanceof NoLoad ? Optional.empty() : Optional.of(load);
  }

  /** Whether a take in the unit's box was found to have other air behind it than the first. */
  public boolean ownVolume(int take) {
    return best.model().choice().ownVolume().get(take);
  }

  /** Stiffness of a take's box over that of the suspension, α = V_as/V_ab. */
  public Optional<Estimate> alpha(int take) {
    int at = layout().take(take).stiffness();
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
  }

  /** Effective volume of a take's box, m³, where mass and area are known. */
  public Optional<Estimate> boxVolume(int take) {
    int at = layout().take(take).stiffness();
    int s = layout().area;
    if (at < 0 || s < 0) {
      return Optional.empty();
    }
    Estimate stiffness = readings.air().stiffness();
    return withMass(
            m -> t -> stiffness.value() * Math.exp(2 * t[s] - t[m] - t[at]) / (omega(t) * omega(t)))
        .map(v -> v.widened(stiffness.relativeSd()));
  }

  /** Tuning of a take's box over the free-air resonance, h = f_b/f_s. */
  public Optional<Estimate> tuningRatio(int take) {
    int at = symbol(take, "f_b");
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at] - t[Layout.FS])));
  }

  /** Acoustic mass of a take's port or passive radiator, M_AP = (1+δ)/(ω_b² C_ab), kg/m⁴. */
  public Optional<Estimate> portMass(int take) {
    int fb = symbol(take, "f_b");
    int delta = symbol(take, "δ");
    return fb < 0
        ? Optional.empty()
        : boxDerived(
            take,
            t -> (delta < 0 ? 1 : 1 + Math.exp(t[delta])) / square(2 * Math.PI * Math.exp(t[fb])));
  }

  /** Acoustic compliance of a take's passive radiator, C_AP = C_ab/δ, m⁵/N. */
  public Optional<Estimate> radiatorCompliance(int take) {
    int delta = symbol(take, "δ");
    return delta < 0
        ? Optional.empty()
        : boxDerived(take, t -> Math.exp(t[delta]))
            .map(e -> Estimate.relative(1 / e.value(), e.relativeSd()));
  }

  /** Acoustic resistance of a take's leak, R_L = Q_L/(ω_0 C_ab) at f_b, or f_s inside, N·s/m⁵. */
  public Optional<Estimate> leakResistance(int take) {
    int leak = symbol(take, "Q_L");
    int fb = symbol(take, "f_b");
    return leak < 0
        ? Optional.empty()
        : boxDerived(
            take, t -> Math.exp(t[leak]) / (2 * Math.PI * Math.exp(t[fb < 0 ? Layout.FS : fb])));
  }

  /** A quantity over C_ab = S_d²/(α ω_s² M_ms), which needs no property of the air. */
  private Optional<Estimate> boxDerived(int take, ToDoubleFunction<double[]> over) {
    int at = layout().take(take).stiffness();
    int s = layout().area;
    return at < 0 || s < 0
        ? Optional.empty()
        : withMass(
            m -> t -> over.applyAsDouble(t) * square(omega(t)) * Math.exp(t[at] + t[m] - 2 * t[s]));
  }

  /** Where a parameter of a take's box stands, −1 where it has none of the name. */
  private int symbol(int take, String symbol) {
    int index = best.model().choice().loads().get(take).symbols().indexOf(symbol);
    return index < 0 ? -1 : layout().take(take).load() + index;
  }

  /** Coil resistance of a take over that of the first, dimensionless. */
  public Optional<Estimate> resistanceRatio(int take) {
    int at = layout().take(take).resistance();
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
  }

  /** Resonance in a take's box with its vent stopped and no losses, Hz. */
  public Optional<Estimate> fc(int take) {
    Layout.TakeSlots slots = layout().take(take);
    if (slots.stiffness() < 0) {
      return Optional.empty();
    }
    return Optional.of(derive(t -> Math.exp(t[Layout.FS]) * closedRatio(t, slots)));
  }

  /**
   * Total Q of a take's closed box at f_c: the moving mass's reactance over every loss, leak and
   * absorption among them.
   */
  public Optional<Estimate> qtc(int take) {
    Layout.TakeSlots slots = layout().take(take);
    if (slots.stiffness() < 0) {
      return Optional.empty();
    }
    return Optional.of(derive(t -> qtc(t, take, slots)));
  }

  private double qtc(double[] t, int take, Layout.TakeSlots slots) {
    TakeModel model = new TakeModel(best.model().choice(), layout(), take, t);
    double u = closedRatio(t, slots);
    double[] motion = new double[12];
    model.motion(u * model.fs(), motion);
    double mass = 1 + (slots.boxMass() < 0 ? 0 : Math.exp(t[slots.boxMass()]));
    return u * mass / (motion[2] + Math.exp(-t[Layout.QES]));
  }

  private static double closedRatio(double[] t, Layout.TakeSlots slots) {
    double mass = 1 + (slots.boxMass() < 0 ? 0 : Math.exp(t[slots.boxMass()]));
    return Math.sqrt((1 + Math.exp(t[slots.stiffness()])) / mass);
  }

  /** Extra air mass moved in a take's box over the moving mass, where one was found. */
  public Optional<Estimate> boxAirMassRatio(int take) {
    int at = layout().take(take).boxMass();
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
  }

  /** A parameter of a take's box by its symbol (f_b in Hz, Q_P, Q_L, Q_A at f_b or f_c, δ). */
  public Optional<Estimate> boxValue(int take, String symbol) {
    Layout.TakeSlots slots = layout().take(take);
    RearLoad load = best.model().choice().loads().get(take);
    int index = load.symbols().indexOf(symbol);
    if (index < 0) {
      return Optional.empty();
    }
    int at = slots.load() + index;
    if (load.ownFrequency() || !symbol.startsWith("Q")) {
      return Optional.of(derive(t -> Math.exp(t[at])));
    }
    // a closed box counts its losses at f_s inside the fit, at f_c outside
    double sign = symbol.equals("Q_L") ? 1 : -1;
    return Optional.of(derive(t -> Math.exp(t[at]) * Math.pow(closedRatio(t, slots), sign)));
  }

  /** Scale of a take's relative residuals, dimensionless (times its own σ where it has one). */
  public Noise noise(int take) {
    return best.noise(take);
  }

  /**
   * Residuals ln(Z_model/Z_measured) of a take: the real parts of every point, then the imaginary
   * parts where the phase is known.
   */
  public double[] residual(int take) {
    int from = best.model().firstRow(take);
    int n = bench.get(take).curve().size() * best.model().width(take);
    return Arrays.copyOfRange(best.solution().residual(), from, from + n);
  }

  /** Model impedance of a take at frequencies in Hz: real parts, then imaginary parts, Ω. */
  public double[][] impedance(int take, double[] frequency) {
    return impedance(take, theta, frequency);
  }

  private double[][] impedance(int take, double[] t, double[] frequency) {
    TakeResponse response = new TakeResponse(frequency, layout().size);
    new TakeModel(best.model().choice(), layout(), take, t).at(response, false);
    return response.impedance;
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
    Layout layout = layout();
    if (layout.movingMass < 0 || layout.area < 0) {
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

  /** All quantities of one frequency together: they share the work of solving it. */
  private double[][] predicted(
      int take, Drive drive, double[] frequency, List<Quantity> quantities) {
    int n = frequency.length;
    return covariance.propagateCurve(
        theta,
        t -> {
          SmallSignal system = smallSignal(take, drive, t);
          double[] out = new double[n * quantities.size()];
          for (int i = 0; i < n; i++) {
            for (int q = 0; q < quantities.size(); q++) {
              out[q * n + i] = quantities.get(q).at(system, frequency[i]);
            }
          }
          return out;
        });
  }

  /** A quantity of the small-signal behaviour at one frequency. */
  @FunctionalInterface
  public interface Quantity {
    /** The quantity at f in Hz. */
    double at(SmallSignal system, double f);
  }

  /** A number of a take's small-signal behaviour, absent where mass or area are not known. */
  public Optional<Estimate> derived(int take, Drive drive, ToDoubleFunction<SmallSignal> quantity) {
    if (layout().movingMass < 0 || layout().area < 0) {
      return Optional.empty();
    }
    return Optional.of(derive(t -> quantity.applyAsDouble(smallSignal(take, drive, t))));
  }

  /** A take's small-signal behaviour at the best parameters, absent without mass or area. */
  public Optional<SmallSignal> system(int take, Drive drive) {
    boolean known = layout().movingMass >= 0 && layout().area >= 0;
    return known ? Optional.of(smallSignal(take, drive, theta)) : Optional.empty();
  }

  private SmallSignal smallSignal(int take, Drive drive, double[] t) {
    return new SmallSignal(
        new TakeModel(best.model().choice(), layout(), take, t),
        Math.exp(t[layout().movingMass]),
        Math.exp(t[layout().area]),
        readings.air(),
        drive);
  }

  /** Model impedance magnitude of a take with its uncertainty, Ω. */
  public double[][] impedanceBand(int take, double[] frequency) {
    return averagedCurve(
        f -> f.covariance.propagateCurve(f.theta, t -> f.magnitudes(take, t, frequency)));
  }

  private double[] magnitudes(int take, double[] t, double[] frequency) {
    double[][] z = impedance(take, t, frequency);
    double[] out = new double[frequency.length];
    for (int i = 0; i < out.length; i++) {
      out[i] = Math.hypot(z[0][i], z[1][i]);
    }
    return out;
  }

  /**
   * Frequency of an extremum of a take's model impedance magnitude, Hz.
   *
   * @param low lower bound of the bracket, Hz
   * @param high upper bound, Hz; the bracket must hold one extremum
   * @param maximum whether it is a maximum
   */
  public Estimate extremum(int take, double low, double high, boolean maximum) {
    return derive(
        t -> {
          TakeModel model = new TakeModel(best.model().choice(), layout(), take, t);
          double[] z = new double[2];
          return Extremum.find(
              f -> {
                model.at(f, z);
                double square = z[0] * z[0] + z[1] * z[1];
                return maximum ? -square : square;
              },
              low,
              high);
        });
  }

  /** What a further take or reading would tell. */
  public List<Plan.Proposal> proposals() {
    return new Plan(bench, readings, best, scaleCheck).proposals();
  }
}
