package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/** The box behind the diaphragm in one take, as one choice of model has it. */
public final class FittedBox {
  private final Fitted fitted;
  private final int take;
  private final Layout.TakeSlots slots;
  private final RearLoad load;

  FittedBox(Fitted fitted, int take) {
    this.fitted = fitted;
    this.take = take;
    this.slots = fitted.layout().take(take);
    this.load = fitted.choice().loads().get(take);
  }

  /** The kind of box that was found, absent in free air. */
  public Optional<RearLoad> load() {
    return load instanceof NoLoad ? Optional.empty() : Optional.of(load);
  }

  /** Whether the unit's box was found to hold other air than in the first take in it. */
  public boolean ownVolume() {
    return fitted.choice().ownVolume().get(take);
  }

  /** Stiffness of the box over that of the suspension, α = V_as/V_ab. */
  public Optional<Estimate> alpha() {
    int at = slots.stiffness();
    return at < 0 ? Optional.empty() : Optional.of(fitted.derive(t -> Math.exp(t[at])));
  }

  /** That ratio over the one in another take with a box, dimensionless. */
  public Estimate alphaOver(int other) {
    int here = slots.stiffness();
    int there = fitted.layout().take(other).stiffness();
    return fitted.derive(t -> Math.exp(t[here] - t[there]));
  }

  /** Effective volume of the box, m³, where mass and area are known. */
  public Optional<Estimate> volume() {
    int at = slots.stiffness();
    int s = fitted.layout().area;
    if (at < 0 || s < 0) {
      return Optional.empty();
    }
    Estimate stiffness = fitted.readings().air().stiffness();
    return fitted
        .withMass(
            m ->
                t ->
                    stiffness.value()
                        * Math.exp(2 * t[s] - t[m] - t[at])
                        / (Fitted.omega(t) * Fitted.omega(t)))
        .map(v -> v.widened(stiffness.relativeSd()));
  }

  /** Tuning of the box over the free-air resonance, h = f_b/f_s. */
  public Optional<Estimate> tuningRatio() {
    int at = at("f_b");
    return at < 0
        ? Optional.empty()
        : Optional.of(fitted.derive(t -> Math.exp(t[at] - t[Layout.FS])));
  }

  /** Acoustic mass of the port or passive radiator, M_AP = (1+δ)/(ω_b² C_ab), kg/m⁴. */
  public Optional<Estimate> portMass() {
    int fb = at("f_b");
    int delta = at("δ");
    return fb < 0
        ? Optional.empty()
        : overCompliance(
            t -> (delta < 0 ? 1 : 1 + Math.exp(t[delta])) / square(2 * Math.PI * Math.exp(t[fb])));
  }

  /** Acoustic compliance of the passive radiator, C_AP = C_ab/δ, m⁵/N. */
  public Optional<Estimate> radiatorCompliance() {
    int delta = at("δ");
    return delta < 0
        ? Optional.empty()
        : overCompliance(t -> Math.exp(t[delta]))
            .map(e -> Estimate.relative(1 / e.value(), e.relativeSd()));
  }

  /** Acoustic resistance of the leak, R_L = Q_L/(ω_0 C_ab) at f_b, or f_s inside, N·s/m⁵. */
  public Optional<Estimate> leakResistance() {
    int leak = at("Q_L");
    int fb = at("f_b");
    return leak < 0
        ? Optional.empty()
        : overCompliance(
            t -> Math.exp(t[leak]) / (2 * Math.PI * Math.exp(t[fb < 0 ? Layout.FS : fb])));
  }

  /** A quantity over C_ab = S_d²/(α ω_s² M_ms), which needs no property of the air. */
  private Optional<Estimate> overCompliance(ToDoubleFunction<double[]> over) {
    int at = slots.stiffness();
    int s = fitted.layout().area;
    return at < 0 || s < 0
        ? Optional.empty()
        : fitted.withMass(
            m ->
                t ->
                    over.applyAsDouble(t)
                        * square(Fitted.omega(t))
                        * Math.exp(t[at] + t[m] - 2 * t[s]));
  }

  /** Where a parameter of the box stands, −1 where it has none of the name. */
  private int at(String symbol) {
    int index = load.symbols().indexOf(symbol);
    return index < 0 ? -1 : slots.load() + index;
  }

  /** Resonance in the box with its vent stopped and no losses, Hz. */
  public Optional<Estimate> fc() {
    if (slots.stiffness() < 0) {
      return Optional.empty();
    }
    return Optional.of(fitted.derive(t -> Math.exp(t[Layout.FS]) * closedRatio(t)));
  }

  /**
   * Total Q of the closed box at f_c: the moving mass's reactance over every loss, leak and
   * absorption among them.
   */
  public Optional<Estimate> qtc() {
    if (slots.stiffness() < 0) {
      return Optional.empty();
    }
    return Optional.of(fitted.derive(this::totalQ));
  }

  /** Electrical Q at f_c. */
  public Optional<Estimate> qec() {
    return slots.stiffness() < 0
        ? Optional.empty()
        : Optional.of(fitted.derive(t -> closedRatio(t) * mass(t) * Math.exp(t[Layout.QES])));
  }

  /** Mechanical Q at f_c, leak and absorption counted. */
  public Optional<Estimate> qmc() {
    return slots.stiffness() < 0
        ? Optional.empty()
        : Optional.of(fitted.derive(t -> closedRatio(t) * mass(t) / lossAtResonance(t)));
  }

  private double totalQ(double[] t) {
    return closedRatio(t) * mass(t) / (lossAtResonance(t) + Math.exp(-t[Layout.QES]));
  }

  /** Real part of the mechanical impedance at f_c over ω_s M_ms. */
  private double lossAtResonance(double[] t) {
    TakeModel model = new TakeModel(fitted.choice(), fitted.layout(), take, t);
    double[] motion = new double[12];
    model.motion(closedRatio(t) * model.fs(), motion);
    return motion[2];
  }

  /** Moving mass in the box over M_ms. */
  private double mass(double[] t) {
    return 1 + (slots.boxMass() < 0 ? 0 : Math.exp(t[slots.boxMass()]));
  }

  private double closedRatio(double[] t) {
    return Math.sqrt((1 + Math.exp(t[slots.stiffness()])) / mass(t));
  }

  /** Extra air mass moved in the box over the moving mass, where one was found. */
  public Optional<Estimate> airMassRatio() {
    int at = slots.boxMass();
    return at < 0 ? Optional.empty() : Optional.of(fitted.derive(t -> Math.exp(t[at])));
  }

  /** A parameter of the box by its symbol (f_b in Hz, Q_P, Q_L, Q_A at f_b or f_c, δ). */
  public Optional<Estimate> value(String symbol) {
    int index = load.symbols().indexOf(symbol);
    if (index < 0) {
      return Optional.empty();
    }
    int at = slots.load() + index;
    if (load.ownFrequency() || !symbol.startsWith("Q")) {
      return Optional.of(fitted.derive(t -> Math.exp(t[at])));
    }
    // a closed box counts its losses at f_s inside the fit, at f_c outside
    double sign = symbol.equals("Q_L") ? 1 : -1;
    return Optional.of(fitted.derive(t -> Math.exp(t[at]) * Math.pow(closedRatio(t), sign)));
  }

  private static double square(double x) {
    return x * x;
  }
}
