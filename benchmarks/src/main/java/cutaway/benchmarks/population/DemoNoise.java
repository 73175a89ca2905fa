package cutaway.benchmarks.population;

import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.benchmarks.population.Loudspeaker.Box;
import cutaway.benchmarks.population.Loudspeaker.Coil;
import cutaway.benchmarks.population.Loudspeaker.Cone;
import cutaway.benchmarks.population.Loudspeaker.Panel;
import cutaway.benchmarks.population.SimulatedTake.Intervention;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Writes the sounds of the demo to a folder: its loudspeaker, every figure invented, with something
 * loose on the right wall; {@code benchmarks/make-demo.sh} runs it.
 */
public final class DemoNoise {
  private static final long SEED = 13;
  private static final double PASCAL = 50;
  private static final double VOLT = 20;

  private DemoNoise() {}

  /** Writes the takes to the folder named; with a seed, says what would come of it. */
  public static void main(String... args) throws IOException {
    long seed = args.length > 1 ? Long.parseLong(args[1]) : SEED;
    Recorder recorder =
        new Recorder(
            unit(),
            EnumSet.of(Fault.LOOSE_ON_PANEL),
            EnumSet.noneOf(Nuisance.class),
            50,
            true,
            seed);
    TestSignal sweep = ExponentialSweep.of(15, 2000, 4, 0.25);
    SimulatedTake swept = recorder.record(Optional.of(sweep), Intervention.NONE);
    double heard = Math.rint(recorder.heardAt());
    TestSignal tone = new SteadyTone(heard, List.of(Math.pow(10, -0.5), 1.0), 1.6, 0.2, 0.25);
    SimulatedTake stood = recorder.record(Optional.of(tone), Intervention.NONE);
    SimulatedTake blocked = recorder.record(Optional.of(tone), Intervention.PORT_BLOCKED);
    SimulatedTake held = recorder.record(Optional.of(tone), Intervention.HAND_ON_PANEL);
    System.out.printf(
        Locale.ROOT,
        "seed %d: tone at %.0f Hz, %.2f V; sweep %s, tone %s, port blocked %s, held %s%n",
        seed,
        heard,
        swept.volts(),
        swept.margins(),
        stood.margins(),
        blocked.margins(),
        held.margins());
    if (args.length == 1) {
      Path folder = Path.of(args[0]);
      write(folder.resolve("noise-sweep.raw"), swept);
      write(folder.resolve("noise-tone.raw"), stood);
      write(folder.resolve("noise-port-stopped.raw"), blocked);
      write(folder.resolve("noise-rest.raw"), recorder.record(Optional.empty(), Intervention.NONE));
    }
  }

  /** As {@code InventedLoudspeaker}, and with what bends. */
  private static Loudspeaker unit() {
    double area = Math.PI * 0.1662 * 0.1662 / 4;
    double reach = 5e-3;
    Coil coil = new Coil(3.42, 3.1e-4, -0.1 * 3.1e-4 / reach, 9.4e-4, 3.9);
    Cone cone =
        new Cone(
            8.35,
            0.03 / reach,
            -0.14 / reach / reach,
            1 / 5.6e-4,
            -0.06 / reach,
            0.3 / reach / reach,
            0.0421,
            2.05,
            area,
            reach);
    double compliance = 0.02483 / (1.1932 * 344.06 * 344.06);
    double portArea = Math.PI * 0.034 * 0.034;
    double portLength = 0.190 + (0.8216 + 0.6133) * 0.034;
    double portMass = 1.1932 * portLength / portArea;
    double omega = 1 / Math.sqrt(portMass * compliance);
    Box box =
        new Box(
            compliance,
            11 / (omega * compliance),
            portMass,
            omega * portMass / 38,
            0.6 / (portArea * portArea),
            portArea,
            portLength);
    return new Loudspeaker(
        Loudspeaker.Size.MIDDLE, true, coil, cone, box, List.of(panel(259), panel(407)));
  }

  private static Panel panel(double frequency) {
    double omega = 2 * Math.PI * frequency;
    double mass = 0.5;
    return new Panel(mass, omega * omega * mass, omega * mass * 0.023, 0.02, 0.03);
  }

  /** Cone, port, wall and voltage in turn, 24 bits of which a converter's 20 are used, no head. */
  private static void write(Path file, SimulatedTake take) throws IOException {
    double[][] x = {
      take.microphones()[0],
      take.microphones()[1],
      take.microphones()[2],
      take.voltage().orElseThrow()
    };
    ByteBuffer bytes =
        ByteBuffer.allocate(x[0].length * x.length * 3).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < x[0].length; i++) {
      for (int c = 0; c < x.length; c++) {
        long v = Math.round(x[c][i] / (c < 3 ? PASCAL : VOLT) * 0x7ffff) << 4;
        bytes.put((byte) v).put((byte) (v >> 8)).put((byte) (v >> 16));
      }
    }
    Files.write(file, bytes.array());
  }
}
