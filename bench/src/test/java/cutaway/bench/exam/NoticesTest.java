package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Judgement.Verdict;
import cutaway.bench.finding.Notice;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Known answers: invented curves with one thing wrong, and what is said of it. */
class NoticesTest {
  @TempDir Path folder;

  private final Random random = new Random(5);

  /** Invented drive unit: R_e 6 Ω, f_s 40 Hz, Q_ms 5, Q_es 0.5, 0.3 mH; 1 kg scales as 20 g. */
  private String curve(double massRatio, double stiffnessRatio, double warm, double phaseSign) {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 140; i++) {
      double f = 6 * Math.pow(20000.0 / 6, i / 139.0);
      double u = f / 40;
      double zRe = 1 / 5.0;
      double zIm = u * (1 + massRatio) - (1 + stiffnessRatio) / u;
      double inv = 6 / 0.5 / (zRe * zRe + zIm * zIm);
      double re = 6 * warm + zRe * inv;
      double im = -zIm * inv + 2 * Math.PI * f * 3e-4;
      double size = Math.hypot(re, im) * (1 + 0.002 * random.nextGaussian());
      double phase = Math.toDegrees(Math.atan2(im, re)) + 0.1 * random.nextGaussian();
      out.append(String.format(Locale.ROOT, "%.5f %.6f %.4f%n", f, size, phaseSign * phase));
    }
    return out.toString();
  }

  private Findings solve(String sheet, String... files) {
    try {
      for (int i = 0; i < files.length; i += 2) {
        Files.writeString(folder.resolve(files[i]), files[i + 1]);
      }
      return new WrittenDossier(folder).solve(sheet);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> messages(Findings f) {
    return f.notices().stream().map(Notice::message).toList();
  }

  private static String take(String id, String setup) {
    return "  - { id: "
        + id
        + ", file: "
        + id
        + ".txt, what: impedance, setup: { "
        + setup
        + " } }\n";
  }

  @Test
  void freeAirAloneSaysWhatIsNotKnownAndWhatToMeasureNext() {
    Findings f = solve("takes:\n" + take("a", "mount: free air"), "a.txt", curve(0, 0, 1, 1));
    assertThat(messages(f)).anyMatch(m -> m.contains("no reading tells the moving mass"));
    assertThat(f.finding("drive-unit.mms")).isEmpty();
    assertThat(f.finding("drive-unit.qts")).isPresent();
    assertThat(f.nextReadings().get(0).what()).contains("stuck to the diaphragm");
    assertThat(f.nextReadings().get(0).before()).isInfinite();
    assertThat(f.nextReadings().get(0).after()).isBetween(0.003, 0.01);
  }

  @Test
  void withoutADiameterVolumesAreNotKnown() {
    Findings f =
        solve(
            "drive-unit: { moving-mass: 20 g }\ntakes:\n" + take("a", "mount: free air"),
            "a.txt",
            curve(0, 0, 1, 1));
    assertThat(messages(f)).anyMatch(m -> m.contains("without the piston diameter"));
    assertThat(f.finding("drive-unit.vas")).isEmpty();
    assertThat(f.finding("drive-unit.bl")).isPresent();
  }

  @Test
  void anAddedMassThatShiftsTooLittleIsTold() {
    Findings f =
        solve(
            "takes:\n"
                + take("a", "mount: free air")
                + take("b", "mount: free air, added-mass: 2.0 g ± 0.1 g"),
            "a.txt",
            curve(0, 0, 1, 1),
            "b.txt",
            curve(0.1, 0, 1, 1));
    assertThat(messages(f)).anyMatch(m -> m.contains("moves f_s by only 5 %"));
  }

  @Test
  void aWrongSignOfPhaseIsTold() {
    Findings f = solve("takes:\n" + take("a", "mount: free air"), "a.txt", curve(0, 0, 1, -1));
    assertThat(messages(f)).anyMatch(m -> m.contains("the phase has the wrong sign"));
  }

  @Test
  void theSameFileTwiceCountsOnce() {
    String same = curve(0, 0, 1, 1);
    Findings f =
        solve(
            "takes:\n" + take("a", "mount: free air") + take("b", "mount: free air"),
            "a.txt",
            same,
            "b.txt",
            same);
    assertThat(messages(f)).anyMatch(m -> m.contains("the very same values as a"));
    assertThat(f.finding("drive-unit.fs").orElseThrow().restsOn()).containsExactly("takes.a");
  }

  @Test
  void aTakeOfAnotherUnitIsSetAside() {
    Findings f =
        solve(
            "takes:\n" + take("a", "mount: free air") + take("b", "mount: free air"),
            "a.txt",
            curve(0, 0, 1, 1),
            "b.txt",
            curve(0, 2.5, 1, 1));
    assertThat(messages(f)).anyMatch(m -> m.contains("set aside"));
    assertThat(f.finding("drive-unit.fs").orElseThrow().estimate().value()).isBetween(39.0, 41.0);
  }

  @Test
  void aMeterThatDisagreesIsTold() {
    Findings f =
        solve(
            "drive-unit: { dc-resistance: 5.6 Ω ± 0.02 Ω }\ntakes:\n"
                + take("a", "mount: free air"),
            "a.txt",
            curve(0, 0, 1, 1));
    assertThat(messages(f))
        .anyMatch(
            m -> m.contains("by meter 5.600 Ω") && m.contains("left out") && m.contains("warm"));
    var re = f.finding("drive-unit.re").orElseThrow().estimate();
    assertThat(re.value()).isCloseTo(6, within(0.02));
    assertThat(re.sd()).isBetween(0.3, 0.5);
    // the curve was made with 6 Ω; a reading that contradicts it must not pull it
    assertThat(f.finding("drive-unit.re").orElseThrow().estimate().value()).isBetween(5.98, 6.02);
    assertThat(f.finding("drive-unit.re").orElseThrow().restsOn()).containsExactly("takes.a");
  }

  @Test
  void aMeterThatAgreesCountsAndIsNamed() {
    Findings f =
        solve(
            "drive-unit: { dc-resistance: 6.001 Ω ± 0.002 Ω }\ntakes:\n"
                + take("a", "mount: free air"),
            "a.txt",
            curve(0, 0, 1, 1));
    assertThat(f.finding("drive-unit.re").orElseThrow().restsOn())
        .containsExactly("takes.a", "drive-unit.dc-resistance");
    assertThat(f.finding("drive-unit.re").orElseThrow().estimate().sd()).isLessThan(0.0021);
  }

  @Test
  void rowsThatRepeatCountOnceAndKeepThePeak() {
    StringBuilder coarse = new StringBuilder();
    for (String line : curve(0, 0, 1, 1).split("\n", -1)) {
      String[] parts = line.split(" ", -1);
      if (parts.length == 3) {
        double f = Double.parseDouble(parts[0]);
        // below 9 Hz the analysis has one value; above, every row its own
        coarse.append(f < 9 ? parts[0] + " 6.3 4" : line).append('\n');
      }
    }
    Findings f = solve("takes:\n" + take("a", "mount: free air"), "a.txt", coarse.toString());
    assertThat(messages(f)).anyMatch(m -> m.contains("they count once"));
    assertThat(f.finding("drive-unit.fs").orElseThrow().estimate().value()).isBetween(39.8, 40.2);
  }

  @Test
  void aClaimIsSupportedOnlyWhereTheFindingIsSure() {
    String sheet =
        "claims:\n"
            + "  - { by: m, says: x, about: drive-unit.fs, value: 40 Hz }\n"
            + "  - { by: m, says: x, about: drive-unit.fs, value: 40 Hz, sense: at most }\n"
            + "  - { by: m, says: x, about: drive-unit.fs, value: 46 Hz, sense: at least }\n"
            + "  - { by: m, says: x, about: drive-unit.vas, value: 33 L, sense: at least }\n"
            + "drive-unit: { moving-mass: 20 g ± 5 g, piston-diameter: 150 mm ± 10 mm }\n"
            + "takes:\n"
            + take("a", "mount: free air");
    Findings f = solve(sheet, "a.txt", curve(0, 0, 1, 1));
    assertThat(f.judgements())
        .extracting(j -> j.verdict())
        .containsExactly(
            Verdict.SUPPORTED, Verdict.SUPPORTED, Verdict.CONTRADICTED, Verdict.NOT_SHOWN);
    assertThat(f.judgements().get(3).reason()).contains("not sure enough");
  }

  @Test
  void aBoxFullerThanItIsLargeHasNoNetVolume() {
    String sheet =
        "box: { loading: sealed, displaced: 30 L, inner: { width: 200 mm, height: 250 mm, depth:"
            + " 300 mm } }\ntakes:\n"
            + take("a", "mount: free air")
            + take("b", "mount: box");
    Findings f = solve(sheet, "a.txt", curve(0, 0, 1, 1), "b.txt", curve(0, 2, 1, 1));
    assertThat(f.finding("box.net-volume")).isEmpty();
    assertThat(messages(f)).anyMatch(m -> m.contains("takes up more than its inner size holds"));
  }

  @Test
  void aPortLongerThanItsBoxIsTold() {
    String sheet =
        "box: { loading: vented, inner: { width: 200 mm, height: 250 mm, depth: 300 mm }, port: {"
            + " diameter: 50 mm, length: LENGTH } }\ntakes:\n"
            + take("a", "mount: free air");
    assertThat(messages(solve(sheet.replace("LENGTH", "290 mm"), "a.txt", curve(0, 0, 1, 1))))
        .noneMatch(m -> m.contains("the port is"));
    assertThat(messages(solve(sheet.replace("LENGTH", "340 mm"), "a.txt", curve(0, 0, 1, 1))))
        .anyMatch(m -> m.contains("the port is 340 mm long, the box inside at most 300 mm"));
  }

  @Test
  void aDriftBetweenTwoFreeAirTakesIsTold() {
    Findings f =
        solve(
            "takes:\n" + take("a", "mount: free air") + take("b", "mount: free air"),
            "a.txt",
            curve(0, 0, 1, 1),
            "b.txt",
            curve(0, -0.06, 1, 1));
    assertThat(messages(f)).anyMatch(m -> m.contains("f_s drifted by −3"));
  }

  @Test
  void oddCurvesAreRefusedWithTheirName() {
    String flat =
        java.util.stream.IntStream.range(0, 60)
            .mapToObj(
                i -> String.format(Locale.ROOT, "%.3f 8.0%d 0.1%n", 10 * Math.pow(1.12, i), i % 3))
            .reduce("", String::concat);
    assertThat(messages(solve("takes:\n" + take("a", "mount: free air"), "a.txt", flat)))
        .anyMatch(m -> m.contains("no motional peak"));
    assertThat(
            messages(
                solve(
                    "box: { loading: vented }\ntakes:\n" + take("a", "mount: box"),
                    "a.txt",
                    curve(0, 0, 1, 1))))
        .anyMatch(m -> m.contains("one low peak where a vented box shows two"));
    assertThat(
            messages(
                solve("takes:\n" + take("a", "mount: free air"), "a.txt", "10 4\n20 5\n30 4\n")))
        .anyMatch(m -> m.contains("too few points"));
  }

  @Test
  void aSealedBoxAloneTellsOnlyRatios() {
    Findings f =
        solve(
            "box: { loading: sealed }\ntakes:\n" + take("a", "mount: box"),
            "a.txt",
            curve(0, 1, 1, 1));
    assertThat(f.finding("box.qtc").orElseThrow().estimate().value()).isBetween(0.60, 0.66);
    assertThat(f.finding("box.fc").orElseThrow().estimate().value()).isBetween(56.0, 57.0);
    assertThat(f.finding("drive-unit.fs")).isEmpty();
    assertThat(messages(f)).anyMatch(m -> m.contains("only ratios"));
  }

  @Test
  void aBoxThatWorksLargerThanItsTapeIsTold() {
    String sheet =
        "drive-unit: { moving-mass: 20 g ± 0.1 g, piston-diameter: 150 mm ± 0.2 mm }\n"
            + "box: { loading: sealed, inner: { width: 200 mm, height: 250 mm, depth: 300 mm } }\n"
            + "claims:\n"
            + "  - { by: maker, says: small, about: box.volume, value: 1 L }\n"
            + "  - { by: maker, says: light, about: box.volume, value: 3 kg }\n"
            + "  - { by: maker, says: good, about: box.volume }\n"
            + "  - { by: maker, says: fine, about: box.nothing, value: 3 L }\n"
            + "takes:\n"
            + take("a", "mount: free air")
            + take("b", "mount: box");
    Findings f = solve(sheet, "a.txt", curve(0, 0, 1, 1), "b.txt", curve(0, 2, 1, 1));
    assertThat(messages(f)).anyMatch(m -> m.contains("larger than the tape says"));
    assertThat(f.crossChecks())
        .anyMatch(c -> c.id().equals("box.volume-by-tape") && c.sigmas() > 3);
    assertThat(f.judgements())
        .extracting(j -> j.verdict())
        .containsExactly(
            Verdict.CONTRADICTED, Verdict.NOT_SHOWN, Verdict.NOT_SHOWN, Verdict.NOT_SHOWN);
    assertThat(f.finding("response.f3")).isPresent();
  }

  /** As the curve above, in a box of α = 1.2 with a port at 50 Hz, Q_P 30. */
  private String vented() {
    StringBuilder out = new StringBuilder();
    for (int i = 0; i < 140; i++) {
      double f = 6 * Math.pow(20000.0 / 6, i / 139.0);
      double u = f / 40;
      double v = f / 50;
      // y = 1 + 1/(−v² + jv/Q_P), b = α/(ju y)
      double d = v * v * v * v + v * v / 900;
      double yRe = 1 - v * v / d;
      double yIm = -v / 30 / d;
      double y = yRe * yRe + yIm * yIm;
      double zRe = 1 / 5.0 - 1.2 / u * yIm / y;
      double zIm = u - 1 / u - 1.2 / u * yRe / y;
      double inv = 6 / 0.5 / (zRe * zRe + zIm * zIm);
      double re = 6 + zRe * inv;
      double im = -zIm * inv + 2 * Math.PI * f * 3e-4;
      double size = Math.hypot(re, im) * (1 + 0.002 * random.nextGaussian());
      double phase = Math.toDegrees(Math.atan2(im, re)) + 0.1 * random.nextGaussian();
      out.append(String.format(Locale.ROOT, "%.5f %.6f %.4f%n", f, size, phase));
    }
    return out.toString();
  }

  @Test
  void aBlockedPortGivesTheBoxAsSealed() {
    Findings f =
        solve(
            "box: { loading: vented }\ntakes:\n"
                + take("a", "mount: free air")
                + take("b", "mount: box, port: blocked"),
            "a.txt",
            curve(0, 0, 1, 1),
            "b.txt",
            curve(0, 1.2, 1, 1));
    assertThat(f.finding("box.fc").orElseThrow().estimate().value())
        .isCloseTo(40 * Math.sqrt(2.2), within(0.2));
    assertThat(f.finding("box.qtc")).isPresent();
    assertThat(f.finding("box.fb")).isEmpty();
    assertThat(f.curve("response.half-space")).isEmpty();
    assertThat(messages(f)).anyMatch(m -> m.contains("every take in the box has its vent blocked"));
  }

  @Test
  void openAndBlockedTakesTellOneBox() {
    Findings f =
        solve(
            "box: { loading: vented }\ntakes:\n"
                + take("blocked", "mount: box, port: blocked")
                + take("open", "mount: box")
                + take("a", "mount: free air"),
            "a.txt",
            curve(0, 0, 1, 1),
            "open.txt",
            vented(),
            "blocked.txt",
            curve(0, 1.2, 1, 1));
    assertThat(f.finding("box.fb").orElseThrow().estimate().value()).isCloseTo(50, within(0.2));
    assertThat(f.finding("box.alpha").orElseThrow().estimate().value())
        .isCloseTo(1.2, within(0.01));
    assertThat(f.finding("box.qtc.blocked").orElseThrow().estimate().value())
        .isCloseTo(Math.sqrt(2.2) / (1 / 5.0 + 1 / 0.5), within(0.01));
    assertThat(messages(f)).noneMatch(m -> m.contains("volume of its own"));
  }

  @Test
  void aPlugThatAddsAirIsTold() {
    Findings f =
        solve(
            "box: { loading: vented }\ntakes:\n"
                + take("a", "mount: free air")
                + take("open", "mount: box")
                + take("blocked", "mount: box, port: blocked"),
            "a.txt",
            curve(0, 0, 1, 1),
            "open.txt",
            vented(),
            "blocked.txt",
            curve(0, 1.1, 1, 1));
    assertThat(messages(f))
        .anyMatch(
            m -> m.contains("the box is 8.") && m.contains("% softer against the suspension"));
  }
}
