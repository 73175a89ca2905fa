package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.ejml.data.DMatrixRMaj;

/** One band of one recording: poles that come back order after order, and how sure they are. */
final class BandSearch {
  private static final double LEAST_LOSS = 0.003;
  private static final double MOST_LOSS = 0.15;

  /** Poles of neighbouring orders that agree this well, in frequency and loss, are one. */
  private static final double SAME_FREQUENCY = 0.006;

  private static final double SAME_LOSS = 0.3;

  /** A loss no smaller than this is compared. */
  private static final double SMALL_LOSS = 0.002;

  /** In so many orders a pole must show, and in such a share of those since its first. */
  private static final int LEAST_ORDERS = 4;

  private static final double LEAST_SHARE = 0.5;

  /** A ring this far below all that rings, or less certain than this, is left out. */
  private static final double FAINTEST = -30;

  private static final double LEAST_OVER_NOISE = 10;
  private static final double UNCERTAIN_FREQUENCY = 0.008;
  private static final double UNCERTAIN_LOSS = 0.45;

  /** A pole whose squared amplitude is less than this many variances in each decay is noise. */
  private static final double SIGNIFICANT = 4;

  /** The least relative uncertainty claimed, of frequency and of loss. */
  private static final double[] LEAST = {2e-4, 5e-3};

  /** Between the quartiles of a normal distribution, in standard deviations. */
  private static final double QUARTILES = 1.349;

  /** Over which a mode's share of what rings is taken, s. */
  private static final double SHARE_TIME = 0.15;

  /** A decay this much shorter than the band's is not looked at. */
  private static final double LONG_ENOUGH = 0.4;

  /** Less silence than this tells nothing of the background, s. */
  private static final double LEAST_SILENCE = 0.05;

  /** Kept from the first tap, s. */
  private static final double BEFORE_TAP = 0.01;

  private final double[] samples;
  private final double fullRate;
  private final double rate;
  private final Band band;
  private final List<double[]> decays = new ArrayList<>();
  private final List<Double> starts = new ArrayList<>();
  private final List<Tap> decaying = new ArrayList<>();
  private final double[] background;

  /** Mean square of the silence before the first tap. */
  private final double quiet;

  /**
   * Cuts the decays out.
   *
   * @param samples without rumble
   * @param rate Hz
   * @param good taps to use
   * @param silence up to this sample nothing was tapped
   */
  BandSearch(double[] samples, double rate, List<Tap> good, int silence, Band band) {
    this.samples = samples;
    this.fullRate = rate;
    this.rate = rate / band.step(rate);
    this.band = band;
    double start = band.start(rate);
    for (Tap tap : good) {
      double afterForce = tap.onset() + start * rate;
      double afterClipping = tap.clipped() + (start - band.delay()) * rate + 4;
      int from = (int) Math.rint(Math.max(afterForce, afterClipping));
      double end = Math.min(tap.end(), from + band.length() * rate);
      if (end - from > LONG_ENOUGH * band.length() * rate) {
        decays.add(band.decay(samples, rate, from, (int) end));
        starts.add((from - tap.onset()) / rate);
        decaying.add(tap);
      }
    }
    int quietEnd = (int) Math.max(0, silence - BEFORE_TAP * rate);
    this.quiet = meanSquare(quietEnd / 4, quietEnd);
    this.background =
        quietEnd > LEAST_SILENCE * rate ? band.decay(samples, rate, 0, quietEnd) : new double[0];
  }

