package cutaway.bench.exam;

import static cutaway.bench.exam.WrittenDossier.messages;
import static cutaway.bench.exam.WrittenDossier.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.problem.ProblemException;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the sheet says of feet, to the findings. */
class FeetExamTest {
  private static final String BOX =
      "box:\n  loading: sealed\n  inner: { width: 250 mm, height: 360 mm, depth: 300 mm }\n"
          + WrittenDossier.MDF;

  private static final String FEET =
      "  feet: { material: rubber, inset: 35 mm, diameter: 25 mm, height: 10 mm }\n";

  @TempDir Path folder;

  private Findings solve(String sheet) {
    return new WrittenDossier(folder).solve(sheet);
  }

  /**
   * Bounce of a stiff body: four pads of rubber on 8.5 kg of boards of 775 kg/m³; it lies between
   * the lowest and the highest, which rocks, or bounces a little lower where the bottom gives.
   */
  @Test
  void theBoxMovesOnItsFeet() {
    Findings f = solve(BOX + FEET);
    double shape = 1 + 2 * Math.pow(25.0 / 40, 2);
    double k = 4 * 4e6 * shape * Math.PI * 0.0125 * 0.0125 / 0.010;
    double boards = 2 * (0.268 * 0.318 + 0.268 * 0.378 + 0.318 * 0.378) * 0.018;
    double bounce = Math.sqrt(k / (775 * boards)) / (2 * Math.PI);
    Finding low = f.finding("walls.feet.lowest").orElseThrow();
    Finding high = f.finding("walls.feet.highest").orElseThrow();
    assertThat(low.estimate().value()).isBetween(0.15 * bounce, 0.6 * bounce);
    assertThat(high.estimate().value()).isBetween(0.9 * bounce, 1.6 * bounce);
    // half of what rubber leaves open in a stiffness, of what was not weighed, and of the boards'
    // density, 700 to 850 kg/m³ evenly
    double open = Math.hypot(0.5, Math.hypot(0.3, 150 / Math.sqrt(12) / 775)) / 2;
    assertThat(high.estimate().sd() / high.estimate().value()).isCloseTo(open, within(1e-6));
    Findings weighed = solve(BOX.replace("  wall:", "  mass: 34 kg\n  wall:") + FEET);
    Finding heavier = weighed.finding("walls.feet.highest").orElseThrow();
    double mass = 34 / (775 * boards);
    assertThat(heavier.estimate().value() * Math.sqrt(mass))
        .isCloseTo(high.estimate().value(), within(0.1 * high.estimate().value()));
    assertThat(heavier.restsOn()).contains("box.mass");
    assertThat(high.restsOn()).contains("box.feet");
    Findings free = solve(BOX);
    assertThat(free.finding("walls.feet.lowest")).isEmpty();
    double resonance = value(free, "walls.left.resonance");
    assertThat(value(f, "walls.left.resonance")).isCloseTo(resonance, within(0.01 * resonance));
  }

  /** Listed feet and those of a corner each are the same where they stand on the same places. */
  @Test
  void placesMayBeListed() {
    Findings inset = solve(BOX + FEET);
    Findings listed =
        solve(
            BOX
                + FEET.replace(
                    "inset: 35 mm",
                    "at: [[35 mm, 35 mm], [251 mm, 35 mm], [35 mm, 301 mm], [251 mm, 301 mm]]"));
    for (String id : List.of("walls.feet.lowest", "walls.feet.highest", "walls.left.resonance")) {
      assertThat(value(listed, id)).isCloseTo(value(inset, id), within(1e-6));
    }
  }

  @Test
  void aFootWithoutAPlaceIsLeftOutByName() {
    String holed =
        BOX.replace(
            "name: bottom, material: mdf",
            "name: bottom, material: mdf, cut-outs: [ { what: port, at: [143 mm, 168 mm],"
                + " diameter: 80 mm } ]");
    Findings f =
        solve(
            holed
                + FEET.replace(
                    "inset: 35 mm",
                    "at: [[35 mm, 35 mm], [251 mm, 35 mm], [143 mm, 400 mm], [143 mm, 190 mm]]"));
    assertThat(messages(f))
        .anyMatch(m -> m.startsWith("box.walls: a foot lies beyond the edge of the bottom; it is"))
        .anyMatch(m -> m.startsWith("box.walls: a foot lies on a cut-out of the bottom; it is"));
    assertThat(f.finding("walls.left.resonance")).isPresent();
    assertThat(f.finding("walls.feet.lowest")).isPresent();
  }

  @Test
  void feetThatCannotBeAreSaid() {
    for (String[] said :
        new String[][] {
          {"inset: 200 mm", "a foot set so far in lies beyond the middle of the bottom"},
          {"at: [[50 mm, 50 mm], [60 mm, 50 mm]]", "a foot lies over another"},
          {"inset: 2 m", "a foot lies beyond the edge of the bottom"}
        }) {
      Findings f = solve(BOX + FEET.replace("inset: 35 mm", said[0]));
      assertThat(messages(f)).anyMatch(m -> m.startsWith("box.walls: " + said[1]));
      assertThat(f.finding("walls.left.resonance")).isPresent();
    }
  }

  @Test
  void whereTheyStandIsToldOnce() {
    for (String where :
        List.of("height: 10 mm", "height: 10 mm, inset: 3 cm, at: [[3 cm, 3 cm]]")) {
      String feet = "  feet: { material: cork, diameter: 25 mm, " + where + " }\n";
      assertThatThrownBy(() -> solve(BOX + feet))
          .isInstanceOf(ProblemException.class)
          .hasMessageContaining("where the feet stand is");
    }
  }

  /** A ring of the box as a whole takes nothing from what the wall's own rings tell. */
  @Test
  void ringsOfTheWholeBoxAreNotTheWalls() {
    Random random = new Random(4);
    new WrittenDossier(folder).sound("k.wav", 16000, 2, 4.9, i -> tap(i / 16000.0, random));
    String take = "takes: [ { id: k, file: k.wav, what: knock, wall: left } ]\n";
    assertThat(messages(solve(BOX + take)))
        .anyMatch(m -> m.startsWith("takes.k: the left rings from 60 Hz up when knocked"));
    Findings f = solve(BOX + FEET + take);
    assertThat(messages(f))
        .anyMatch(
            m ->
                m.equals(
                    "takes.k: what rings at 60 Hz on the left is taken for the box moving on its"
                        + " feet, not for the wall"))
        .noneMatch(m -> m.contains("when knocked"));
  }

  /** A tap each second: the box at 60 Hz, the wall above. */
  private static double tap(double t, Random random) {
    double since = t % 1 - 0.4;
    double x = 3e-4 * random.nextGaussian();
    for (double f : new double[] {60, 420, 590, 760}) {
      double decay = Math.PI * f * (f < 100 ? 0.06 : 0.03);
      x += since < 0 ? 0 : 0.2 * Math.exp(-decay * since) * Math.sin(2 * Math.PI * f * since);
    }
    return x;
  }
}
