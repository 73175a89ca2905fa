package cutaway.acoustics.driveunit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Which of the alternatives the model is built from.
 *
 * @param coil kind of coil loss; its values are starting values
 * @param suspension kind of suspension; its shape is a starting value
 * @param springySupport whether the frame moves on a support of its own (a loose clamp)
 * @param ownResistance for each take, whether its coil resistance differs from the first take's
 * @param loads for each take, the box behind it, or none
 * @param boxAirMass for each take, whether the box changes the air mass moved
 * @param ownVolume for each take in the unit's box, whether its air differs from the first such
 *     take's
 */
record ModelChoice(
    CoilLoss coil,
    Suspension suspension,
    boolean springySupport,
    List<Boolean> ownResistance,
    List<RearLoad> loads,
    List<Boolean> boxAirMass,
    List<Boolean> ownVolume) {

  /** Coil, suspension and each take's load, and nothing out of the ordinary. */
  static ModelChoice of(CoilLoss coil, Suspension suspension, List<RearLoad> loads) {
    List<Boolean> none = Collections.nCopies(loads.size(), false);
    return new ModelChoice(coil, suspension, false, none, List.copyOf(loads), none, none);
  }

  ModelChoice withCoil(CoilLoss next) {
    return new ModelChoice(
        next, suspension, springySupport, ownResistance, loads, boxAirMass, ownVolume);
  }

  ModelChoice withSuspension(Suspension next) {
    return new ModelChoice(coil, next, springySupport, ownResistance, loads, boxAirMass, ownVolume);
  }

  ModelChoice withSpringySupport(boolean next) {
    return new ModelChoice(coil, suspension, next, ownResistance, loads, boxAirMass, ownVolume);
  }

  ModelChoice withOwnResistance(int take, boolean next) {
    return new ModelChoice(
        coil,
        suspension,
        springySupport,
        replaced(ownResistance, take, next),
        loads,
        boxAirMass,
        ownVolume);
  }

  ModelChoice withLoad(int take, RearLoad next) {
    return new ModelChoice(
        coil,
        suspension,
        springySupport,
        ownResistance,
        replaced(loads, take, next),
        boxAirMass,
        ownVolume);
  }

  ModelChoice withBoxAirMass(int take, boolean next) {
    return new ModelChoice(
        coil,
        suspension,
        springySupport,
        ownResistance,
        loads,
        replaced(boxAirMass, take, next),
        ownVolume);
  }

  ModelChoice withOwnVolume(int take, boolean next) {
    return new ModelChoice(
        coil,
        suspension,
        springySupport,
        ownResistance,
        loads,
        boxAirMass,
        replaced(ownVolume, take, next));
  }

  /** The same with one more take, nothing out of the ordinary about it. */
  ModelChoice withTake(RearLoad load) {
    return new ModelChoice(
        coil,
        suspension,
        springySupport,
        longer(ownResistance, false),
        longer(loads, load),
        longer(boxAirMass, false),
        longer(ownVolume, false));
  }

  private static <T> List<T> longer(List<T> list, T value) {
    List<T> out = new ArrayList<>(list);
    out.add(value);
    return List.copyOf(out);
  }

  private static <T> List<T> replaced(List<T> list, int index, T value) {
    List<T> out = new ArrayList<>(list);
    out.set(index, value);
    return List.copyOf(out);
  }
}
