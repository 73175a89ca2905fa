package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.cabinet.LiningKind;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.dossier.DemoDossier;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.exam.WavesModel.Waves;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Change.Batten;
import cutaway.bench.finding.Trial;
import cutaway.bench.finding.Trial.WaveLine;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On the demo, whose box is invented. */
class RemedyExamTest {
  @TempDir static Path folder;

  private static RemedyBench bench;

  @BeforeAll
  static void open() {
    DemoDossier.copyTo(folder);
    Dossier dossier = Dossier.open(folder);
    bench =
        RemedyBench.of(dossier.sheet(), dossier.solve(s -> {}).findings(), dossier.bench())
            .orElseThrow();
  }

  private static Change none() {
    return Change.none(bench.worst());
  }

  @Test
  void nothingChangedIsAsItIs() {
    Trial t = bench.tryOut(none());
    assertThat(t.changed().after()).isEqualTo(t.changed().before());
    assertThat(t.addedMass()).isZero();
    assertThat(t.lostVolume()).isZero();
    assertThat(t.before()).isEqualTo(t.after());
    assertThat(t.waves()).isNotEmpty().allSatisfy(w -> assertThat(w.after()).isEqualTo(w.before()));
  }

  /** With the others condensed, a board changed by nothing gives what the whole box gives. */
  @Test
  void aSwapAgreesWithTheWholeBox() {
    Trial t = bench.tryOut(none().thicker(1e-9));
    double before = t.changed().before().level();
    assertThat(t.changed().after().level()).isCloseTo(before, within(0.5));
  }

  @Test
  void aBattenAddsItsMassAndTakesItsRoom() {
    Trial t = bench.tryOut(none().with(new Batten(false, 0.5)));
    // 18 × 40 mm of 700 kg/m³ from edge to edge
    assertThat(t.addedMass()).isBetween(0.1, 0.2);
    assertThat(t.lostVolume()).isCloseTo(t.addedMass() / 700, within(1e-9));
    assertThat(t.tuning().orElseThrow().value()).isBetween(42.9, 43.2);
    assertThat(t.changed().after().heard()).isLessThan(t.changed().before().heard());
    assertThatThrownBy(() -> bench.tryOut(none().with(new Batten(false, 1.3))))
        .isInstanceOf(ImpossibleShapeException.class);
  }

  @Test
  void aDampingSheetLowersThePeak() {
    for (DampingSheet.Kind kind : DampingSheet.Kind.values()) {
      Trial t = bench.tryOut(none().with(kind, 0.002));
      assertThat(t.changed().after().level())
          .as(kind.name())
          .isLessThan(t.changed().before().level());
      assertThat(t.addedMass()).isBetween(0.2, 0.6);
    }
  }

  @Test
  void aFrameStiffensTheWallsItTouches() {
    Trial t = bench.tryOut(none().framed(0.28));
    assertThat(t.changed().after().heard()).isLessThan(t.changed().before().heard());
    assertThat(t.lostVolume()).isBetween(3e-4, 1.2e-3);
  }

  @Test
  void framesAreOfferedWhereTheyFit() {
    assertThat(bench.frameHeights()).isNotEmpty().hasSizeLessThan(15);
    for (int i = 3; i <= 17; i++) {
      Change at = none().framed(i / 20.0);
      if (bench.frameHeights().contains(i / 20.0)) {
        assertThat(bench.tryOut(at).changed().after().heard()).isBetween(0.0, 1.0);
      } else {
        assertThatThrownBy(() -> bench.tryOut(at)).isInstanceOf(ImpossibleShapeException.class);
      }
    }
  }

  @Test
  void whatIsPreparedIsWhatIsFoundWhenAsked() {
    double at = bench.frameHeights().get(0);
    Trial before = bench.tryOut(none().framed(at));
    int parts = 0;
    while (bench.prepare()) {
      assertThat(++parts).isLessThan(30);
    }
    Trial after = bench.tryOut(none().framed(at));
    assertThat(after.changed()).isEqualTo(before.changed());
  }

  @Test
  void theBestComesFirst() {
    List<Trial> walls = RemedyExam.walls(bench, s -> {});
    assertThat(walls).hasSizeGreaterThan(6);
    assertThat(walls)
        .isSortedAccordingTo(
            Comparator.comparingLong(t -> Math.round(100 * t.worstAfter().after().heard())));
    List<Trial> linings = RemedyExam.linings(bench, 0.03, LiningKind.MINERAL_WOOL, s -> {});
    assertThat(linings).hasSize(6);
    assertThat(linings.get(0).rippleAfter().value())
        .isLessThan(linings.get(0).rippleBefore().value());
    // wool upon the top lies across the wave along the height; the right is lined already
    Trial top =
        linings.stream()
            .filter(t -> t.change().linedWall().orElse("").equals("top"))
            .findFirst()
            .orElseThrow();
    assertThat(top.waves().get(0).after().q().value())
        .isLessThan(0.8 * top.waves().get(0).before().q().value());
    assertThat(top.addedMass()).isZero();
  }

  /** The ends of the range of each kind lie within what a share of the change claims. */
  @Test
  void aLiningIsKnownToWhatItsKindSpans() {
    RemedyWaves waves = bench.waves().orElseThrow();
    List<Boolean> within = new ArrayList<>();
    for (String wall : bench.walls()) {
      for (LiningKind kind : LiningKind.values()) {
        Change change = none().lined(wall, 0.04, kind);
        List<WaveLine> lines = waves.lines(change);
        for (double times : new double[] {1 / kind.factor(), kind.factor()}) {
          Waves end = waves.lined(change, times);
          for (int wave = 0; wave < lines.size(); wave++) {
            Estimate q = lines.get(wave).after().q();
            within.add(Math.abs(end.q(wave) - q.value()) < q.sd());
          }
        }
      }
    }
    assertThat(within).hasSizeGreaterThan(200);
    assertThat(within.stream().filter(w -> w).count()).isGreaterThan(within.size() * 9L / 10);
  }
}
