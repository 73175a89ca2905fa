package cutaway.bench.noise;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.meter.FrequencyWeighting;
import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Words;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What the played signal tells of a sound: swapped channels, a gap, an end that comes too soon. */
final class SoundChecks {
  /** A voltage follows the signal better than any microphone by so much, or is none. */
  private static final double LESS_LIKE = 0.1;

  /** A signal's end that is missing and of no account, s. */
  private static final double SHORT = 0.05;

  /** Every channel held still for so long is no sound, s. */
  private static final double STILL = 0.02;

  /**
   * A wall is hardly ever louder than the cone close by, by so much, dB, and never by twice that.
   */
  private static final double LOUDER = 6;

  /** Peak level of no loudspeaker even close by, dB SPL. */
  private static final double LOUDEST = 155;

  private final String about;
  private final Results results;

  /** Of a take. */
  SoundChecks(String about, Results results) {
    this.about = about;
    this.results = results;
  }

  /** Tells what is odd; whether more than its flaws may be believed. */
  boolean bears(NoiseTake take, PlayedSignal played) {
    cutShort(take, played);
    tooLoud(take);
    boolean swapped = isSwapped(take, played) || isLouderAtWall(take);
    return !hasGap(take, played) && !swapped;
  }

  /** What was played after the recording ended tells nothing, and is no fault of the rest. */
  private void cutShort(NoiseTake take, PlayedSignal played) {
    double missing = ends(played) - take.length() / take.rate();
    if (missing > SHORT) {
      results.notice(
          Notice.caution(
              about,
              String.format(
                  Locale.ROOT,
                  "ends %.1f s before the signal does; the rest of that tells nothing",
                  missing),
              "record until a second after the signal, or correct how long it lasts in 'signal'"));
    }
  }

  /** When the signal ends in the recording, at the earliest, s. */
  private static double ends(PlayedSignal played) {
    TestSignal signal = played.signal();
    List<Tone> tones = played.alignment().map(a -> a.recorded(signal)).orElse(signal.tones());
    double start = played.alignment().map(Alignment::delay).orElse(0.0);
    return tones.stream().mapToDouble(Tone::end).max().orElse(start + signal.duration());
  }

  /** Nobody's ears or microphones bear more: full scale is told wrongly. */
  private void tooLoud(NoiseTake take) {
    for (Sensor m : take.microphones()) {
      double peak = Arrays.stream(take.channel(m)).map(Math::abs).max().orElse(0);
      double level = 20 * Math.log10(peak / FrequencyWeighting.REFERENCE + 1e-12);
      if (level > LOUDEST) {
        results.notice(
            Notice.caution(
                about,
                String.format(
                    Locale.ROOT,
                    "the channel '%s' would reach %.0f dB SPL: full scale is hardly as told",
                    Words.of(m),
                    level),
                "correct 'full-scale'; it is the peak in Pa that a channel holds at most"));
      }
    }
  }

  /** What is called a voltage must follow the signal. */
  private boolean isSwapped(NoiseTake take, PlayedSignal played) {
    double own = played.likeness();
    if (!take.channels().containsKey(Sensor.VOLTAGE) || own > 1 - LESS_LIKE) {
      // nothing can be that much more like it
      return false;
    }
    Optional<Sensor> better =
        take.microphones().stream()
            .filter(m -> played.likeness(take.channel(m), take.rate()) > own + LESS_LIKE)
            .findFirst();
    better.ifPresent(
        m ->
            results.notice(
                Notice.fault(
                    about,
                    "the channel '"
                        + Words.of(m)
                        + "' follows the signal better than the voltage does: are two channels"
                        + " swapped? Nothing is told from it",
                    "check which plug sits where, and the order of 'sensors'")));
    return better.isPresent();
  }

  private boolean isLouderAtWall(NoiseTake take) {
    if (take.intervention() == Intervention.OUT_OF_BOX
        || !take.channels().containsKey(Sensor.CONE)
        || !take.channels().containsKey(Sensor.WALL)) {
      return false;
    }
    double more = level(take.channel(Sensor.WALL)) - level(take.channel(Sensor.CONE));
    if (more > LOUDER) {
      boolean never = more > 2 * LOUDER;
      String what =
          String.format(
              Locale.ROOT,
              "the wall's microphone hears the signal %.0f dB louder than the cone's: are the two"
                  + " swapped?%s",
              more,
              never ? " Nothing is told from it" : "");
      String remedy = "check which plug sits where, the order of 'sensors' and 'full-scale'";
      results.notice(
          never ? Notice.fault(about, what, remedy) : Notice.caution(about, what, remedy));
      return never;
    }
    return false;
  }

  private static double level(double[] x) {
    double sum = 0;
    for (double v : x) {
      sum += v * v;
    }
    return 10 * Math.log10(sum / x.length + 1e-30);
  }

  /**
   * Whether all channels stand still at once while something plays, though not before: samples were
   * lost. A unit that falls silent leaves the microphones their own noise.
   */
  private boolean hasGap(NoiseTake take, PlayedSignal played) {
    Collection<double[]> channels = take.channels().values();
    int still = (int) (STILL * take.rate());
    double begins = played.alignment().map(Alignment::delay).orElse(10 * STILL);
    int first = (int) Math.max(0, Math.min(take.length(), begins * take.rate()));
    int last = (int) Math.min(take.length(), ends(played) * take.rate());
    int longest = longest(channels, first, last);
    boolean quiet = first < 2 * still || longest(channels, 0, first) >= still;
    if (longest < still || quiet) {
      return false;
    }
    results.notice(
        Notice.fault(
            about,
            String.format(
                Locale.ROOT,
                "all channels stand still at once for %.0f ms: the recording has a gap, and only"
                    + " that counts",
                1e3 * longest / take.rate()),
            "record again, with a larger buffer or nothing else running"));
    return true;
  }

  /** Longest run of samples that are like the one before in every channel. */
  private static int longest(Collection<double[]> channels, int from, int to) {
    int longest = 0;
    int run = 0;
    for (int i = Math.max(1, from); i < to; i++) {
      run = still(channels, i) ? run + 1 : 0;
      longest = Math.max(longest, run);
    }
    return longest;
  }

  private static boolean still(Collection<double[]> channels, int at) {
    for (double[] x : channels) {
      if (x[at] != x[at - 1]) {
        return false;
      }
    }
    return true;
  }
}
