package cutaway.bench.exam;

import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.SoundTake.Channel;
import cutaway.bench.sheet.Words;
import cutaway.bench.take.SoundFile;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/** Reads sounds, and sees whether they can bear a conclusion. */
final class SoundFiles {
  /** Longer recordings are no takes of a test signal, s. */
  private static final double LONGEST = 120;

  /** A rest must last so long, s. */
  private static final double SHORTEST = 2;

  private static final double FULL_SCALE = 0.9995;

  /** Samples in a row at full scale that are no single peak. */
  private static final int CLIPPED = 3;

  /** Full scale 1; softer than this a channel is dead. */
  private static final double DEAD = 2e-6;

  /** A voltage follows the signal better than any microphone by so much, or is none. */
  private static final double LESS_LIKE = 0.1;

  private final Function<String, Path> resolve;
  private final Results results;

  /**
   * A sound as it can be used.
   *
   * @param take calibrated
   * @param usable whether more than its flaws may be believed
   * @param understood how the file was read
   */
  record Read(NoiseTake take, boolean usable, String understood) {}

  SoundFiles(Function<String, Path> resolve, Results results) {
    this.resolve = resolve;
    this.results = results;
  }

  /**
   * Reads one.
   *
   * @throws ProblemException where it cannot be used at all
   */
  Read read(SoundTake sound) {
    String about = "takes." + sound.id();
    SoundFile file = SoundFile.openAll(resolve.apply(sound.file()), sound.file(), about);
    file.notices().forEach(results::notice);
    double seconds = file.frames() / file.rate();
    if (file.channels() != sound.channels().size()) {
      throw wrong(
          about,
          String.format(
              Locale.ROOT,
              "%s has %d channels, 'sensors' names %d",
              sound.file(),
              file.channels(),
              sound.channels().size()),
          "name one sensor for each channel, 'none' where one hears nothing");
    }
    if (seconds > LONGEST) {
      throw wrong(
          about,
          String.format(Locale.ROOT, "lasts %.0f s, too long for a take of a noise", seconds),
          "cut it to the test signal and a second before and after");
    }
    if (sound.played().isEmpty() && seconds < SHORTEST) {
      throw wrong(
          about,
          String.format(Locale.ROOT, "lasts %.1f s: hum is told from two seconds or more", seconds),
          "record five seconds with nothing playing");
    }
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    boolean clipped = false;
    double[][] samples = file.samples();
    for (int c = 0; c < sound.channels().size(); c++) {
      Channel channel = sound.channels().get(c);
      if (channel.sensor().isPresent()) {
        double[] x = samples[c];
        clipped |= checked(about, channel.sensor().get(), x);
        for (int i = 0; i < x.length; i++) {
          x[i] *= channel.fullScale();
        }
        channels.put(channel.sensor().get(), x);
      }
    }
    Optional<TestSignal> played = played(sound, channels, file.rate());
    swapped(about, played, channels, file.rate());
    played.ifPresent(p -> cutShort(about, p, seconds));
    return new Read(
        new NoiseTake(played, sound.done(), file.rate(), channels),
        !clipped,
        String.format(
            Locale.ROOT,
            "%s at %s kHz, %.1f s, %d channels",
            file.format(),
            Shown.digits(file.rate() / 1000, 4),
            seconds,
            file.channels()));
  }

  /**
   * Whether a channel is clipped. With a dead microphone a take cannot be used at all; a voltage or
   * current may well be nought at rest.
   */
  private boolean checked(String about, Sensor sensor, double[] x) {
    String name = Words.of(sensor);
    double most = 0;
    int run = 0;
    int clipped = 0;
    for (double v : x) {
      most = Math.max(most, Math.abs(v));
      run = Math.abs(v) >= FULL_SCALE ? run + 1 : 0;
      clipped += run == CLIPPED ? 1 : 0;
    }
    if (most < DEAD && sensor.isMicrophone()) {
      throw wrong(
          about, "the channel '" + name + "' is silent", "check its cable and gain, record again");
    }
    if (clipped > 0) {
      results.notice(
          Notice.fault(
              about,
              "the channel '"
                  + name
                  + "' is clipped, "
                  + clipped
                  + " times: of this take only that counts",
              "turn its gain down and record again"));
    }
    return clipped > 0;
  }

  /** What was played after the recording ended tells nothing, and is no fault of the rest. */
  private void cutShort(String about, TestSignal played, double seconds) {
    double last = played.tones().stream().mapToDouble(Tone::end).max().orElse(0);
    if (seconds < last) {
      results.notice(
          Notice.caution(
              about,
              String.format(
                  Locale.ROOT,
                  "ends %.1f s before the signal does; the rest of that tells nothing",
                  last - seconds),
              "record until a second after the signal"));
    }
  }

  /** Of several laws the one that the recording follows best. */
  private static Optional<TestSignal> played(
      SoundTake sound, Map<Sensor, double[]> channels, double rate) {
    if (sound.played().size() < 2) {
      return sound.played().stream().findFirst();
    }
    double[] first = channels.values().iterator().next();
    return sound.played().stream().max(Comparator.comparingDouble(p -> likeness(p, first, rate)));
  }

  private static double likeness(TestSignal signal, double[] x, double rate) {
    return Alignment.of(signal, x, rate, false).map(Alignment::likeness).orElse(0.0);
  }

  /** What is called a voltage must follow the signal; else it is left out. */
  private void swapped(
      String about, Optional<TestSignal> played, Map<Sensor, double[]> channels, double rate) {
    double[] voltage = channels.get(Sensor.VOLTAGE);
    if (played.isEmpty() || voltage == null) {
      return;
    }
    double own = likeness(played.get(), voltage, rate);
    if (own > 1 - LESS_LIKE) {
      // nothing can be that much more like it
      return;
    }
    for (Map.Entry<Sensor, double[]> c : List.copyOf(channels.entrySet())) {
      if (c.getKey().isMicrophone()
          && likeness(played.get(), c.getValue(), rate) > own + LESS_LIKE) {
        results.notice(
            Notice.fault(
                about,
                "the channel '"
                    + Words.of(c.getKey())
                    + "' follows the signal better than the voltage does: are two channels swapped?"
                    + " The voltage is left out",
                "check which plug sits where, and the order of 'sensors'"));
        channels.remove(Sensor.VOLTAGE);
        return;
      }
    }
  }

  private static ProblemException wrong(String about, String what, String remedy) {
    return new ProblemException(Problem.of(about, what, remedy));
  }
}
