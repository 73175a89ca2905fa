package cutaway.bench.take;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CurveFileTest {

  private static CurveFile read(String text, String name) {
    return CurveFile.of(text.getBytes(StandardCharsets.UTF_8), name, "takes.x", ReadAs.FOUND);
  }

  private static void isThree(CurveFile file) {
    ImpedanceCurve c = file.curve();
    assertThat(c.size()).as(file.understood()).isEqualTo(3);
    assertThat(c.frequency(0)).isEqualTo(10);
    assertThat(c.frequency(2)).isEqualTo(1000);
    assertThat(c.re(1)).as(file.understood()).isCloseTo(5 * Math.cos(Math.PI / 6), within(2e-4));
    assertThat(c.im(1)).isCloseTo(2.5, within(2e-4));
  }

  @Test
  void takesNoHalfOfAnImpedanceForItsMagnitude() {
    assertThatThrownBy(() -> read("f;Z real (Ohm)\n10;4\n100;5\n1000;6\n", "a.csv"))
        .hasMessageContaining("has a real part but no imaginary part");
    String rows = "10 4 1\n100 5 1\n1000 6 1\n";
    assertThatThrownBy(() -> told(rows, "frequency", "real", "ignore"))
        .hasMessageContaining("no imaginary part");
    assertThatThrownBy(() -> told(rows, "magnitude", "phase"))
        .hasMessageContaining("no column of frequencies");
    assertThatThrownBy(() -> told(rows, "frequency", "magnitude", "magnitude"))
        .hasMessageContaining("two columns of magnitude");
  }

  @Test
  void judgesByValuesWhatNoHeaderSays() {
    StringBuilder kilohertz = new StringBuilder();
    for (int i = 0; i < 40; i++) {
      kilohertz.append(0.01 * Math.pow(2000, i / 39.0)).append(" 6 10\n");
    }
    CurveFile file = read(kilohertz.toString(), "a.txt");
    assertThat(file.curve().frequency(39)).isCloseTo(20000, within(1e-6));
    assertThat(file.understood()).contains("kHz (judged by its values)");
    assertThat(read("10 5.9 3.9\n100 7 20\n1000 11 100.9\n", "b.txt").understood())
        .contains("real and imaginary part");
    isThree(
        read(
            "\"Frequenz (Hz)\";\"Betrag (Ohm)\";\"Phase (Grad)\"\n10;4;0\n100;5;30\n1000;6;1\n",
            "c.csv"));
  }

  private static CurveFile told(String text, String... columns) {
    ReadAs as = new ReadAs(List.of(columns), Optional.empty(), Optional.empty());
    return CurveFile.of(text.getBytes(StandardCharsets.UTF_8), "a.txt", "takes.x", as);
  }

  @Test
  void readsEveryDialect() {
    isThree(read("10,4,0\n100,5,30\n1000,6,10\n", "a.csv"));
    isThree(read("10;4,0;0\n100;5,0;30\n1000;6,0;10\n", "a.csv"));
    isThree(read("10\t4\t0\n100\t5\t30\n1000\t6\t10\n", "a.txt"));
    isThree(read("10\t4,0\t0\n100\t5,0\t30,0\n1000\t6,0\t10\n", "a.txt"));
    isThree(read("  10   4.0   0\n 100   5.0  30\n1000   6  10\n", "a.txt"));
    isThree(read("10 4,0 0,0\n100 5,0 30,0\n1000 6,0 10,0\n", "a.txt"));
    isThree(
        read(
            "\uFEFFFrequency (Hz),Z (ohm),Phase (deg)\r\n10,4,0\r\n100,5,30\r\n1000,6,10\r\n",
            "a.csv"));
    isThree(read("* comment\n# freq\n; x\n10 4 0\n100 5 30\n1000 6 10\n", "a.txt"));
    isThree(
        read(
            "\"Freq [Hz]\",\"|Z| [Ohm]\",\"Phase [deg]\"\n10,4,0\n100,5,30\n1000,6,10\n", "a.csv"));
    isThree(
        read(
            "freq (kHz)\tmag\tphase (rad)\n0.01\t4\t0\n0.1\t5\t0.5235988\n1\t6\t0.1745\n",
            "a.txt"));
    isThree(read("10 4 0\n100 5 0.5235988\n1000 6 0.17\n", "radians.txt"));
    isThree(read("f;real;imag\n10;4;0\n100;4.330127;2.5\n1000;6;1\n", "a.csv"));
    isThree(read("f;Z real (Ohm);Z imag (Ohm)\n10;4;0\n100;4.330127;2.5\n1000;6;1\n", "a.csv"));
    isThree(
        read(
            "Frequency,Impedance real part,Impedance imaginary part\n"
                + "10,4,0\n100,4.330127,2.5\n1000,6,1\n",
            "a.csv"));
    isThree(read("f;Z';Z''\n10;4;0\n100;4.330127;2.5\n1000;6;1\n", "a.csv"));
    isThree(read("1000 6 10\n100 5 30\n10 4 0\n", "down.txt"));
  }

  @Test
  void readsEveryEncoding() {
    String text = "frequency (Hz);magnitude (Ω);phase (°)\n10;4;0\n100;5;30\n1000;6;10\n";
    for (String name : List.of("UTF-16LE", "UTF-16BE", "UTF-8")) {
      isThree(CurveFile.of(text.getBytes(Charset.forName(name)), "a.csv", "takes.x", ReadAs.FOUND));
    }
    isThree(CurveFile.of(text.getBytes(StandardCharsets.UTF_16), "a.csv", "takes.x", ReadAs.FOUND));
    isThree(
        CurveFile.of(
            text.replace("Ω", "Ohm").getBytes(Charset.forName("windows-1252")),
            "a.csv",
            "takes.x",
            ReadAs.FOUND));
    byte[] little = ("\uFEFF" + text).getBytes(StandardCharsets.UTF_16LE);
    isThree(CurveFile.of(little, "a.csv", "takes.x", ReadAs.FOUND));
  }

  @Test
  void readsMagnitudeAloneAndWhatTheSheetSays() {
    CurveFile two = read("10 4\n100 5\n1000 6\n", "a.txt");
    assertThat(two.curve().phaseKnown()).isFalse();
    assertThat(two.understood()).contains("magnitude only", "3 points from 10 to 1000 Hz");
    ReadAs told =
        new ReadAs(
            List.of("ignore", "frequency", "real", "imaginary"),
            Optional.of("kHz"),
            Optional.empty());
    isThree(
        CurveFile.of(
            "1 0.01 4 0\n2 0.1 4.330127 2.5\n3 1 6 1\n".getBytes(StandardCharsets.UTF_8),
            "a.txt",
            "takes.x",
            told));
    ReadAs degrees = new ReadAs(List.of(), Optional.empty(), Optional.of("degrees"));
    CurveFile small =
        CurveFile.of(
            "10 4 0\n100 5 1.1\n1000 6 1\n".getBytes(StandardCharsets.UTF_8),
            "a.txt",
            "x",
            degrees);
    assertThat(Math.toDegrees(small.curve().phase(1))).isCloseTo(1.1, within(1e-9));
  }

  @Test
  void sortsMergesAndLeavesOutWithAWord() {
    CurveFile f =
        read(
            "10 4 0\n100 5 30\n50 4 1\n100 5 30\n1000 6 10\n2000 NaN 3\n-5 4 4\n3000 0 1\n",
            "a.txt");
    assertThat(f.curve().size()).isEqualTo(4);
    assertThat(f.notices()).hasSize(3);
    assertThat(f.notices().get(0).message()).contains("3 rows left out, the first at line 6");
    assertThat(read("10 4\n10 6\n20 5\n", "a").curve().re(0)).isEqualTo(5);
    assertThat(read("10 4 0\n100 5 30\noops\n1000 6 10\n", "a").notices().get(0).message())
        .contains("'oops'");
  }

  @Test
  void refusesWhatIsNoCurve() {
    refuses("", "is empty");
    refuses("hello\nworld\n", "no row of two or more numbers");
    refuses("10 4\n", "has 1 usable rows");
    refuses("10 nan\n20 inf\n30 4\n40 5\n50 -1\n60 0\n70 -3\n", "usable rows");
    refuses("RIFF1234WAVEfmt ", "is a sound recording by its content");
    refuses("\u0001\u0002\u0003\u0000\u0007".repeat(20), "holds binary data");
  }

  @Test
  void heedsTheUnitOfTheMagnitude() {
    isThree(
        read("f (Hz);Z (kohm);phase (deg)\n10;0.004;0\n100;0.005;30\n1000;0.006;10\n", "a.csv"));
    isThree(read("f (Hz);|Z| (mΩ);phase (deg)\n10;4000;0\n100;5000;30\n1000;6000;10\n", "a.csv"));
    refuses("f (Hz);Z (dB);phase (deg)\n10;12;0\n100;14;30\n", "in decibels");
    refuses("f (Hz),Z (ohm),phase (deg)\n10,0,4,0,0,0\n100,0,5,0,30,0\n", "rows have 6");
  }

  @Test
  void leavesOutOutlandishRowsAndNamesContradictions() {
    CurveFile f = read("10 4 0\n50 1e-300 0\n100 5 30\n1000 6 10\n1e300 5 5\n", "a.txt");
    isThree(f);
    assertThat(f.notices().get(0).message()).contains("2 rows left out");
    assertThat(read("10 4 0\n10 99 0\n20 5 0\n", "a").notices().get(0).message())
        .contains("line 2 repeats a frequency with another impedance");
  }

  @Test
  void leavesOutRowsThatCancelEachOtherAndSizesNoImpedanceHas() {
    CurveFile f =
        read(
            "f (Hz);Z (ohm);phase (deg)\n"
                + "5;4;0\n5;4;180\n10;4;0\n100;5;30\n1000;6;10\n2000;1e300;0\n",
            "a.csv");
    isThree(f);
    assertThat(f.notices().get(0).message()).contains("left out, the first at line");
    refuses("10 4 0\n10 -4 0\n20 5 0\n", "has 1 usable rows");
    refuses("10 1e308 0\n10 1e308 0\n20 1e308 0\n", "has 0 usable rows");
  }

  private static void refuses(String text, String why) {
    assertThatThrownBy(() -> read(text, "takes/x.csv"))
        .isInstanceOf(ProblemException.class)
        .hasMessageContaining("takes/x.csv")
        .hasMessageContaining(why);
  }

  @Test
  void readsTouchstoneOfBothVersions() {
    // 5 ∠ 30° Ω
    String z = "4.330127 2.5";
    isThree(read("# Hz Z RI R 1\n10 4 0\n100 " + z + "\n1000 6 1\n", "a.s1p"));
    isThree(read("# Hz Z MA R 1\n10 4 0\n100 5 30\n1000 6 1\n", "a.s1p"));
    isThree(read("# kHz Z DB R 1\n0.01 12 0\n0.1 13.9794 30\n1 15.56 1\n", "a.s1p"));
    isThree(read("! c\n# HZ Z RI R 50\n10 0.08 0\n100 0.08660254 0.05 ! x\n1000 .12 0\n", "a.s1p"));
    isThree(read("# Hz Y MA R 50\n10 12.5 0\n100 10 -30\n1000 8 0\n", "a.s1p"));
    isThree(
        read(
            "[Version] 2.0\n# Hz Z RI R 50\n[Number of Ports] 1\n[Reference] 50\n[Network Data]\n"
                + "10 4 0\n100 "
                + z
                + "\n1000 6 1\n[End]\njunk\n",
            "a.ts"));
    isThree(
        read(
            "[Version] 2.0\n# Hz Y RI\n[Number of Ports] 1\n[Reference]\n8\n[Network Data]\n"
                + "10 .25 0\n100 0.1732051 -0.1\n1000 .2 0\n[End]\n",
            "a.ts"));
    double re = 4.330127;
    double im = 2.5;
    double d = (re + 8) * (re + 8) + im * im;
    String s = String.format(Locale.ROOT, "%.9f %.9f", (re * re + im * im - 64) / d, 16 * im / d);
    isThree(read("# Hz S RI R 8\n10 0 0\n100 " + s + "\n1000 0.1 0\n", "a.s1p"));
    // without an option line: GHz, S, MA, 50 Ω
    assertThat(read("1e-8 0.5 0\n1e-7 0.4 0\n", "a.s1p").understood()).contains("defaults");
  }

  @Test
  void refusesTouchstoneThatIsNoImpedance() {
    assertThatThrownBy(() -> read("# Hz H RI R 50\n1 2 3\n2 3 4\n", "a.s1p"))
        .hasMessageContaining("a.s1p:1: the option 'H'");
    assertThatThrownBy(() -> read("[Version] 2.0\n[Number of Ports] 2\n", "a.ts"))
        .hasMessageContaining("has 2 ports");
    assertThatThrownBy(() -> read("# Hz S RI R x\n1 2 3\n", "a.s1p"))
        .hasMessageContaining("'x' is no number");
    assertThatThrownBy(() -> read("# Hz S RI R -1\n1 2 3\n", "a.s1p"))
        .hasMessageContaining("the reference");
    assertThatThrownBy(() -> read("# Hz S RI R 8\n1 2\n", "a.s1p"))
        .hasMessageContaining("no row of three numbers");
    assertThat(read("# Hz Z RI R 1\n10 4 0\n20 x 1\n30 5 0\n40 5 0\n", "a.s1p").notices())
        .hasSize(1);
  }

  @Test
  void refusesAFileFarTooLarge(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("huge.csv");
    try (RandomAccessFile f = new RandomAccessFile(file.toFile(), "rw")) {
      f.setLength(2L << 30);
    }
    assertThatThrownBy(() -> CurveFile.read(file, "huge.csv", "x", ReadAs.FOUND))
        .hasMessageContaining("2048 MiB large");
    assertThatThrownBy(() -> CurveFile.read(folder.resolve("none"), "none", "x", ReadAs.FOUND))
        .hasMessageContaining("cannot be read");
  }

  @Property
  void whatIsWrittenComesBack(
      @ForAll @DoubleRange(min = 2, max = 90) double r,
      @ForAll @DoubleRange(min = -80, max = 80) double x) {
    String text = String.format(Locale.ROOT, "f,re,im\n10,4,1\n20,%.6f,%.6f\n30,5,2\n", r, x);
    ImpedanceCurve c = read(text, "a.csv").curve();
    assertThat(c.re(1)).isCloseTo(r, within(1e-6));
    assertThat(c.im(1)).isCloseTo(x, within(1e-6));
  }

  @Property
  void anyBytesAreReadOrRefused(@ForAll byte[] bytes) {
    for (String name : List.of("a.csv", "a.s1p")) {
      try {
        assertThat(CurveFile.of(bytes, name, "x", ReadAs.FOUND).curve().size()).isPositive();
      } catch (ProblemException e) {
        assertThat(e.problems()).isNotEmpty();
      }
    }
  }
}
