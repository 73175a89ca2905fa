package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Covariance;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.SingularInformationException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What to measure next: for each feasible take or reading, how far the Fisher information says it
 * would shrink the uncertainty.
 *
 * <p>A further take is imagined with the frequencies, noise and rig of the first one, at the
 * parameters found; a better reading with the uncertainty careful work reaches with modest gear.
 */
public final class Plan {
  private static final double SHIFTING_RATIO = 0.7;
  private static final double SCALE_SD = 0.004;
  private static final double VOLUME_SD = 0.01;
  private static final double TAPE_SD = 0.003;
  private static final double METER_SD = 0.005;

  private final List<Take> bench;
  private final Readings readings;
  private final Candidate best;
  private final ScaleCheck check;
  private final double[] theta;

  /** What kind of step is proposed. */
  public enum Step {
    /** A take with a mass stuck to the diaphragm. */
    ADDED_MASS,
    /** A take in a test box of known volume. */
    TEST_VOLUME,
    /** The piston diameter, read again. */
    PISTON_DIAMETER,
    /** The cold resistance by meter. */
    DC_RESISTANCE;

    /** Itself where it is a take rather than a reading. */
    private Optional<Step> taken() {
      return this == ADDED_MASS || this == TEST_VOLUME ? Optional.of(this) : Optional.empty();
    }
  }

  /**
   * A step and what it would bring.
   *
   * @param step what to do
   * @param size how much: mass over moving mass, or test volume over V_as; zero for readings
   * @param target symbol of the quantity it would sharpen most
   * @param before relative standard uncertainty of that quantity now, infinite where unknown
   * @param after what it would be
   */
  public record Proposal(Step step, double size, String target, double before, double after) {
    /** Information gained about the target, in nats, held to that of a hundredfold gain. */
    public double gain() {
      return Math.min(Math.log(100), Math.log(before / after));
    }
  }

  Plan(List<Take> bench, Readings readings, Candidate best, ScaleCheck check) {
    this.bench = bench;
    this.readings = readings;
    this.best = best;
    this.check = check;
    this.theta = best.solution().theta();
  }

  /** Every step that helps, the most telling first. */
  List<Proposal> proposals() {
    List<Proposal> out = new ArrayList<>();
    Optional<Readings> tape =
        readings.pistonDiameter().isEmpty()
                || readings.pistonDiameter().get().relativeSd() > 1.5 * TAPE_SD
            ? Optional.of(
                readings.withPistonDiameter(
                    Estimate.relative(
                        readings.pistonDiameter().map(Estimate::value).orElse(0.15), TAPE_SD)))
            : Optional.empty();
    propose(out, Step.ADDED_MASS, SHIFTING_RATIO, readings, true);
    propose(out, Step.TEST_VOLUME, 0.5, readings, readings.pistonDiameter().isPresent());
    propose(out, Step.PISTON_DIAMETER, 0, tape.orElse(readings), tape.isPresent());
    boolean meterHelps = readings.dcResistance().isEmpty();
    Readings meter =
        readings.withDcResistance(Estimate.relative(Math.exp(theta[Layout.RE]), METER_SD));
    propose(out, Step.DC_RESISTANCE, 0, meter, meterHelps);
    out.sort(Comparator.comparingDouble(Proposal::gain).reversed());
    return out;
  }

  private void propose(
      List<Proposal> out, Step step, double size, Readings after, boolean feasible) {
    if (!feasible) {
      return;
    }
    Optional<Proposal> best = Optional.empty();
    for (Target target : Target.values()) {
      double now = relativeSd(target, Optional.empty(), readings);
      double then = relativeSd(target, step.taken(), after);
      if (then < 0.9 * now) {
        Proposal p = new Proposal(step, size, target.symbol, now, then);
        best = best.isEmpty() || p.gain() > best.get().gain() ? Optional.of(p) : best;
      }
    }
    best.ifPresent(out::add);
  }

  /** Quantities a tester asks for, as linear forms of the logarithms. */
  private enum Target {
    RE("R_e"),
    MMS("M_ms"),
    BL("Bl"),
    VAS("V_as");

    private final String symbol;

    Target(String symbol) {
      this.symbol = symbol;
    }

    /** Its gradient, absent where the layout lacks what it needs. */
    Optional<double[]> gradient(Layout layout) {
      double[] g = new double[layout.size];
      boolean mass = layout.movingMass >= 0;
      boolean area = layout.area >= 0;
      if ((this != RE && !mass) || (this == VAS && !area)) {
        return Optional.empty();
      }
      switch (this) {
        case RE -> g[Layout.RE] = 1;
        case MMS -> g[layout.movingMass] = 1;
        case BL -> {
          g[layout.movingMass] = 0.5;
          g[Layout.FS] = 0.5;
          g[Layout.RE] = 0.5;
          g[Layout.QES] = -0.5;
        }
        case VAS -> {
          g[layout.area] = 2;
          g[layout.movingMass] = -1;
          g[Layout.FS] = -2;
        }
      }
      return Optional.of(g);
    }
  }

