package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Solution;
import java.util.ArrayList;
import java.util.List;

/**
 * Where each unknown stands in the parameter vector.
 *
 * <p>All are natural logarithms but the suspension's shape, leads, drifts and the errors of the
 * rig. An index of −1 means the unknown is absent.
 */
final class Layout {
  static final int RE = 0;
  static final int FS = 1;
  static final int QMS = 2;
  static final int QES = 3;

  final int coil = 4;
  final int suspension;
  final int supportMass;

  /** Resistance in series in every take, in units of {@link #leadsUnit}. */
  final int leads;

  /** Standard uncertainty of that resistance, Ω. */
  final double leadsUnit;

  final int movingMass;
  final int area;

  /** First of the relative errors of the rig's sources, in the order of {@link #rigSources}. */
  final int rig;

  final List<String> rigSources;
  final int size;
  private final List<TakeSlots> takes;

  /**
   * Unknowns of one take.
   *
   * @param resistance ln of its coil resistance over the first take's
   * @param addedMass ln μ, added over moving mass
   * @param stiffness ln α, box stiffness over suspension stiffness; takes in the unit's own box
   *     share it
   * @param load first parameter of the box
   * @param drift ln of its resonance over the common one, as its suspension wandered
   * @param boxMass ln of the extra air mass in the box over the moving mass
   */
  record TakeSlots(
      int resistance, int addedMass, int stiffness, int load, int boxMass, int drift) {}

  Layout(ModelChoice choice, List<Take> bench, Readings readings, boolean scaled) {
    int next = coil + choice.coil().size();
    suspension = choice.suspension().size() == 0 ? -1 : next++;
    supportMass = choice.springySupport() ? next : -1;
    next += choice.springySupport() ? 3 : 0;
    leads = readings.leads().isPresent() ? next++ : -1;
    leadsUnit = readings.leads().orElse(0.0);
    List<TakeSlots> slots = new ArrayList<>();
    int unitsBox = -1;
    for (int k = 0; k < bench.size(); k++) {
      RearLoad load = choice.loads().get(k);
      boolean boxed = !(load instanceof NoLoad);
      boolean weighted = bench.get(k).mounting() instanceof Mounting.AddedMass;
      int resistance = choice.ownResistance().get(k) ? next++ : -1;
      int added = weighted ? next++ : -1;
      boolean unit = bench.get(k).mounting() instanceof Mounting.Boxed b && b.volume().isEmpty();
      boolean shared = unit && unitsBox >= 0 && !choice.ownVolume().get(k);
      int stiffness = shared ? unitsBox : boxed ? next++ : -1;
      unitsBox = unit && unitsBox < 0 ? stiffness : unitsBox;
      int first = boxed ? next : -1;
      next += boxed ? load.symbols().size() : 0;
      int boxMass = choice.boxAirMass().get(k) ? next++ : -1;
      int drift = readings.resonanceSpread().isPresent() ? next++ : -1;
      slots.add(new TakeSlots(resistance, added, stiffness, first, boxMass, drift));
    }
    takes = List.copyOf(slots);
    boolean areaKnown = readings.pistonDiameter().isPresent();
    movingMass = scaled ? next++ : -1;
    area = areaKnown ? next++ : -1;
    rig = next;
    rigSources =
        bench.stream()
            .flatMap(t -> t.rigErrors().stream())
            .map(RigError::source)
            .distinct()
            .toList();
    size = next + rigSources.size();
  }

  TakeSlots take(int k) {
    return takes.get(k);
  }

  /** The same unknowns in a layout of the same choice that also knows the moving mass. */
  double[] carriedTo(Layout scaled, Solution solution) {
    double[] theta = solution.theta();
    double[] out = new double[scaled.size];
    int common = scaled.movingMass;
    System.arraycopy(theta, 0, out, 0, common);
    System.arraycopy(theta, common, out, common + 1, theta.length - common);
    return out;
  }
}
