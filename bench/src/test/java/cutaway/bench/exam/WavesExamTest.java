package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.bench.dossier.DemoDossier;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Findings;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class WavesExamTest {
  @TempDir Path folder;

  /** The demo as a plain box without knocks, changed. */
  private Findings solve(String old, String changed) throws IOException {
    DemoDossier.copyTo(folder);
    Path file = folder.resolve("dossier.yaml");
    String sheet = DemoSheet.withoutKnocks(DemoSheet.plain(Files.readString(file)));
    assertThat(sheet).contains(old);
    Files.writeString(file, sheet.replace(old, changed));
    return Dossier.open(folder).solve(s -> {}).findings();
  }

  private static double value(Findings f, String id) {
    return f.finding(id).orElseThrow().estimate().value();
  }

  @Test
  void wavesReachTheOutputThroughConeAndPort() throws IOException {
    Findings f = solve("  lining: none", "  lining: none");
    assertThat(value(f, "cavity.q-1")).isCloseTo(50, within(0.01));
    assertThat(f.finding("cavity.lined-1")).isEmpty();
    // the port's mouth hears the wave along the height, though the cone hardly does
    assertThat(Math.abs(value(f, "cavity.ripple-1"))).isBetween(0.5, 4.0);
    assertThat(f.finding("cavity.ripple-1").orElseThrow().restsOn())
        .contains("box.port", "box.size", "drive-unit.piston-diameter");
    // the middle of the width is a node of the wave across it
    assertThat(Math.abs(value(f, "cavity.ripple-3"))).isLessThan(0.05);
    Curve with = f.curve("cavity.output.with").orElseThrow();
    Curve lumped = f.curve("response.half-space").orElseThrow();
    // far below all waves it is what the fit says, but for what cone and port do to each other
    assertThat(at(with, 50)).isCloseTo(at(lumped, 50), within(0.05));
    assertThat(at(with, 100)).isCloseTo(at(lumped, 100), within(0.15));
  }

  private static double at(Curve c, double f) {
    int i = 0;
    while (c.axis().get(i) < f) {
      i++;
    }
    double share = (f - c.axis().get(i - 1)) / (c.axis().get(i) - c.axis().get(i - 1));
    return c.values().get(i - 1) + share * (c.values().get(i) - c.values().get(i - 1));
  }

  /** Wool on the back and the top: every wave lower in Q, those it lies across most. */
  @Test
  void liningDampsThem() throws IOException {
    Findings f =
        solve(
            "  walls:\n",
            "  walls:\n    - { name: back, lining: { thickness: 40 mm, kind: mineral wool } }\n"
                + "    - { name: top, lining: { thickness: 40 mm, resistivity: 10000 Pa·s/m² } }\n");
    for (int wave = 1; wave < 3; wave++) {
      assertThat(value(f, "cavity.q-" + wave)).isBetween(3.0, 40.0);
      // where linings meet a Q is known to 0.4 at best
      assertThat(f.finding("cavity.q-" + wave).orElseThrow().estimate().sd()).isGreaterThan(0.4);
      // fibre slows the wave
      assertThat(value(f, "cavity.lined-" + wave))
          .isBetween(0.85 * value(f, "cavity.wave-" + wave), value(f, "cavity.wave-" + wave));
    }
    assertThat(Math.abs(value(f, "cavity.ripple-1"))).isLessThan(1.5);
    assertThat(f.finding("cavity.q-1").orElseThrow().cautions().get(0)).contains("with its lining");
  }

  /** Dense felt on four walls: what no longer rings is said so, and no Q below a half is told. */
  @Test
  void aWaveThatIsDampedAwayIsSaidSo() throws IOException {
    String felt = "lining: { thickness: 80 mm, resistivity: 40000 Pa·s/m² } }\n";
    StringBuilder all = new StringBuilder("  walls:\n");
    for (String wall : List.of("back", "right", "top", "bottom")) {
      all.append("    - { name: ").append(wall).append(", ").append(felt);
    }
    Findings f = solve("  walls:\n", all.toString());
    for (int wave = 1; wave <= 5; wave++) {
      int number = wave;
      boolean told = f.finding("cavity.q-" + wave).isPresent();
      boolean dead =
          f.notices().stream()
              .anyMatch(n -> n.message().contains("wave " + number + " is damped so much"));
      assertThat(told).as("wave %d", wave).isNotEqualTo(dead);
      if (told) {
        assertThat(value(f, "cavity.q-" + wave)).isGreaterThan(0.5);
        assertThat(value(f, "cavity.lined-" + wave)).isGreaterThan(50);
      }
    }
    assertThat(f.notices()).anyMatch(n -> n.message().contains("no longer rings"));
  }

  /** "Filled" does not say of what: no Q is told for it. */
  @Test
  void anUntoldFillIsNotGuessed() throws IOException {
    Findings f = solve("  lining: none", "  lining: filled");
    assertThat(f.finding("cavity.q-1")).isEmpty();
    assertThat(f.notices()).anyMatch(n -> n.about().equals("box.lining"));
  }
}
