package cutaway.bench.noise;

import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.bench.finding.Suspicion;
import cutaway.bench.noise.NoiseClips.Clip;
import cutaway.bench.noise.NoiseClips.Part;
import cutaway.bench.sheet.SoundTake;
import cutaway.bench.sheet.Words;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Rests to play to others: the loudest stretch at the cone, and after an intervention one at the
 * same gain.
 */
final class RestClips {
  /** Where a rest is listened to. */
  private static final Sensor AT = Sensor.CONE;

  private Optional<Before> before = Optional.empty();

  /** The first with nothing done, and the gain it is played at. */
  private record Before(String take, double gain) {}

  /** The next of a sheet; absent where no microphone is at the cone. */
  Optional<Clip> add(SoundTake sound, NoiseTake take) {
    if (!take.channels().containsKey(AT)) {
      return Optional.empty();
    }
    double[] x = loudest(take.channel(AT), (int) (NoiseClips.SECONDS * take.rate()));
    double most = NoiseClips.PEAK / NoiseClips.most(x);
    boolean untouched = sound.done() == Intervention.NONE;
    Optional<Before> with = untouched ? Optional.empty() : before;
    // at a gain that would cut it off it is played softer, and said so
    double gain = Math.min(most, with.map(Before::gain).orElse(most));
    if (untouched && before.isEmpty()) {
      before = Optional.of(new Before(sound.id(), gain));
    }
    return Optional.of(
        new Clip(
            NoiseClips.name(sound.id(), Part.RECORDING),
            NoiseClips.faded(x, gain, take.rate()),
            (int) take.rate(),
            caption(sound.done()) + with.map(b -> against(b, gain)).orElse(", brought up")));
  }

  /** What there will be of a rest, before it is cut. */
  static Suspicion.Sound offered(SoundTake sound) {
    return new Suspicion.Sound(
        NoiseClips.name(sound.id(), Part.RECORDING), sound.id() + ": " + caption(sound.done()));
  }

  private static String caption(Intervention done) {
    return "the recording with nothing played, at the "
        + Words.of(AT)
        + (done == Intervention.NONE ? "" : ", " + Words.of(done));
  }

  private static String against(Before before, double gain) {
    double softer = 20 * Math.log10(before.gain / gain);
    return (softer > 0.05
            ? String.format(Locale.ROOT, ", %.1f dB under the gain of ", softer)
            : ", at the gain of ")
        + before.take;
  }

  /** The stretch with most in it; all of what is shorter. */
  private static double[] loudest(double[] x, int length) {
    if (x.length <= length) {
      return x;
    }
    int best = 0;
    double most = -1;
    for (int from = 0; from + length <= x.length; from += length / 5) {
      double sum = 0;
      for (int i = from; i < from + length; i++) {
        sum += x[i] * x[i];
      }
      if (sum > most) {
        most = sum;
        best = from;
      }
    }
    return Arrays.copyOfRange(x, best, best + length);
  }
}
