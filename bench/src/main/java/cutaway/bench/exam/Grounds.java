package cutaway.bench.exam;

import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.Mounting;
import java.util.ArrayList;
import java.util.List;

/** Which takes and readings a fit's quantities rest on, by their ids. */
final class Grounds {
  private final JointFit fit;

  Grounds(JointFit fit) {
    this.fit = fit;
  }

  /**
   * What the impedance alone tells: every take, and the meter's resistance where it was used. Two
   * readings that tell the moving mass bind the takes to one another, and so bear on this too.
   */
  List<String> takes() {
    List<String> out = new ArrayList<>(fit.bench().stream().map(t -> "takes." + t.id()).toList());
    fit.readings().dcResistance().ifPresent(r -> out.add("drive-unit.dc-resistance"));
    if (fit.scaleCheck().opinions().size() > 1) {
      scale(out);
    }
    return List.copyOf(out);
  }

  /** What the moving mass enters too. */
  List<String> mass() {
    List<String> out = new ArrayList<>(takes());
    scale(out);
    return List.copyOf(out.stream().distinct().toList());
  }

  /** A known mass; for a test volume the piston and the air. */
  private void scale(List<String> out) {
    fit.readings().movingMass().ifPresent(r -> out.add("drive-unit.moving-mass"));
    boolean volume =
        fit.bench().stream()
            .anyMatch(t -> t.mounting() instanceof Mounting.Boxed b && b.volume().isPresent());
    if (volume && fit.readings().pistonDiameter().isPresent()) {
      out.add("drive-unit.piston-diameter");
      out.add("air");
    }
  }

  /** What the piston's area and the air enter as well. */
  List<String> area() {
    List<String> out = new ArrayList<>(mass());
    fit.readings().pistonDiameter().ifPresent(r -> out.add("drive-unit.piston-diameter"));
    out.add("air");
    return List.copyOf(out.stream().distinct().toList());
  }
}
