package cutaway.app.command;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.take.SignalFile;
import cutaway.bench.take.WrittenSignal;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "signal",
    description = {
      "Write a test signal to a WAV file: one channel, 24 bits, faded, silence before and after.",
      "",
      "Begin quietly and keep your ears away: test tones hurt hearing and burn coils long before"
          + " they sound loud. Deep ones drive a cone against its stops, most of all in a vented box"
          + " below its tuning."
    })
final class SignalCommand implements Runnable {
  private static final String SHAPES =
      Arrays.stream(WrittenSignal.Shape.values())
          .map(s -> s.name().toLowerCase(Locale.ROOT))
          .collect(Collectors.joining(", "));

  @Parameters(
      index = "0",
      paramLabel = "SHAPE",
      description =
          "sweep (exponential, synchronized), tone, steps (of tones), burst (6.5 cycles) or noise"
              + " (in a sheet it counts as music)")
  private String shape;

  @Parameters(index = "1", paramLabel = "FILE", description = "where to, such as sweep.wav")
  private Path file;

  @Option(
      names = "--from",
      paramLabel = "FREQUENCY",
      defaultValue = "15 Hz",
      description = "sweep, noise: lowest frequency (${DEFAULT-VALUE})")
  private String from;

  @Option(
      names = "--to",
      paramLabel = "FREQUENCY",
      defaultValue = "2 kHz",
      description = "sweep, noise: highest frequency (${DEFAULT-VALUE})")
  private String to;

  @Option(
      names = "--at",
      paramLabel = "FREQUENCY",
      split = ",",
      defaultValue = "50 Hz",
      description =
          "tone, burst: its frequency (${DEFAULT-VALUE}); steps: all of them, '20 Hz,25 Hz,31.5 Hz'")
  private List<String> at;

  @Option(
      names = "--lasting",
      paramLabel = "TIME",
      description = "the sound itself, each tone of several (sweep 5 s, steps 1 s, others 2 s)")
  private @Nullable String lasting;

  @Option(
      names = "--silence",
      paramLabel = "TIME",
      defaultValue = "250 ms",
      description = "before and after (${DEFAULT-VALUE})")
  private String silence;

  @Option(
      names = "--level",
      paramLabel = "LEVEL",
      split = ",",
      defaultValue = "-6 dB",
      description =
          "peak against full scale (${DEFAULT-VALUE}); a tone may have several one after another,"
              + " '-16 dB,-6 dB'")
  private List<String> level;

  @Option(
      names = "--volts",
      paramLabel = "VOLTAGE",
      description = "instead of --level: effective voltage of a sine as high; needs --full-scale")
  private @Nullable String volts;

  @Option(
      names = "--full-scale",
      paramLabel = "VOLTAGE",
      description = "effective voltage that a sine at full scale makes at the drive unit, measured")
  private @Nullable String fullScale;

  @Option(names = "--white", description = "noise: white instead of pink")
  private boolean white;

  @Option(
      names = "--rate",
      paramLabel = "RATE",
      defaultValue = "48000",
      description = "samples a second (${DEFAULT-VALUE})")
  private int rate;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public void run() {
    WrittenSignal wish =
        new WrittenSignal(
            shape(), from, to, at, Optional.ofNullable(lasting), silence, levels(), white);
    var signal = wish.signal(rate);
    SignalFile.write(file, signal.samples(rate), rate);
    spec.commandLine().getOut().println(file + " written: " + wish.words(signal));
    wish.inSheet(signal, String.valueOf(file.getFileName()))
        .ifPresent(
            line ->
                spec.commandLine()
                    .getOut()
                    .println("In the sheet, under the take recorded with it: " + line));
    spec.commandLine()
        .getErr()
        .println("Play it quietly first; keep your ears away and let the coil cool between takes.");
  }

  private WrittenSignal.Shape shape() {
    for (WrittenSignal.Shape s : WrittenSignal.Shape.values()) {
      if (s.name().equalsIgnoreCase(shape)) {
        return s;
      }
    }
    throw new ProblemException(
        Problem.of("signal", "'" + shape + "' is no test signal", "write one of " + SHAPES));
  }

  private List<String> levels() {
    if (volts == null) {
      return level;
    }
    if (fullScale == null) {
      throw new ProblemException(
          Problem.of(
              "volts",
              "what the chain gives at full scale is not told",
              "play a tone, measure the voltage at the drive unit, work out what it is at full"
                  + " scale, and write it after --full-scale"));
    }
    return List.of(WrittenSignal.level(volts, fullScale));
  }
}
