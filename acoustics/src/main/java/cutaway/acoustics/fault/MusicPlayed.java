package cutaway.acoustics.fault;

import cutaway.acoustics.signal.Correlation;
import cutaway.acoustics.signal.Interpolation;
import cutaway.acoustics.stimulus.TestSignal;
import java.util.Optional;

/**
 * Music as the recording's clock has it: shifted to where it lies, and as much longer or shorter as
 * the two clocks differ.
 *
 * @param samples one for each of the recording
 * @param begins when it starts to sound, s
 * @param ends when the last of it has sounded, s
 * @param drift share by which the recording's clock runs faster than the player's
 */
@SuppressWarnings("ArrayRecordComponent") // never compared
record MusicPlayed(double[] samples, double begins, double ends, double drift) {
  /** Softer than this against its peak music has not begun or is over. */
  private static final double SOUNDS = 1e-3;

  /** Clocks that differ by more are no clocks. */
  private static final double GREATEST_DRIFT = 1e-3;

  private static final int ROUNDS = 3;

  /** Clocks that differ by less are as good as one. */
  private static final double NO_DRIFT = 1e-7;

  /** Each half must be as long for a drift to be told, s. */
  private static final double SHORTEST_HALF = 2 * LinearPath.MUSIC.stretch();

  /**
   * Looks for it.
   *
   * @return absent where the take does not hold it
   */
  static Optional<MusicPlayed> of(NoiseTake take, TestSignal signal) {
    return ReferenceChannel.of(take, signal)
        .map(
            r ->
                inStep(
                    signal.samples(take.rate()),
                    take,
                    take.channel(r.sensor()),
                    r.alignment().delay()));
  }

  private static MusicPlayed inStep(double[] clip, NoiseTake take, double[] heard, double found) {
    double delay = found + placed(clip, take, found, 0).comesLate(heard, take.rate());
    double drift = 0;
    double more = GREATEST_DRIFT;
    MusicPlayed out = placed(clip, take, delay, drift);
    for (int i = 0; i < ROUNDS && Math.abs(more) > NO_DRIFT; i++) {
      more = out.runsOn(heard, take.rate());
      drift = Math.abs(drift + more) < GREATEST_DRIFT ? drift + more : 0;
      out = placed(clip, take, delay, drift);
    }
    return out;
  }

  /** A recording's sample i is the clip's at (i − delay)/(1 + drift). */
  private static MusicPlayed placed(double[] clip, NoiseTake take, double delay, double drift) {
    double start = -delay * take.rate() / (1 + drift);
    double[] x = Interpolation.at(clip, start, 1 / (1 + drift), take.length());
    double most = 0;
    for (double v : x) {
      most = Math.max(most, Math.abs(v));
    }
    int first = 0;
    while (first < x.length && Math.abs(x[first]) < SOUNDS * most) {
      first++;
    }
    int last = x.length - 1;
    while (last > first && Math.abs(x[last]) < SOUNDS * most) {
      last--;
    }
    return new MusicPlayed(x, first / take.rate(), last / take.rate(), drift);
  }

  /** Where the music arrives against where it was looked for, s. */
  private double comesLate(double[] heard, double rate) {
    LinearPath path = new LinearPath(samples, heard, rate, LinearPath.MUSIC, t -> 1);
    int most = (int) (LinearPath.MUSIC.ahead() * rate);
    return lag(rises(samples), rises(path.through(samples)), most) / rate;
  }

  /** How much later the same sound arrives along the path of the second half, a second. */
  private double runsOn(double[] heard, double rate) {
    double half = (ends - begins) / 2;
    double middle = begins + half;
    if (half < SHORTEST_HALF) {
      return 0;
    }
    LinearPath early =
        new LinearPath(samples, heard, rate, LinearPath.MUSIC, t -> t < middle ? 1 : 0);
    LinearPath late =
        new LinearPath(samples, heard, rate, LinearPath.MUSIC, t -> t >= middle ? 1 : 0);
    int most = (int) Math.ceil(GREATEST_DRIFT * half * rate);
    return lag(rises(early.through(samples)), rises(late.through(samples)), most) / rate / half;
  }

  /** Samples by which a sound comes after another that it is like, no more than so many. */
  private static double lag(double[] first, double[] second, int most) {
    Correlation both = Correlation.of(first, second);
    int best = 0;
    for (int lag = -most; lag <= most; lag++) {
      best = at(both, lag) > at(both, best) ? lag : best;
    }
    double bend = at(both, best - 1) - 2 * at(both, best) + at(both, best + 1);
    double finer = bend < 0 ? (at(both, best - 1) - at(both, best + 1)) / (2 * bend) : 0;
    return best + finer;
  }

  private static double at(Correlation correlation, int lag) {
    return correlation.value(Math.floorMod(lag, correlation.size()));
  }

  /** From sample to sample: the time of a sound is told by what is high in it. */
  private static double[] rises(double[] x) {
    double[] out = new double[x.length];
    for (int i = 1; i < x.length; i++) {
      out[i] = x[i] - x[i - 1];
    }
    return out;
  }
}
