package cutaway.acoustics.driveunit;

import java.util.ArrayList;
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
 */
record ModelChoice(
    CoilLoss coil,
    Suspension suspension,
    boolean springySupport,
    List<Boolean> ownResistance,
    List<RearLoad> loads,
    List<Boolean> boxAirMass) {

  ModelChoice withCoil(CoilLoss next) {
    return new ModelChoice(next, suspension, springySupport, ownResistance, loads, boxAirMass);
  }

  ModelChoice withSuspension(Suspension next) {
    return new ModelChoice(coil, next, springySupport, ownResistance, loads, boxAirMass);
  }

  ModelChoice withSpringySupport(boolean next) {
    return new ModelChoice(coil, suspension, next, ownResistance, loads, boxAirMass);
  }

  ModelChoice withOwnResistance(int take, boolean next) {
    return new ModelChoice(
        coil, suspension, springySupport, replaced(ownResistance, take, next), loads, boxAirMass);
  }

  ModelChoice withLoad(int take, RearLoad next) {
    return new ModelChoice(
        coil, suspension, springySupport, ownResistance, replaced(loads, take, next), boxAirMass);
  }

  ModelChoice withBoxAirMass(int take, boolean next) {
    return new ModelChoice(
        coil, suspension, springySupport, ownResistance, loads, replaced(boxAirMass, take, next));
  }

  private static <T> List<T> replaced(List<T> list, int index, T value) {
    List<T> out = new ArrayList<>(list);
    out.set(index, value);
    return List.copyOf(out);
  }
}
