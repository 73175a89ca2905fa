package cutaway.acoustics.knock;

import java.util.List;
import java.util.stream.DoubleStream;
import org.ejml.data.DMatrixRMaj;
import org.jspecify.annotations.Nullable;

/** Poles fitted to the decays of one band: what each is, how strong and how sure. */
final class BandFit {
  /** A pole whose extra sum of squares is less than this many variances a decay is noise. */
  private static final double SIGNIFICANT = 4;

  /** The least relative uncertainty claimed, of frequency and of loss. */
  private static final double[] LEAST = {2e-4, 5e-3};

  private final BandDecays decays;
  private final List<StablePole> poles;
  private final RingDown fit;

  /** Found when first asked for. */
  private @Nullable Scatter scatter;

  /**
   * How far the poles may be off.
   *
   * @param covariance for a residual of variance one
   * @param leftOut how they move without each of the decays
   */
  private record Scatter(DMatrixRMaj covariance, List<double[]> leftOut) {}

  private BandFit(BandDecays decays, List<StablePole> poles, RingDown fit) {
    this.decays = decays;
    this.poles = poles;
    this.fit = fit;
  }

  /** Fits amplitudes to poles that are kept as they are. */
  static BandFit of(BandDecays decays, List<StablePole> poles) {
    double[] all =
        poles.stream().flatMapToDouble(p -> DoubleStream.of(p.decay(), p.omega())).toArray();
    return new BandFit(decays, poles, RingDown.of(decays.all(), decays.rate(), all));
  }

  /** The same with the poles moved to where they leave least. */
  BandFit refined() {
    return new BandFit(decays, poles, fit.refined());
  }

  /** Number of poles. */
  int size() {
    return fit.size();
  }

  /** Extra sum of squares: by how much what is left would rise without a pole. */
  double extraSquares(int pole) {
    return fit.extraSquares(pole);
  }

  /** Undamped, Hz. */
  double frequency(int pole) {
    return Math.hypot(fit.decay(pole), fit.omega(pole)) / (2 * Math.PI);
  }

  /** Loss factor. */
  double loss(int pole) {
    return 2 * fit.decay(pole) / Math.hypot(fit.decay(pole), fit.omega(pole));
  }

  /** Whether a pole is more than noise. */
  boolean counts(int pole) {
    return fit.decay(pole) > 0
        && fit.extraSquares(pole) > SIGNIFICANT * decays.size() * noise(pole);
  }

  /** All that is known of a pole. */
  Ring ring(int pole) {
    double[] amplitudes = amplitudes(pole);
    double[] uncertainty = uncertainties(pole);
    return new Ring(
        frequency(pole),
        uncertainty[0],
        loss(pole),
        uncertainty[1],
        decays.level(amplitudes, fit.decay(pole)),
        overNoise(pole, amplitudes),
        amplitudes);
  }

  /** Amplitudes at the onsets, real and imaginary part of each. */
  private double[] amplitudes(int pole) {
    double[] out = new double[2 * decays.size()];
    for (int d = 0; d < decays.size(); d++) {
      double[] a = fit.amplitude(d, pole);
      double back = Math.exp(fit.decay(pole) * decays.start(d));
      double turn = -fit.omega(pole) * decays.start(d);
      out[2 * d] = back * (a[0] * Math.cos(turn) - a[1] * Math.sin(turn));
      out[2 * d + 1] = back * (a[0] * Math.sin(turn) + a[1] * Math.cos(turn));
    }
    return out;
  }

  /** Variance of the residual per sample, as if all of it were as about a pole's frequency. */
  private double noise(int pole) {
    double width = 2 * loss(pole) * frequency(pole);
    double rate = decays.rate();
    double sum = 0;
    for (double[] r : fit.residuals()) {
      sum +=
          Spectrum.density(r, rate, frequency(pole), Math.max(width, 3 * rate / r.length))
              * rate
              / 2;
    }
    return Math.max(sum / decays.size(), Double.MIN_NORMAL);
  }

  /**
   * Standard uncertainty of frequency, Hz, and of loss: the larger of what the noise about the pole
   * makes and of what leaving out a tap does (jackknife), with it how much the pole moves from
   * order to order and the least that is ever claimed.
   */
  private double[] uncertainties(int pole) {
    double noise = noise(pole);
    int i = 2 * pole;
    double decay = fit.decay(pole);
    double omega = fit.omega(pole);
    double own = Math.hypot(decay, omega);
    double cube = own * own * own;
    double[][] slopes = {
      {decay / own / (2 * Math.PI), omega / own / (2 * Math.PI)},
      {2 * omega * omega / cube, -2 * decay * omega / cube},
    };
    Scatter scatter = scatter();
    double[] out = new double[2];
    for (int q = 0; q < 2; q++) {
      double variance = 0;
      for (int a = 0; a < 2; a++) {
        for (int b = 0; b < 2; b++) {
          variance += slopes[q][a] * slopes[q][b] * scatter.covariance().get(i + a, i + b) * noise;
        }
      }
      StablePole stable = poles.get(pole);
      double orders =
          Math.abs(slopes[q][0] * stable.decaySpread())
              + Math.abs(slopes[q][1] * stable.omegaSpread());
      double model = LEAST[q] * (q == 0 ? own / (2 * Math.PI) : 2 * decay / own);
      double taps = Math.max(variance, jackknife(scatter.leftOut(), i, slopes[q]));
      out[q] = Math.sqrt(taps + orders * orders + model * model);
    }
    return out;
  }

  private Scatter scatter() {
    if (scatter == null) {
      scatter = new Scatter(fit.covariance(), fit.leftOut());
    }
    return scatter;
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
  private double overNoise(int pole, double[] amplitudes) {
    double width = Math.max(loss(pole) * frequency(pole), 1);
    double square = 0;
    for (double part : amplitudes) {
      square += part * part / decays.size();
    }
    double power = square / 2 / (2 * fit.decay(pole)) / BandDecays.SHARE_TIME;
    double silence = decays.background(frequency(pole), width);
    double density = silence > 0 ? silence : noise(pole) * 2 / decays.rate();
    return 10 * Math.log10(power / Math.max(density * width, Double.MIN_NORMAL));
  }
}
