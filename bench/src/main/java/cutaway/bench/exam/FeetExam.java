package cutaway.bench.exam;

import cutaway.acoustics.cabinet.BoxModes;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.measure.Reading;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.CabinetReadings.FeetReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** How the box moves as a whole on its feet: as heavy as it was weighed, where it was. */
final class FeetExam {
  /** What a box weighs beside its walls and what is listed on them, over those; judgement. */
  private static final double UNWEIGHED = 0.3;

  /** Ways in which a body moves as a whole. */
  private static final int WAYS = 6;

  private static final String METHOD =
      "walls joined at their edges on springs under the bottom, modes with most of their energy in"
          + " the motion of a stiff body; feet's stiffness from material and size"
          + " (docs/methods/panel.md)";

  private FeetExam() {}

  /**
   * Tells, where the box stands on feet.
   *
   * @param modes of the box on them
   * @param massSpread relative standard uncertainty of the walls' mass as computed
   */
  static void run(CabinetGeometry geometry, BoxModes modes, double massSpread, Results results) {
    double[] frequencies = modes.onFeet();
    Optional<FeetReadings> feet = geometry.box().cabinet().feet();
    if (feet.isEmpty() || frequencies.length == 0) {
      return;
    }
    Optional<Reading> weighed = geometry.box().mass();
    double heavier = weighed.map(m -> m.estimate().value() / modes.mass()).orElse(1.0);
    double mass =
        weighed.map(m -> m.estimate().relativeSd()).orElse(Math.hypot(UNWEIGHED, massSpread));
    double open = Math.hypot(feet.get().material().spread(), mass) / 2;
    List<String> restsOn = new ArrayList<>(List.of("box.feet", "box.size", "box.walls"));
    weighed.ifPresent(m -> restsOn.add("box.mass"));
    String[] cautions = cautions(weighed.isPresent(), frequencies.length);
    double lighter = 1 / Math.sqrt(heavier);
    results.add(
        "walls.feet.lowest",
        "Lowest motion of the box on its feet as a whole",
        "f_lo",
        Estimate.relative(lighter * frequencies[0], open),
        "Hz",
        METHOD,
        restsOn,
        cautions);
    results.add(
        "walls.feet.highest",
        "Highest motion of the box on its feet as a whole",
        "f_hi",
        Estimate.relative(lighter * frequencies[frequencies.length - 1], open),
        "Hz",
        METHOD,
        restsOn,
        cautions);
  }

  private static String[] cautions(boolean weighed, int ways) {
    List<String> out = new ArrayList<>();
    out.add("on a floor that does not give; not counted in the walls' sound");
    out.add(
        weighed
            ? "for the mass that was weighed"
            : "without what is in the box and was not listed with its mass; weigh it");
    if (ways < WAYS) {
      out.add(
          ways
              + " of its six ways to move; in the others walls bend as much, and they count as the"
              + " walls'");
    }
    return out.toArray(String[]::new);
  }
}
