package cutaway.bench.noise;

import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.signal.CrossSpectrum;
import cutaway.acoustics.stimulus.MusicClip;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.SoundTake.Channel;
import cutaway.bench.sheet.Words;
import cutaway.bench.take.SoundFile;
import java.nio.file.Path;
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

  /** A path of music is learned from so much, s. */
  private static final double SHORTEST_MUSIC = 5;

  /** What an exam keeps of each sample of each channel, bytes; measured. */
  static final double BYTES_EACH = 90;

  /** Of music: for each sample of its length, padded, and of each channel of that; measured. */
  private static final double BYTES_MUSIC = 160;

  private static final double BYTES_MUSIC_EACH = 20;

  private static final double FULL_SCALE = 0.9995;

  /** Samples in a row at full scale that are no single peak. */
  private static final int CLIPPED = 3;

  /** Full scale 1; softer than this a channel is dead. */
  private static final double DEAD = 2e-6;

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
    SoundFile file = open(sound, about);
    double[][] samples = file.samples();
    double seconds = samples[0].length / file.rate();
    file.notices().forEach(results::notice);
    if (sound.atRest() && seconds < SHORTEST) {
      throw wrong(
          about,
          String.format(Locale.ROOT, "lasts %.1f s: hum is told from two seconds or more", seconds),
          "record five seconds with nothing playing");
    }
    Map<Sensor, double[]> channels = new EnumMap<>(Sensor.class);
    boolean clipped = calibrate(sound, about, samples, channels);
    if (sound.music().isPresent() && channels.keySet().stream().noneMatch(Sensor::isNear)) {
      throw wrong(
          about,
          "music is only taken out of microphones near the unit: further off the room rings on",
          "hold one near cone, port or wall");
    }
    List<TestSignal> meant = sound.music().map(m -> music(m, about)).orElse(sound.played());
    Optional<PlayedSignal> played = PlayedSignal.of(meant, channels, file.rate());
    NoiseTake take =
        new NoiseTake(
            played.map(PlayedSignal::signal),
            sound.done(),
            file.rate(),
            channels,
            played.flatMap(PlayedSignal::alignment));
    SoundChecks checks = new SoundChecks(about, results);
    boolean usable = !clipped && played.map(p -> checks.bears(take, p)).orElse(true);
    return new Read(
        take,
        usable,
        String.format(
            Locale.ROOT,
            "%s at %s kHz, %.1f s, %s",
            file.format(),
            Shown.digits(file.rate() / 1000, 4),
            seconds,
            channels(file)));
  }

  /** Opens a file that has the channels it should, and no more than memory holds. */
  private SoundFile open(SoundTake sound, String about) {
    SoundFile file = SoundFile.openAll(resolve.apply(sound.file()), sound.file(), about);
    double seconds = file.frames() / file.rate();
    if (file.channels() != sound.channels().size()) {
      throw wrong(
          about,
          String.format(
              Locale.ROOT,
              "%s has %s, 'sensors' names %d",
              sound.file(),
              channels(file),
              sound.channels().size()),
          "name one sensor for each channel, 'none' where one hears nothing");
    }
    if (seconds > LONGEST) {
      throw wrong(
          about,
          String.format(
              Locale.ROOT,
              "%s lasts %.0f s: a take of a noise lasts %.0f s at most",
              sound.file(),
              seconds,
              LONGEST),
          "cut it to the test signal and a second before and after");
    }
    double padded = CrossSpectrum.roomyLength((int) file.frames());
    enough(
        about,
        String.format(
            Locale.ROOT, "%s lasts %.0f s with %s", sound.file(), seconds, channels(file)),
        sound.music().isPresent()
            ? padded * (BYTES_MUSIC + BYTES_MUSIC_EACH * file.channels())
            : BYTES_EACH * file.frames() * file.channels());
    return file;
  }

  private static String channels(SoundFile file) {
    return file.channels() == 1 ? "1 channel" : file.channels() + " channels";
  }

  private static void enough(String about, String what, double needed) {
    if (needed > Runtime.getRuntime().maxMemory()) {
      throw wrong(
          about,
          String.format(
              Locale.ROOT,
              "%s: that needs some %.0f MB, more than Java was given",
              what,
              needed / 1e6),
          "cut it to the test signal and a second before and after, or set JAVA_TOOL_OPTIONS=-Xmx"
              + Math.round(1.2 * needed / 1e6)
              + "m");
    }
  }

  /** Brings channels to Pa, V, A or m/s²; whether one of them is clipped. */
  private boolean calibrate(
      SoundTake sound, String about, double[][] samples, Map<Sensor, double[]> channels) {
    boolean clipped = false;
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
    return clipped;
  }

  /** Of several channels the mean, as one loudspeaker plays it. */
  private List<TestSignal> music(String name, String about) {
    SoundFile file = SoundFile.openAll(resolve.apply(name), name, about);
    double seconds = file.frames() / file.rate();
    if (seconds < SHORTEST_MUSIC || seconds > LONGEST) {
      throw wrong(
          about,
          String.format(
              Locale.ROOT,
              "the music in %s lasts %.1f s: nothing is told from less than %.0f s or more than"
                  + " %.0f s",
              name,
              seconds,
              SHORTEST_MUSIC,
              LONGEST),
          "take some ten seconds in which the noise is heard, and play those");
    }
    enough(
        about,
        String.format(
            Locale.ROOT, "the music in %s lasts %.0f s with %s", name, seconds, channels(file)),
        2.0 * Double.BYTES * file.frames() * (file.channels() + 1));
    double[][] channels = file.samples();
    double[] out = new double[channels[0].length];
    double most = 0;
    for (int i = 0; i < out.length; i++) {
      for (double[] c : channels) {
        out[i] += c[i] / channels.length;
      }
      most = Math.max(most, Math.abs(out[i]));
    }
    if (most < DEAD) {
      throw wrong(about, "the music in " + name + " is silent", "name the file that was played");
    }
    return List.of(new MusicClip(out, file.rate()));
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
                  + (clipped == 1 ? "once" : clipped + " times")
                  + ": of this take only that counts",
              "turn its gain down and record again"));
    }
    return clipped > 0;
  }

  private static ProblemException wrong(String about, String what, String remedy) {
    return new ProblemException(Problem.of(about, what, remedy));
  }
}