  private double relativeSd(Target target, Optional<Step> extra, Readings with) {
    List<Take> takes = new ArrayList<>(bench);
    ModelChoice choice = best.model().choice();
    extra.ifPresent(step -> takes.add(imagined(step)));
    if (extra.isPresent()) {
      choice = extended(choice, takes.get(takes.size() - 1));
    }
    List<ScaleReading> scale = believed(takes, with);
    JointModel model = new JointModel(choice, takes, with, scale);
    Optional<double[]> gradient = target.gradient(model.layout());
    if (gradient.isEmpty()) {
      return Double.POSITIVE_INFINITY;
    }
    try {
      return Math.sqrt(covariance(model, takes).variance(gradient.get()));
    } catch (SingularInformationException open) {
      return Double.POSITIVE_INFINITY;
    }
  }

  /** The readings the fit went on with, and what the imagined step brings anew. */
  private List<ScaleReading> believed(List<Take> takes, Readings with) {
    List<String> known = check.opinions().stream().map(ScaleCheck.Opinion::about).toList();
    List<ScaleReading> out = new ArrayList<>(check.credible());
    JointFit.scaleReadings(takes, with).stream()
        .filter(r -> !known.contains(r.about()))
        .forEach(out::add);
    return List.copyOf(out);
  }

  private Take imagined(Step step) {
    ImpedanceCurve grid = bench.get(0).curve();
    Mounting mounting =
        step == Step.ADDED_MASS
            ? new Mounting.AddedMass(Estimate.relative(1, SCALE_SD))
            : new Mounting.Boxed(new Lossless(), Optional.of(Estimate.relative(1, VOLUME_SD)));
    return new Take("imagined", grid, mounting, bench.get(0).rigErrors());
  }

  private static ModelChoice extended(ModelChoice choice, Take take) {
    return choice.withTake(take.mounting() instanceof Mounting.Boxed b ? b.load() : new NoLoad());
  }

  private Covariance covariance(JointModel model, List<Take> takes) {
    double[] at = carried(model, takes);
    double[] weights = new double[model.rows()];
    for (int k = 0; k < takes.size(); k++) {
      int known = k < bench.size() ? k : 0;
      double sigma = best.noise(known).sigma();
      double weight = 1 / (sigma * sigma * best.noise(known).correlation());
      ImpedanceCurve curve = takes.get(k).curve();
      for (int i = 0; i < curve.size() * model.width(k); i++) {
        double own = curve.sigmaKnown() ? curve.sigma(i % curve.size()) : 1;
        weights[model.firstRow(k) + i] = weight / (own * own);
      }
    }
    for (int i = 0; i < model.readingRows().size(); i++) {
      double sd = model.readingRows().get(i).sd();
      weights[model.curveRows() + i] = 1 / (sd * sd);
    }
    return Covariance.of(model, at, weights);
  }

  /** The parameters found, in the layout of an imagined bench. */
  private double[] carried(JointModel model, List<Take> takes) {
    Layout from = best.model().layout();
    Layout to = model.layout();
    double[] out = new double[to.size];
    int head = headLength(from);
    System.arraycopy(theta, 0, out, 0, head);
    for (int k = 0; k < takes.size(); k++) {
      Layout.TakeSlots t = to.take(k);
      if (k < bench.size()) {
        Layout.TakeSlots f = from.take(k);
        copy(f.resistance(), out, t.resistance());
        copy(f.addedMass(), out, t.addedMass());
        copy(f.stiffness(), out, t.stiffness());
        copy(f.boxMass(), out, t.boxMass());
        copy(f.drift(), out, t.drift());
        int loads = model.choice().loads().get(k).symbols().size();
        for (int i = 0; i < loads; i++) {
          copy(f.load() + i, out, t.load() + i);
        }
      } else {
        if (t.addedMass() >= 0) {
          out[t.addedMass()] = Math.log(SHIFTING_RATIO);
        }
        if (t.stiffness() >= 0) {
          out[t.stiffness()] = Math.log(2);
        }
      }
    }
    copy(from.movingMass, out, to.movingMass);
    copy(from.area, out, to.area);
    for (int i = 0; i < from.rigSources.size(); i++) {
      int j = to.rigSources.indexOf(from.rigSources.get(i));
      copy(from.rig + i, out, j < 0 ? -1 : to.rig + j);
    }
    return out;
  }

  private int headLength(Layout layout) {
    ModelChoice choice = best.model().choice();
    return layout.coil
        + choice.coil().size()
        + choice.suspension().size()
        + (choice.springySupport() ? 3 : 0)
        + (layout.leads < 0 ? 0 : 1);
  }

  private void copy(int from, double[] to, int at) {
    if (from >= 0 && at >= 0) {
      to[at] = theta[from];
    }
  }

  /** A test box without losses. */
  private record Lossless() implements RearLoad {
    @Override
    public String words() {
      return "test box";
    }

    @Override
    public List<String> symbols() {
      return List.of();
    }

    @Override
    public boolean ownFrequency() {
      return false;
    }

    @Override
    public List<RearLoad> alternatives() {
      return List.of(this);
    }

    @Override
    public void at(double[] v, double[] p, double[][] out) {
      java.util.Arrays.fill(out[0], 0, v.length, 1);
      for (int row = 1; row < 4; row++) {
        java.util.Arrays.fill(out[row], 0, v.length, 0);
      }
    }

    @Override
    public void branches(double v, double[] p, double yRe, double yIm, double[] out) {
      java.util.Arrays.fill(out, 0, 6, 0);
      out[4] = 1;
    }
  }
}
