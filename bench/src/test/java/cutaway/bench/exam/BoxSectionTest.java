package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.cabinet.Outline;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.exam.BoxSection.Opening;
import cutaway.bench.exam.BoxSection.Part;
import cutaway.bench.exam.BoxSection.View;
import cutaway.bench.finding.Findings;
import cutaway.bench.sheet.SheetReader;
import org.junit.jupiter.api.Test;

/** Sections against areas worked out by hand. */
class BoxSectionTest {
  private static final Findings NOTHING = Findings.NONE;

  private static final String PLAIN =
      "box:\n  loading: sealed\n  wall: 20 mm\n"
          + "  inner: { width: 200 mm, height: 400 mm, depth: 300 mm }\n";

  private static BoxSection cut(String box, View view) {
    return BoxSection.of(
            SheetReader.read("cutaway: 1\nunit: { name: U }\n" + box, "dossier.yaml"),
            NOTHING,
            view)
        .orElseThrow();
  }

  private static double area(BoxSection section, Part part) {
    return section.pieces().stream()
        .filter(p -> p.part() == part)
        .mapToDouble(p -> new Outline(p.outline()).area())
        .sum();
  }

  @Test
  void boardsFillWhatLiesBetweenInsideAndOutside() {
    assertThat(area(cut(PLAIN, View.SIDE), Part.BOARD))
        .isCloseTo(0.34 * 0.44 - 0.3 * 0.4, within(1e-9));
    assertThat(area(cut(PLAIN, View.ABOVE), Part.BOARD))
        .isCloseTo(0.34 * 0.24 - 0.3 * 0.2, within(1e-9));
  }

  /** Those before the plane are cut away with their half of the box; from above none is seen. */
  @Test
  void feetStandUnderTheBottom() {
    String feet = "  feet: { material: cork, inset: 30 mm, diameter: 24 mm, height: 9 mm }\n";
    BoxSection side = cut(PLAIN + feet, View.SIDE);
    assertThat(area(side, Part.FOOT)).isCloseTo(2 * 0.024 * 0.009, within(1e-9));
    assertThat(
            side.pieces().stream()
                .filter(p -> p.part() == Part.FOOT)
                .flatMap(p -> p.outline().stream())
                .mapToDouble(Point::y)
                .max())
        .hasValueCloseTo(-0.02, within(1e-9));
    assertThat(area(cut(PLAIN + feet, View.ABOVE), Part.FOOT)).isZero();
  }

  @Test
  void aCutOutIsTakenOutWhereThePlanePasses() {
    String walls =
        "  walls:\n    - { name: front, cut-outs: [ { what: drive unit, at: [100 mm, 250 mm],"
            + " diameter: 150 mm }, { what: port, at: [150 mm, 80 mm], diameter: 120 mm } ] }\n";
    // the plane goes through the drive unit's middle, 50 mm beside the port's
    double missing = 0.15 + 2 * Math.sqrt(0.06 * 0.06 - 0.05 * 0.05);
    BoxSection side = cut(PLAIN + walls, View.SIDE);
    assertThat(area(side, Part.BOARD))
        .isCloseTo(0.34 * 0.44 - 0.3 * 0.4 - 0.02 * missing, within(1e-6));
    Opening unit =
        side.openings().stream()
            .filter(o -> o.what().equals("drive unit"))
            .findFirst()
            .orElseThrow();
    assertThat(unit.face().x()).isCloseTo(-0.02, within(1e-9));
    assertThat(unit.face().y()).isCloseTo(0.23, within(1e-9));
    assertThat(unit.inwards().minus(new Point(1, 0, 0)).length()).isLessThan(1e-12);
  }

  @Test
  void bracesAreCutOrSeenBeyond() {
    String walls =
        "  walls:\n    - { name: back, braces: [ { from: [20 mm, 220 mm], to: [220 mm, 220 mm],"
            + " width: 18 mm, depth: 40 mm } ] }\n"
            + "    - { name: left, braces: [ { from: [170 mm, 30 mm], to: [170 mm, 400 mm],"
            + " width: 18 mm, depth: 40 mm } ] }\n"
            + "    - { name: right, braces: [ { from: [170 mm, 30 mm], to: [170 mm, 400 mm],"
            + " width: 18 mm, depth: 40 mm } ] }\n";
    BoxSection side = cut(PLAIN + walls, View.SIDE);
    assertThat(area(side, Part.BRACE)).isCloseTo(0.018 * 0.04, within(1e-9));
    // that on the left is behind the plane; that on the right was cut away
    assertThat(area(side, Part.BRACE_BEYOND)).isCloseTo(0.018 * 0.37, within(1e-9));
    // from above the one on the back is cut along its length
    assertThat(area(cut(PLAIN + walls, View.ABOVE), Part.BRACE))
        .isCloseTo(2 * 0.018 * 0.04 + 0.2 * 0.04, within(1e-9));
  }

  @Test
  void liningSheetAndWindowBraceAreToScale() {
    String walls =
        "  walls:\n    - { name: back, lining: { thickness: 40 mm, kind: felt } }\n"
            + "    - { name: top, damping: { kind: bitumen sheet, thickness: 3 mm } }\n"
            + "    - { name: left, lining: { thickness: 30 mm, kind: felt } }\n"
            + "  window-braces: [ { height: 200 mm, thickness: 18 mm, rim: 50 mm } ]\n";
    BoxSection side = cut(PLAIN + walls, View.SIDE);
    assertThat(area(side, Part.LINING)).isCloseTo(0.04 * 0.4, within(1e-9));
    assertThat(area(side, Part.SHEET)).isCloseTo(0.003 * 0.3, within(1e-9));
    assertThat(area(side, Part.LINING_BEYOND)).isCloseTo(0.3 * 0.4, within(1e-9));
    // from the middle of each board to the edge of the opening, 50 mm off its inner face
    assertThat(area(side, Part.BRACE)).isCloseTo(2 * 0.06 * 0.018, within(1e-9));
  }

  @Test
  void aWindowBraceThatIsLeftOutIsNotDrawn() {
    String walls =
        "  walls:\n    - { name: front, cut-outs: [ { what: drive unit, at: [100 mm, 250 mm],"
            + " diameter: 150 mm } ] }\n"
            + "  window-braces: [ { height: 250 mm, thickness: 18 mm, rim: 50 mm } ]\n";
    assertThat(area(cut(PLAIN + walls, View.SIDE), Part.BRACE)).isZero();
  }

  @Test
  void aNookIsCutTwice() {
    String nook =
        "box:\n  loading: sealed\n  wall: 10 mm\n  outline: { height: 300 mm, points: [[0 mm, 0 mm],"
            + " [400 mm, 0 mm], [400 mm, 100 mm], [100 mm, 100 mm], [100 mm, 200 mm], [400 mm,"
            + " 200 mm], [400 mm, 300 mm], [0 mm, 300 mm]] }\n";
    BoxSection side = cut(nook, View.SIDE);
    // the plane passes both arms: 100 mm each, walls all round
    assertThat(area(side, Part.BOARD)).isCloseTo(2 * (0.12 * 0.32 - 0.1 * 0.3), within(1e-6));
  }

  @Test
  void whereNoSizeIsToldThereIsNoSection() {
    assertThat(
            BoxSection.of(
                SheetReader.read(
                    "cutaway: 1\nunit: { name: U }\nbox: { loading: sealed }\n", "dossier.yaml"),
                NOTHING,
                View.SIDE))
        .isEmpty();
  }
}
