package cutaway.acoustics.fault;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.stimulus.Harmonics;
import cutaway.acoustics.stimulus.Tone;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;

/**
 * From which level on a noise sounds: the threshold of what sets it off that best parts the moments
 * with something left over from those without. Method: docs/methods/noise.md.
 *
 * @param by what sets it off
 * @param level at which it begins, at the frequency at which it begins first, against what was
 *     played there, dB
 * @param frequency that is, Hz
 * @param played voltage there, V rms, absent where it was not recorded
 */
public record Onset(Driver by, Estimate level, double frequency, Optional<Double> played) {
  /** More left over than this is no scatter, dB. */
  private static final double SOUNDS = 6;

  /** So many moments must have it, and as many not. */
  private static final int FEWEST = 3;

  /** What sets it off must change by more, dB. */
  private static final double LEAST_RANGE = 1;

  /** A peak is lower by more, dB, where it is cut off. */
  private static final double CUT = 0.3;

  /** A threshold that parts worse, of the fewer of both, does not explain it. */
  private static final double WRONG = 0.2;

  /** What sets it off. */
  public enum Driver {
    /** How far the cone moves: its sound near by over the square of frequency. */
    DISPLACEMENT(Optional.of(Sensor.CONE), 2, 0, 1),
    /** How hard it is shaken: its sound near by. */
    ACCELERATION(Optional.of(Sensor.CONE), 0, 0, 1),
    /** How fast air flows in the port: its sound over frequency. */
    PORT_FLOW(Optional.of(Sensor.PORT), 1, 0.7, 2.5),
    /** The level played, at any one frequency. */
    PLAYED(Optional.empty(), 0, 0, 1),
    /** The amplifier's own voltage: it is cut off or bent over. */
    VOLTAGE(Optional.of(Sensor.VOLTAGE), 0, 0, 1);

    /** Whose sound tells it, absent where the signal itself does. */
    private final Optional<Sensor> sensor;

    private final int power;

    /** How much above its threshold it is heard, dB: out of silence; docs/methods/accuracy.md. */
    private final double late;

    /**
     * Standard uncertainty, dB: a blow is seen at once, a breath rises out of silence; judgement.
     */
    private final double own;

    Driver(Optional<Sensor> sensor, int power, double late, double own) {
      this.sensor = sensor;
      this.power = power;
      this.late = late;
      this.own = own;
    }
  }

  /** A moment: how strong what sets it off is, dB, and whether something sounds. */
  private record Moment(double drive, Cell cell) {
    boolean sounds() {
      return cell.margin() >= SOUNDS;
    }
  }

  /**
   * Of a take.
   *
   * @return absent where it sounds throughout or hardly ever, where that does not go by what is
   *     asked for, or where no microphone tells that
   */
  static Optional<Onset> of(Residue residue, List<Cell> cells, Driver by) {
    if (by == Driver.VOLTAGE) {
      return cutOff(residue);
    }
    if (!by.sensor.map(residue.microphones()::contains).orElse(true)) {
      return Optional.empty();
    }
    List<Moment> moments = new ArrayList<>();
    for (Cell c : cells) {
      moments.add(new Moment(drive(residue, c, by), c));
    }
    if (moments.isEmpty()) {
      return Optional.empty();
    }
    moments.sort(Comparator.comparingDouble(Moment::drive));
    long sounding = moments.stream().filter(Moment::sounds).count();
    double range = moments.get(moments.size() - 1).drive - moments.get(0).drive;
    if (range < LEAST_RANGE || sounding < FEWEST || moments.size() - sounding < FEWEST) {
      return Optional.empty();
    }
    return parted(residue, moments, (int) sounding, by);
  }

  /** Where the peak of the loudest tone stays under what the softest of its frequency foretells. */
  private static Optional<Onset> cutOff(Residue residue) {
    List<Tone> steady = residue.tones().stream().filter(Tone::isSteady).toList();
    Optional<Tone> loud = steady.stream().max(Comparator.comparingDouble(Tone::amplitude));
    Optional<Tone> soft =
        steady.stream()
            .filter(t -> t.frequency() == loud.orElseThrow().frequency())
            .min(Comparator.comparingDouble(Tone::amplitude));
    return loud.flatMap(l -> soft.flatMap(s -> cutOff(residue, l, s)));
  }

  private static Optional<Onset> cutOff(Residue residue, Tone loud, Tone soft) {
    double straight = residue.peak(Sensor.VOLTAGE, soft).orElse(0.0);
    double reached = residue.peak(Sensor.VOLTAGE, loud).orElse(0.0);
    double foretold = straight * loud.amplitude() / soft.amplitude();
    double level = 20 * Math.log10(reached / foretold);
    // where the loudest is gone altogether it is muted, not cut off
    return straight > 0 && reached > straight && level < -CUT
        ? Optional.of(
            new Onset(
                Driver.VOLTAGE,
                new Estimate(level, Driver.VOLTAGE.own),
                loud.frequency(),
                Optional.of(foretold / Math.sqrt(2))))
        : Optional.empty();
  }

  /** The most there is of it about a moment: whatever sounds in its window may come from there. */
  private static double drive(Residue residue, Cell c, Driver by) {
    if (by.sensor.isEmpty()) {
      return 20 * Math.log10(c.played());
    }
    Harmonics heard = residue.harmonics(by.sensor.get(), c.tone());
    return DoubleStream.of(c.time() - c.half(), c.time(), c.time() + c.half())
        .map(t -> drive(heard, residue.tones().get(c.tone()), t, by))
        .max()
        .orElseThrow();
  }

  private static double drive(Harmonics heard, Tone tone, double time, Driver by) {
    return 20 * Math.log10(heard.amplitude(heard.near(time), 1) + 1e-12)
        - 20 * by.power * Math.log10(tone.frequency(time));
  }

  /** Every threshold is tried: those that part nearly as well as the best are its range. */
  private static Optional<Onset> parted(
      Residue residue, List<Moment> moments, int sounding, Driver by) {
    int n = moments.size();
    int[] wrong = new int[n + 1];
    wrong[0] = n - sounding;
    int least = wrong[0];
    for (int i = 0; i < n; i++) {
      // with the threshold beyond moment i, that one is held to be silent
      wrong[i + 1] = wrong[i] + (moments.get(i).sounds() ? 1 : -1);
      least = Math.min(least, wrong[i + 1]);
    }
    if (least > WRONG * Math.min(sounding, n - sounding)) {
      return Optional.empty();
    }
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (int i = 1; i < n; i++) {
      if (wrong[i] <= least + 1) {
        low = Math.min(low, moments.get(i - 1).drive);
        high = Math.max(high, moments.get(i).drive);
      }
    }
    Moment most = moments.get(n - 1);
    // anywhere in the range is as likely
    double sd = Math.hypot(by.own, (high - low) / Math.sqrt(12));
    return Optional.of(
        new Onset(
            by,
            new Estimate((low + high) / 2 - most.drive - by.late, sd),
            most.cell.frequency(),
            residue.voltage(most.cell)));
  }
}
