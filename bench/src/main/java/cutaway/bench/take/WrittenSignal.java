package cutaway.bench.take;

import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.SteppedTones;
import cutaway.acoustics.stimulus.TestNoise;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.ToneBurst;
import cutaway.bench.finding.Shown;
import cutaway.bench.measure.Kind;
import cutaway.bench.measure.Reading;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A test signal as a tester asks for it, each quantity as written.
 *
 * @param shape what kind of sound
 * @param from lowest frequency of a sweep or noise
 * @param to highest
 * @param at frequency of a tone or burst, all of them of steps
 * @param lasting how long, each tone of several; as usual where not told
 * @param silence before and after
 * @param levels peaks against full scale; several for a tone
 * @param white noise, rather than pink
 */
public record WrittenSignal(
    Shape shape,
    String from,
    String to,
    List<String> at,
    Optional<String> lasting,
    String silence,
    List<String> levels,
    boolean white) {
  /** What can be asked for. */
  public enum Shape {
    SWEEP(5),
    TONE(2),
    STEPS(1),
    BURST(1),
    NOISE(2);

    private final double seconds;

    Shape(double seconds) {
      this.seconds = seconds;
    }

    private boolean isWide() {
      return this == SWEEP || this == NOISE;
    }
  }

  /** Cycles of a burst. */
  private static final double BURST = 6.5;

  /** Silence between the levels of a tone, s. */
  private static final double GAP = 0.2;

  /** Highest frequency that is written, as a share of the sample rate. */
  private static final double HIGHEST = 0.45;

  public WrittenSignal {
    at = List.copyOf(at);
    levels = List.copyOf(levels);
  }

  /**
   * As a signal.
   *
   * @param rate samples per second it must fit
   * @throws ProblemException where something is not to be read or cannot be
   */
  public TestSignal signal(int rate) {
    if (rate < 8000 || rate > 384000) {
      throw wrong("rate", rate + " samples a second cannot be", "write 44100 to 192000");
    }
    List<Double> peaks = peaks();
    double lead = Math.max(0, read("silence", silence, Kind.TIME));
    double seconds = lasting.map(l -> read("lasting", l, Kind.TIME)).orElse(shape.seconds);
    List<Double> tones = at.stream().map(f -> read("at", f, Kind.FREQUENCY)).toList();
    double low = read("from", from, Kind.FREQUENCY);
    double high = read("to", to, Kind.FREQUENCY);
    double highest = shape.isWide() ? high : tones.stream().mapToDouble(f -> f).max().orElse(0);
    if (highest > HIGHEST * rate) {
      throw wrong(
          shape.isWide() ? "to" : "at",
          String.format(Locale.ROOT, "%.6g Hz is too high for %d samples a second", highest, rate),
          String.format(Locale.ROOT, "stay below %.0f Hz, or take more samples", HIGHEST * rate));
    }
    try {
      return switch (shape) {
        case SWEEP ->
            new ExponentialSweep(
                low,
                high,
                ExponentialSweep.of(low, high, seconds, lead).growth(),
                lead,
                peaks.get(0));
        case TONE -> new SteadyTone(tones.get(0), peaks, seconds, GAP, lead);
        case STEPS -> new SteppedTones(tones, seconds, lead, peaks.get(0));
        case BURST -> new ToneBurst(tones.get(0), BURST, lead, peaks.get(0));
        case NOISE -> new TestNoise(low, high, white ? 0 : -3, seconds, lead, peaks.get(0), 1);
      };
    } catch (IllegalArgumentException e) {
      throw wrong("signal", String.valueOf(e.getMessage()), "change frequencies or time");
    }
  }

  private List<Double> peaks() {
    if (levels.size() > 1 && shape != Shape.TONE) {
      throw wrong("level", "only a tone may have several levels", "write one");
    }
    List<Double> out =
        levels.stream().map(l -> Math.pow(10, read("level", l, Kind.LEVEL) / 20)).toList();
    if (out.stream().anyMatch(p -> p > 1)) {
      throw wrong("level", "is over full scale", "write 0 dB or less");
    }
    return out;
  }

  /** In words: what it is and how long. */
  public String words(TestSignal signal) {
    String what =
        switch (shape) {
          case SWEEP -> "sweep from " + from + " to " + to;
          case TONE -> "tone of " + at.get(0);
          case STEPS -> at.size() + " tones from " + at.get(0) + " to " + at.get(at.size() - 1);
          case BURST -> "burst of " + at.get(0);
          case NOISE -> (white ? "white" : "pink") + " noise from " + from + " to " + to;
        };
    return String.format(
        Locale.ROOT, "%s, %.2f s, peak %s", what, signal.duration(), String.join(", ", levels));
  }

  /** As it stands in the sheet of a dossier; absent where it is no signal of a take. */
  public Optional<String> inSheet(TestSignal signal, String file) {
    String how =
        switch (shape) {
          case SWEEP -> "sweep, from: " + from + ", to: " + to + ", level: " + levels.get(0);
          case TONE -> "tone, at: " + at.get(0) + ", level: [" + String.join(", ", levels) + "]";
          case STEPS -> "steps, at: [" + String.join(", ", at) + "], level: " + levels.get(0);
          case NOISE -> "music, file: takes/" + file;
          case BURST -> "";
        };
    double seconds = lasting.map(l -> read("lasting", l, Kind.TIME)).orElse(shape.seconds);
    String when =
        shape == Shape.NOISE
            ? ""
            : String.format(
                Locale.ROOT, ", lasting: %s s, silence: %s", Shown.digits(seconds, 4), silence);
    boolean usable = shape != Shape.BURST && (shape != Shape.NOISE || signal.duration() >= 5);
    return usable ? Optional.of("signal: { shape: " + how + when + " }") : Optional.empty();
  }

  /**
   * Level at which a chain gives a voltage.
   *
   * @param volts effective, of a sine as high as the signal's peak
   * @param fullScale effective voltage of a sine at full scale, measured
   * @throws ProblemException where the chain gives less
   */
  public static String level(String volts, String fullScale) {
    double ratio = read("volts", volts, Kind.VOLTAGE) / read("full-scale", fullScale, Kind.VOLTAGE);
    if (!(ratio > 0 && ratio <= 1)) {
      throw wrong(
          "volts",
          volts + " is not to be had where full scale gives " + fullScale,
          "write less, or turn the amplifier up and measure again");
    }
    return String.format(Locale.ROOT, "%.2f dB", 20 * Math.log10(ratio));
  }

  private static double read(String where, String text, Kind kind) {
    try {
      return Reading.parse(text, kind).estimate().value();
    } catch (Reading.UnreadableException e) {
      throw wrong(where, String.valueOf(e.getMessage()), "write such as " + kind.example());
    }
  }

  private static ProblemException wrong(String where, String what, String remedy) {
    return new ProblemException(Problem.of(where, what, remedy));
  }
}
