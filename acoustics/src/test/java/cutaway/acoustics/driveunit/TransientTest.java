package cutaway.acoustics.driveunit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import cutaway.acoustics.box.Loading;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Known answers from outside: ngspice integrates the same drive unit in a leaky vented box in the
 * time domain, force and pressure as voltages, velocity and volume velocity as currents.
 * Predictions agree within 0.1 dB.
 */
class TransientTest {
  private static final double RE = 5.6;
  private static final double MASS = 0.021;
  private static final double AREA = 0.0143;
  private static final double FS = 44;
  private static final double QMS = 5.2;
  private static final double QES = 0.48;
  private static final double ALPHA = 1.3;
  private static final double FB = 38;
  private static final double QP = 40;
  private static final double QL = 9;
  private static final double L1 = 2.2e-4;
  private static final double L2 = 6e-4;
  private static final double R2 = 4.1;

  @TempDir Path folder;

  private static boolean installed() {
    return List.of("/usr/bin/ngspice", "/usr/local/bin/ngspice").stream()
        .anyMatch(p -> Files.isExecutable(Path.of(p)));
  }

  @ParameterizedTest
  @ValueSource(doubles = {16, 25, 38, 45, 70, 120, 300})
  void predictionsAgreeWithATransientSimulation(double f) throws Exception {
    assumeTrue(
        installed() || System.getenv("CUTAWAY_ALL_TESTS") != null,
        "ngspice is not installed, so the transient check is skipped");
    double[] simulated = simulate(f);
    SmallSignal s = predicted();
    // p = ρ f |U| at 1 m in half space, amplitude to rms
    double level = 20 * Math.log10(1.2 * f * simulated[0] / Math.sqrt(2) / 20e-6);
    assertThat(s.level(f)).as("level at %f Hz", f).isCloseTo(level, within(0.1));
    double excursion = simulated[1] / (2 * Math.PI * f);
    assertThat(20 * Math.log10(s.excursion(f) / excursion)).isCloseTo(0, within(0.1));
    double port = simulated[2] / Math.sqrt(2);
    assertThat(20 * Math.log10(s.portFlow(f) / port)).isCloseTo(0, within(0.1));
  }

  private static SmallSignal predicted() {
    Loading load = new Loading.Vented(true, true, false);
    ModelChoice choice =
        ModelChoice.of(new CoilLoss.OneLoop(L1, L2, R2), new Suspension.Plain(), List.of(load));
    ImpedanceCurve blank = ImpedanceCurve.ofMagnitude(new double[] {1}, new double[] {1});
    List<Take> bench = List.of(new Take("x", blank, new Mounting.Boxed(load, Optional.empty())));
    Layout layout = new Layout(choice, bench, Readings.of(Bench.AIR), false);
    double[] values = {RE, FS, QMS, QES, L1, L2, R2, ALPHA, FB, QP, QL};
    double[] theta = new double[layout.size];
    for (int i = 0; i < values.length; i++) {
      theta[i] = Math.log(values[i]);
    }
    TakeModel model = new TakeModel(choice, layout, 0, theta);
    return new SmallSignal(model, MASS, AREA, Bench.AIR, Drive.of(2.83));
  }

  /**
   * Amplitudes of the air spring's volume velocity, of the cone's velocity and of the port's flow.
   */
  private double[] simulate(double f) throws IOException, InterruptedException {
    double ws = 2 * Math.PI * FS;
    double wb = 2 * Math.PI * FB;
    double cms = 1 / (ws * ws * MASS);
    double bl = Math.sqrt(ws * MASS * RE / QES);
    double cab = cms * AREA * AREA / ALPHA;
    double map = 1 / (wb * wb * cab);
    Path data = folder.resolve("out.txt");
    double periods = Math.ceil(1.2 * f);
    double stop = (periods + 4) / f;
    String circuit =
        String.format(
            Locale.ROOT,
            """
            a drive unit in a vented box
            V1 in 0 SIN(0 %.12g %.12g)
            Rre in a %.12g
            L1 a b %.12g
            L2 b c %.12g
            R2 b c %.12g
            Hemf c d Vv %.12g
            Vi d 0 0
            Hf m1 0 Vi %.12g
            Vv m1 m2 0
            Lm m2 m3 %.12g
            Rm m3 m4 %.12g
            Cm m4 m5 %.12g
            Ebox m5 0 pb 0 %.12g
            Fbox 0 pb Vv %.12g
            Vcab pb k 0
            Cab k 0 %.12g
            Rleak pb 0 %.12g
            Vport pb q 0
            Rport q r %.12g
            Lport r 0 %.12g
            .options reltol=1e-6 method=gear
            .control
            tran %.12g %.12g %.12g %.12g
            linearize i(vcab) i(vv) i(vport)
            wrdata %s i(vcab) i(vv) i(vport)
            quit
            .endc
            .end
            """,
            2.83 * Math.sqrt(2),
            f,
            RE,
            L1,
            L2,
            R2,
            bl,
            bl,
            MASS,
            ws * MASS / QMS,
            cms,
            AREA,
            AREA,
            cab,
            QL / (wb * cab),
            wb * map / QP,
            map,
            1 / (500 * f),
            stop,
            periods / f,
            1 / (1000 * f),
            data);
    Path file = folder.resolve("box.cir");
    Files.writeString(file, circuit);
    Process process =
        new ProcessBuilder("ngspice", "-b", file.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log.txt").toFile())
            .start();
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    return amplitudes(data, f);
  }

  /** Projects the last four periods on sine and cosine. */
  private static double[] amplitudes(Path data, double f) throws IOException {
    double[] re = new double[3];
    double[] im = new double[3];
    List<String> lines = Files.readAllLines(data);
    int n = lines.size() - 1;
    for (int i = 0; i < n; i++) {
      String[] columns = lines.get(i).strip().split("\\s+", -1);
      double t = Double.parseDouble(columns[0]);
      for (int k = 0; k < 3; k++) {
        double v = Double.parseDouble(columns[2 * k + 1]);
        re[k] += 2.0 / n * v * Math.cos(2 * Math.PI * f * t);
        im[k] += 2.0 / n * v * Math.sin(2 * Math.PI * f * t);
      }
    }
    return new double[] {
      Math.hypot(re[0], im[0]), Math.hypot(re[1], im[1]), Math.hypot(re[2], im[2])
    };
  }
}
