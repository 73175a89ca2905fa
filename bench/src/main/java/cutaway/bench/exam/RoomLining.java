package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.LiningKind;
import cutaway.acoustics.cabinet.LiningLaw;
import cutaway.acoustics.cabinet.StandingWaves;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings.LiningReadings;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.Lining;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What lies on the walls inside.
 *
 * @param thickness on each wall, m, 0 for none
 * @param resistivity flow resistivity, Pa·s/m²; the mean where walls differ
 * @param factor that times and over which it may be
 * @param differs whether walls differ
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record RoomLining(double[] thickness, double resistivity, double factor, boolean differs) {
  /** A kind that is not said may be any: the middle and the factor to the ends of all. */
  private static final double UNSAID = 6300;

  private static final double UNSAID_FACTOR = 6.3;

  /** The lining the sheet lists. */
  static RoomLining of(CabinetGeometry geometry) {
    double[] thickness = new double[geometry.names().size()];
    Map<String, Double> kinds = new TreeMap<>();
    double factor = 1;
    for (int wall = 0; wall < thickness.length; wall++) {
      String name = geometry.names().get(wall);
      Optional<LiningReadings> lining =
          geometry.box().cabinet().wall(name).flatMap(WallReadings::lining);
      if (lining.isPresent() && fits(geometry, name, lining.get())) {
        LiningReadings l = lining.get();
        thickness[wall] = l.thickness().estimate().value();
        Optional<LiningKind> kind = kind(l.kind());
        double usual = kind.map(LiningKind::resistivity).orElse(UNSAID);
        double spread = kind.map(LiningKind::factor).orElse(UNSAID_FACTOR);
        kinds.put(name, l.resistivity().map(RoomLining::value).orElse(usual));
        factor =
            Math.max(
                factor, l.resistivity().map(r -> 1 + r.estimate().relativeSd()).orElse(spread));
      }
    }
    double mean = kinds.values().stream().mapToDouble(Math::log).average().orElse(0);
    List<Double> distinct = kinds.values().stream().distinct().toList();
    return new RoomLining(thickness, Math.exp(mean), factor, distinct.size() > 1);
  }

  /** Whether it leaves room before the wall across. */
  static boolean fits(CabinetGeometry geometry, String wall, LiningReadings lining) {
    return value(lining.thickness()) < 0.9 * geometry.depth(wall);
  }

  private static double value(Reading r) {
    return r.estimate().value();
  }

  private static Optional<LiningKind> kind(String words) {
    return words.isEmpty()
        ? Optional.empty()
        : Optional.of(LiningKind.valueOf(words.replace(' ', '_').toUpperCase(Locale.ROOT)));
  }

  /** Whether the sheet says that something lies in the box, but not what on which wall. */
  static boolean untold(CabinetGeometry geometry) {
    return of(geometry).none() && geometry.box().lining() != Lining.NONE;
  }

  boolean none() {
    return Arrays.stream(thickness).allMatch(t -> t == 0);
  }

  /**
   * How it is at a frequency.
   *
   * @param times what its resistivity is multiplied by
   */
  StandingWaves.Lining fluid(Air air, double times) {
    return f ->
        LiningLaw.MIKI.fluid(
            resistivity * times, f, air.density().value(), air.soundSpeed().value());
  }
}
