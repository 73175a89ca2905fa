package cutaway.bench.exam;

import cutaway.acoustics.driveunit.JointFit;
import java.util.ArrayList;
import java.util.List;

/** Which takes and readings a fit's quantities rest on, by their ids. */
final class Grounds {
  private final JointFit fit;

  Grounds(JointFit fit) {
    this.fit = fit;
  }

  /** What the impedance alone tells: every take, and the meter's resistance where it was used. */
  List<String> takes() {
    List<String> out = new ArrayList<>(fit.bench().stream().map(t -> "takes." + t.id()).toList());
    fit.readings().dcResistance().ifPresent(r -> out.add("drive-unit.dc-resistance"));
    return List.copyOf(out);
  }

  /** What the moving mass enters too. */
  List<String> mass() {
    List<String> out = new ArrayList<>(takes());
    fit.readings().movingMass().ifPresent(r -> out.add("drive-unit.moving-mass"));
    return List.copyOf(out);
  }

  /** What the piston's area and the air enter as well. */
  List<String> area() {
    List<String> out = new ArrayList<>(mass());
    fit.readings().pistonDiameter().ifPresent(r -> out.add("drive-unit.piston-diameter"));
    out.add("air");
    return List.copyOf(out);
  }
}