  private double meanSquare(int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += samples[i] * samples[i];
    }
    return to > from ? sum / (to - from) : 0;
  }

  /** The modes of this band. */
  List<Ring> rings() {
    if (decays.isEmpty()) {
      return List.of();
    }
    List<Stable> stable = stable(Poles.of(decays));
    double[] poles = stable.stream().flatMapToDouble(s -> Arrays.stream(s.pole())).toArray();
    if (poles.length == 0) {
      return List.of();
    }
    RingDown all = RingDown.of(decays, rate, poles);
    double[] left = all.poles(k -> counts(all, k));
    if (left.length == 0) {
      return List.of();
    }
    List<Stable> kept =
        IntStream.range(0, all.size()).filter(k -> counts(all, k)).mapToObj(stable::get).toList();
    RingDown fit = left.length == poles.length ? all : RingDown.of(decays, rate, left);
    DMatrixRMaj covariance = fit.covariance();
    List<double[]> leftOut = fit.leftOut();
    List<Ring> out = new ArrayList<>();
    for (int pole = 0; pole < fit.size(); pole++) {
      double f = frequency(fit, pole);
      double loss = loss(fit, pole);
      if (f >= band.low() && f <= band.high() && loss > LEAST_LOSS && loss < MOST_LOSS) {
        double[] u = uncertainties(fit, pole, covariance, leftOut, kept.get(pole));
        Ring ring =
            new Ring(
                f, u[0], loss, u[1], level(fit, pole), overNoise(fit, pole), amplitudes(fit, pole));
        if (believed(ring)) {
          out.add(ring);
        }
      }
    }
    return out;
  }

  private static boolean believed(Ring ring) {
    return ring.frequencyUncertainty() < UNCERTAIN_FREQUENCY * ring.frequency()
        && ring.lossUncertainty() < UNCERTAIN_LOSS * ring.loss()
        && ring.level() > FAINTEST
        && ring.overNoise() > LEAST_OVER_NOISE;
  }

  private static double frequency(RingDown fit, int pole) {
    return Math.hypot(fit.decay(pole), fit.omega(pole)) / (2 * Math.PI);
  }

  private static double loss(RingDown fit, int pole) {
    return 2 * fit.decay(pole) / Math.hypot(fit.decay(pole), fit.omega(pole));
  }

  /** Whether a pole is more than noise. */
  private boolean counts(RingDown fit, int pole) {
    return fit.decay(pole) > 0
        && fit.significance(pole, noise(fit, pole)) > SIGNIFICANT * decays.size();
  }

  /**
   * A pole that comes back order after order.
   *
   * @param pole decay and angular frequency
   * @param spread standard deviation of both over the orders
   */
  @SuppressWarnings("ArrayRecordComponent")
  private record Stable(double[] pole, double[] spread) {}

  private List<Stable> stable(List<List<double[]>> orders) {
    List<List<double[]>> tracks = new ArrayList<>();
    List<Integer> births = new ArrayList<>();
    for (int order = 0; order < orders.size(); order++) {
      for (double[] z : orders.get(order)) {
        double[] pole = {
          -Math.log(Math.hypot(z[0], z[1])) * rate, Math.atan2(z[1], z[0]) * rate,
        };
        int nearest = nearest(tracks, pole);
        if (nearest >= 0) {
          tracks.get(nearest).add(pole);
        } else {
          tracks.add(new ArrayList<>(List.of(pole)));
          births.add(order);
        }
      }
    }
    List<Stable> out = new ArrayList<>();
    for (int t = 0; t < tracks.size(); t++) {
      List<double[]> track = tracks.get(t);
      int possible = orders.size() - births.get(t);
      Stable pole = middle(track);
      if (track.size() >= LEAST_ORDERS
          && track.size() >= LEAST_SHARE * possible
          && pole.pole()[0] > 0) {
        out.add(pole);
      }
    }
    return out;
  }

  /** The track whose last pole is most like one, −1 where none is. */
  private static int nearest(List<List<double[]>> tracks, double[] pole) {
    int best = -1;
    double least = 1;
    for (int t = 0; t < tracks.size(); t++) {
      double away = away(tracks.get(t).get(tracks.get(t).size() - 1), pole);
      if (away < least) {
        least = away;
        best = t;
      }
    }
    return best;
  }

  private static double away(double[] a, double[] b) {
    double fa = Math.hypot(a[0], a[1]);
    double fb = Math.hypot(b[0], b[1]);
    double la = a[0] / fa;
    double lb = b[0] / fb;
    double f = Math.abs(fa - fb) / fb / SAME_FREQUENCY;
    double l = Math.abs(la - lb) / Math.max(Math.abs(lb), SMALL_LOSS) / SAME_LOSS;
    return Math.max(f, l);
  }

  /** Medians over the later half of the orders, and the spread by the quartiles. */
  private static Stable middle(List<double[]> track) {
    List<double[]> late = track.subList(track.size() / 2, track.size());
    double[] middle = new double[2];
    double[] spread = new double[2];
    for (int i = 0; i < 2; i++) {
      int part = i;
      double[] sorted = late.stream().mapToDouble(p -> p[part]).sorted().toArray();
      int n = sorted.length;
      middle[i] = sorted[n / 2];
      spread[i] = (sorted[3 * n / 4] - sorted[n / 4]) / QUARTILES;
    }
    return new Stable(middle, spread);
  }

  /** Amplitudes at the onsets, real and imaginary part of each. */
  private double[] amplitudes(RingDown fit, int pole) {
    double[] out = new double[2 * decays.size()];
    for (int d = 0; d < decays.size(); d++) {
      double[] a = fit.amplitude(d, pole);
      double back = Math.exp(fit.decay(pole) * starts.get(d));
      double turn = -fit.omega(pole) * starts.get(d);
      out[2 * d] = back * (a[0] * Math.cos(turn) - a[1] * Math.sin(turn));
      out[2 * d + 1] = back * (a[0] * Math.sin(turn) + a[1] * Math.cos(turn));
    }
    return out;
  }

  /** Energy over that of the whole in the same stretch, in the tap where that is most; dB. */
  private double level(RingDown fit, int pole) {
    double best = 0;
    double[] amplitudes = amplitudes(fit, pole);
    for (int d = 0; d < decays.size(); d++) {
      Tap tap = decaying.get(d);
      int to = (int) Math.min(tap.end(), tap.onset() + SHARE_TIME * fullRate);
      double time = (to - tap.onset()) / fullRate;
      double whole = time * (meanSquare(tap.onset(), to) - quiet);
      double square = Math.pow(Math.hypot(amplitudes[2 * d], amplitudes[2 * d + 1]), 2);
      double twice = 2 * fit.decay(pole);
      double its = square / 2 * (1 - Math.exp(-twice * time)) / twice;
      best = Math.max(best, its / Math.max(whole, Double.MIN_NORMAL));
    }
    return 10 * Math.log10(best);
  }

  /** Variance of the residual per sample, as if all of it were as about a pole's frequency. */
  private double noise(RingDown fit, int pole) {
    double f = frequency(fit, pole);
    double width = 2 * loss(fit, pole) * f;
    double sum = 0;
    for (double[] r : fit.residuals()) {
      sum += Spectrum.density(r, rate, f, Math.max(width, 3 * rate / r.length)) * rate / 2;
    }
    return Math.max(sum / decays.size(), Double.MIN_NORMAL);
  }

  /**
   * Standard uncertainty of frequency, Hz, and of loss: the larger of what the noise about the pole
   * makes and of what leaving out a tap does (jackknife), with it how much the pole moves from
   * order to order and the least that is ever claimed.
   */
  private double[] uncertainties(
      RingDown fit, int pole, DMatrixRMaj covariance, List<double[]> leftOut, Stable stable) {
    double noise = noise(fit, pole);
    int i = 2 * pole;
    double decay = fit.decay(pole);
    double omega = fit.omega(pole);
    double own = Math.hypot(decay, omega);
    double cube = own * own * own;
    double[][] slopes = {
      {decay / own / (2 * Math.PI), omega / own / (2 * Math.PI)},
      {2 * omega * omega / cube, -2 * decay * omega / cube},
    };
    double[] out = new double[2];
    for (int q = 0; q < 2; q++) {
      double variance = 0;
      for (int a = 0; a < 2; a++) {
        for (int b = 0; b < 2; b++) {
          variance += slopes[q][a] * slopes[q][b] * covariance.get(i + a, i + b) * noise;
        }
      }
      double orders =
          Math.abs(slopes[q][0] * stable.spread()[0]) + Math.abs(slopes[q][1] * stable.spread()[1]);
      double model = LEAST[q] * (q == 0 ? own / (2 * Math.PI) : 2 * decay / own);
      double taps = Math.max(variance, jackknife(leftOut, i, slopes[q]));
      out[q] = Math.sqrt(taps + orders * orders + model * model);
    }
    return out;
  }

  private static double jackknife(List<double[]> moves, int place, double[] slopes) {
    double sum = 0;
    double squares = 0;
    for (double[] move : moves) {
      double by = slopes[0] * move[place] + slopes[1] * move[place + 1];
      sum += by;
      squares += by * by;
    }
    double n = moves.size();
    return n < 2 ? 0 : Math.max(0, squares - sum * sum / n) * (n - 1) / n;
  }

  /** Energy in the half-power band over that of the silence before the first tap, dB. */
  private double overNoise(RingDown fit, int pole) {
    double f = frequency(fit, pole);
    double width = Math.max(loss(fit, pole) * f, 1);
    double square = 0;
    for (double part : amplitudes(fit, pole)) {
      square += part * part / decays.size();
    }
    double power = square / 2 / (2 * fit.decay(pole)) / SHARE_TIME;
    double density =
        background.length > 0
            ? Spectrum.density(background, rate, f, Math.max(width, 4 * rate / background.length))
            : noise(fit, pole) * 2 / rate;
    return 10 * Math.log10(power / Math.max(density * width, Double.MIN_NORMAL));
  }
}
