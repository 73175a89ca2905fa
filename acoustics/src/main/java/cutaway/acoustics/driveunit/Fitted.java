package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Covariance;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.Noise;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/**
 * One choice of model with the values it came to, and what follows from them.
 *
 * <p>Quantities that no reading determines are absent. Uncertainties are those of this choice
 * alone; {@link JointFit#averaged} counts the others that the takes cannot tell from it.
 */
public final class Fitted {
  private final List<Take> bench;
  private final Readings readings;
  private final Candidate candidate;
  private final double[] theta;
  private final Covariance covariance;

  Fitted(List<Take> bench, Readings readings, Candidate candidate) {
    this.bench = bench;
    this.readings = readings;
    this.candidate = candidate;
    this.theta = candidate.solution().theta();
    this.covariance = candidate.solution().covariance();
  }

  Candidate candidate() {
    return candidate;
  }

  ModelChoice choice() {
    return candidate.model().choice();
  }

  Layout layout() {
    return candidate.model().layout();
  }

  Readings readings() {
    return readings;
  }

  Estimate derive(ToDoubleFunction<double[]> quantity) {
    return covariance.propagate(theta, quantity);
  }

  /** The kind of coil loss found, with its values. */
  public CoilLoss coil() {
    double[] values = new double[choice().coil().size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(theta[layout().coil + i]);
    }
    return choice().coil().with(values);
  }

  /** Each value of the coil loss, SI, in the order of its symbols. */
  public List<Estimate> coilValues() {
    List<Estimate> out = new ArrayList<>();
    for (int i = 0; i < choice().coil().size(); i++) {
      int at = layout().coil + i;
      out.add(derive(t -> Math.exp(t[at])));
    }
    return out;
  }

  /** The kind of suspension found, with its shape. */
  public Suspension suspension() {
    Suspension kind = choice().suspension();
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

  /** Coil resistance of a take over that of the first, dimensionless. */
  public Optional<Estimate> resistanceRatio(int take) {
    int at = layout().take(take).resistance();
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
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
    return derive(Fitted::qts);
  }

  private static double qts(double[] t) {
    return 1 / (Math.exp(-t[Layout.QMS]) + Math.exp(-t[Layout.QES]));
  }

  /** Bl²/R_e, N·s/m, where the mass is known. */
  public Optional<Estimate> motorDamping() {
    return withMass(m -> t -> omega(t) * Math.exp(t[m] - t[Layout.QES]));
  }

  interface ByMass {
    ToDoubleFunction<double[]> at(int massIndex);
  }

  Optional<Estimate> withMass(ByMass quantity) {
    int m = layout().movingMass;
    return m < 0 ? Optional.empty() : Optional.of(derive(quantity.at(m)));
  }

  static double omega(double[] t) {
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
    return pressure(t -> volts);
  }

  /** The same for √(1 W · R_e), whose error takes back half of what R_e's does. */
  public Optional<Estimate> pressurePerWatt() {
    return pressure(t -> Math.exp(t[Layout.RE] / 2));
  }

  private Optional<Estimate> pressure(ToDoubleFunction<double[]> volts) {
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
                      * volts.applyAsDouble(t)
                      / (2 * Math.PI);
                })
        .map(e -> e.widened(readings.air().density().relativeSd()));
  }

  /** Coil reactance over ω at a frequency, H. */
  public Estimate inductance(double hertz) {
    CoilLoss kind = choice().coil();
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

  /**
   * How far the data have pulled an error of the rig from zero, in standard uncertainties of what
   * was said of it; zero where the takes have none of that source.
   */
  public double rigPull(String source) {
    int i = layout().rigSources.indexOf(source);
    double sd =
        bench.stream()
            .flatMap(t -> t.rigErrors().stream())
            .filter(e -> e.source().equals(source))
            .mapToDouble(RigError::sd)
            .max()
            .orElse(1);
    return i < 0 ? 0 : Math.abs(theta[layout().rig + i]) / sd;
  }

  /** Added over moving mass in a take with an added mass. */
  public Optional<Estimate> addedMassRatio(int take) {
    int at = layout().take(take).addedMass();
    return at < 0 ? Optional.empty() : Optional.of(derive(t -> Math.exp(t[at])));
  }

  /** The box behind the diaphragm in a take; its quantities are absent in free air. */
  public FittedBox box(int take) {
    return new FittedBox(this, take);
  }

  /** Scale of a take's relative residuals, dimensionless (times its own σ where it has one). */
  public Noise noise(int take) {
    return candidate.noise(take);
  }

  /**
   * Residuals ln(Z_model/Z_measured) of a take: the real parts of every point, then the imaginary
   * parts where the phase is known.
   */
  public double[] residual(int take) {
    int from = candidate.model().firstRow(take);
    int n = bench.get(take).curve().size() * candidate.model().width(take);
    return Arrays.copyOfRange(candidate.solution().residual(), from, from + n);
  }

  /** Model impedance of a take at frequencies in Hz: real parts, then imaginary parts, Ω. */
  public double[][] impedance(int take, double[] frequency) {
    return impedance(take, theta, frequency);
  }

  private double[][] impedance(int take, double[] t, double[] frequency) {
    TakeResponse response = new TakeResponse(frequency, layout().size);
    new TakeModel(choice(), layout(), take, t).at(response, false);
    return response.impedance;
  }

  /** All quantities of one frequency together: they share the work of solving it. */
  double[][] predicted(
      int take, Drive drive, double[] frequency, List<JointFit.Quantity> quantities) {
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
        new TakeModel(choice(), layout(), take, t),
        Math.exp(t[layout().movingMass]),
        Math.exp(t[layout().area]),
        readings.air(),
        drive);
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
          TakeModel model = new TakeModel(choice(), layout(), take, t);
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

  /** Impedance magnitudes of a take, values then standard uncertainties, Ω. */
  double[][] magnitudeBand(int take, double[] frequency) {
    TakeResponse response = new TakeResponse(frequency, layout().size);
    new TakeModel(choice(), layout(), take, theta).at(response, true);
    int n = frequency.length;
    double[][] band = new double[2][n];
    double[] gradient = new double[layout().size];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < gradient.length; j++) {
        gradient[j] = response.derivativeRe(j, i);
      }
      band[0][i] = Math.hypot(response.impedance[0][i], response.impedance[1][i]);
      band[1][i] = band[0][i] * Math.sqrt(covariance.variance(gradient));
    }
    return band;
  }

  /** Whether mass and area are known, without which nothing can be predicted. */
  boolean predicts() {
    return layout().movingMass >= 0 && layout().area >= 0;
  }
}
