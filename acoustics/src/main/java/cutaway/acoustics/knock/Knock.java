package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.ejml.data.DMatrixRMaj;

/**
 * A recording of taps on a wall, and the modes found in their ringing.
 *
 * @param taps all that were found
 * @param used which of them were looked at, in order
 * @param rings modes, lowest first
 */
public record Knock(List<Tap> taps, List<Integer> used, List<Ring> rings) {
  /** From low to high, each for as long as its modes ring. */
  private static final List<Band> BANDS =
      List.of(
          new Band(30, 700, 0.0045, 0.30),
          new Band(600, 2200, 0.0045, 0.10),
          new Band(2000, 6500, 0.0042, 0.035));

  private static final double LEAST_LOSS = 0.003;
  private static final double MOST_LOSS = 0.15;

  /** Poles of neighbouring orders that agree this well are one. */
  private static final double SAME_FREQUENCY = 0.006;

  private static final double SAME_LOSS = 0.3;

  /** In so many orders a mode must show. */
  private static final int LEAST_ORDERS = 4;

  private static final double LEAST_SHARE = 0.5;

  /** A ring this far below all that rings, or less certain than this, is left out. */
  private static final double FAINTEST = -30;

  private static final double LEAST_OVER_NOISE = 10;
  private static final double UNCERTAIN_FREQUENCY = 0.004;
  private static final double UNCERTAIN_LOSS = 0.2;

  /** Over which a mode's share of what rings is taken, s. */
  private static final double SHARE_TIME = 0.15;

  /** Corner below which there is rumble, Hz. */
  private static final double RUMBLE = 25;

  /** Copies its lists. */
  public Knock {
    taps = List.copyOf(taps);
    used = List.copyOf(used);
    rings = List.copyOf(rings);
  }

  /**
   * Looks through a recording.
   *
   * @param samples of one channel, full scale 1
   * @param rate Hz
   */
  public static Knock of(double[] samples, double rate) {
    List<Tap> taps = Taps.in(samples, rate);
    List<Integer> used = new ArrayList<>();
    for (int i = 0; i < taps.size(); i++) {
      if (!taps.get(i).doubled()) {
        used.add(i);
      }
    }
    List<Ring> rings = new ArrayList<>();
    if (!used.isEmpty()) {
      double[] quiet = withoutRumble(samples, rate);
      List<Tap> good = used.stream().map(taps::get).toList();
      for (Band band : BANDS) {
        if (band.high() < 0.45 * rate) {
          new Search(quiet, rate, good, taps, band).into(rings);
        }
      }
      rings.sort(Comparator.comparingDouble(Ring::frequency));
    }
    return new Knock(taps, used, rings);
  }

  /** Second-order high-pass, forwards only: what it adds dies within a period of its corner. */
  private static double[] withoutRumble(double[] x, double rate) {
    double w = Math.tan(Math.PI * RUMBLE / rate);
    double a0 = 1 + Math.sqrt(2) * w + w * w;
    double a1 = 2 * (w * w - 1) / a0;
    double a2 = (1 - Math.sqrt(2) * w + w * w) / a0;
    double[] out = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      double x1 = i > 0 ? x[i - 1] : x[0];
      double x2 = i > 1 ? x[i - 2] : x1;
      double y1 = i > 0 ? out[i - 1] : 0;
      double y2 = i > 1 ? out[i - 2] : 0;
      out[i] = (x[i] - 2 * x1 + x2) / a0 - a1 * y1 - a2 * y2;
    }
    return out;
  }

  /** One band of one recording. */
  private static final class Search {
    private final double[] samples;
    private final double fullRate;
    private final double rate;
    private final Band band;
    private final double low;
    private final List<double[]> decays = new ArrayList<>();
    private final List<Double> starts = new ArrayList<>();
    private final List<Tap> decaying = new ArrayList<>();
    private final double[] background;

    Search(double[] samples, double rate, List<Tap> good, List<Tap> all, Band band) {
      this.samples = samples;
      this.fullRate = rate;
      this.rate = rate / band.step(rate);
      this.band = band;
      this.low = band.low();
      double start = band.start(rate);
      for (Tap tap : good) {
        int from =
            (int)
                Math.rint(
                    Math.max(
                        tap.onset() + start * rate,
                        tap.clipped() + (start - band.delay()) * rate + 4));
        int to = (int) Math.min(tap.end(), from + band.length() * rate);
        if (to - from > 0.4 * band.length() * rate) {
          decays.add(band.decay(samples, rate, from, to));
          starts.add((from - tap.onset()) / rate);
          decaying.add(tap);
        }
      }
      int quietEnd = (int) (all.get(0).onset() - 0.01 * rate);
      this.background =
          quietEnd > 0.05 * rate ? band.decay(samples, rate, 0, quietEnd) : new double[0];
    }

    void into(List<Ring> rings) {
      if (decays.isEmpty()) {
        return;
      }
      List<double[]> start = stable(Poles.of(decays));
      if (start.isEmpty()) {
        return;
      }
      double[] poles = start.stream().flatMapToDouble(java.util.Arrays::stream).toArray();
      RingDown fit = RingDown.of(decays, rate, poles);
      for (int pole = 0; pole < fit.size(); pole++) {
        keep(fit, pole, rings);
      }
    }

    /** Poles that come back order after order: those in the band, and others that help the fit. */
    private List<double[]> stable(List<List<double[]>> orders) {
      List<List<double[]>> tracks = new ArrayList<>();
      List<Integer> births = new ArrayList<>();
      for (int order = 0; order < orders.size(); order++) {
        for (double[] z : orders.get(order)) {
          double[] pole = pole(z);
          int best = -1;
          double nearest = 1;
          for (int t = 0; t < tracks.size(); t++) {
            double[] last = tracks.get(t).get(tracks.get(t).size() - 1);
            double away = away(last, pole);
            if (away < nearest) {
              nearest = away;
              best = t;
            }
          }
          if (best >= 0) {
            tracks.get(best).add(pole);
          } else {
            tracks.add(new ArrayList<>(List.of(pole)));
            births.add(order);
          }
        }
      }
      List<double[]> out = new ArrayList<>();
      for (int t = 0; t < tracks.size(); t++) {
        List<double[]> track = tracks.get(t);
        int possible = orders.size() - births.get(t);
        double[] pole = track.get(track.size() - 1);
        boolean often =
            track.size() >= Math.min(LEAST_ORDERS, possible)
                && track.size() >= LEAST_SHARE * possible;
        boolean late = possible < LEAST_ORDERS;
        if (often && !late && pole[0] > 0) {
          out.add(pole);
        }
      }
      return out;
    }

    private double[] pole(double[] z) {
      double decay = -Math.log(Math.hypot(z[0], z[1])) * rate;
      double omega = Math.atan2(z[1], z[0]) * rate;
      return new double[] {decay, omega};
    }

    private static double away(double[] a, double[] b) {
      double fa = Math.hypot(a[0], a[1]);
      double fb = Math.hypot(b[0], b[1]);
      double la = a[0] / fa;
      double lb = b[0] / fb;
      double f = Math.abs(fa - fb) / fb / SAME_FREQUENCY;
      double l = Math.abs(la - lb) / Math.max(Math.abs(lb), 0.002) / SAME_LOSS;
      return Math.max(f, l);
    }

    private void keep(RingDown fit, int pole, List<Ring> rings) {
      double decay = fit.decay(pole);
      double omega = fit.omega(pole);
      double own = Math.hypot(decay, omega);
      double f = own / (2 * Math.PI);
      double loss = 2 * decay / own;
      if (f < low || f > band.high() || loss < LEAST_LOSS || loss > MOST_LOSS) {
        return;
      }
      double noise = noise(fit, f, loss);
      double[] u = uncertainties(fit, pole, noise);
      double level = level(fit, pole);
      double over = overNoise(fit, pole, f, loss);
      if (Boolean.getBoolean("knock.debug")) {
        System.out.printf(
            "   try %.1f ±%.2f loss %.4f ±%.4f level %.1f over %.1f sig %.0f%n",
            f, u[0], loss, u[1], level, over, fit.significance(pole, noise));
      }
      boolean certain = u[0] < UNCERTAIN_FREQUENCY * f && u[1] < UNCERTAIN_LOSS * loss;
      if (!certain || level < FAINTEST || over < LEAST_OVER_NOISE) {
        return;
      }
      Ring ring = new Ring(f, u[0], loss, u[1], level, over, amplitudes(fit, pole));
      Ring same =
          rings.stream()
              .filter(r -> Math.abs(r.frequency() - f) < Math.max(0.3 * loss, 0.005) * f)
              .findFirst()
              .orElse(null);
      if (same == null) {
        rings.add(ring);
      } else if (ring.lossUncertainty() < same.lossUncertainty()) {
        rings.remove(same);
        rings.add(ring);
      }
    }

    /** Amplitudes at the onsets. */
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

    /** Energy over that of the whole in the same stretch after the strongest tap, dB. */
    private double level(RingDown fit, int pole) {
      double best = Double.NEGATIVE_INFINITY;
      double[] amplitudes = amplitudes(fit, pole);
      double strongest = 0;
      for (int d = 0; d < decays.size(); d++) {
        Tap tap = decaying.get(d);
        double end = Math.min(tap.end(), tap.onset() + SHARE_TIME * fullRate);
        int to = (int) end;
        double whole = 0;
        for (int i = tap.onset(); i < to; i++) {
          whole += samples[i] * samples[i] / fullRate;
        }
        double square =
            amplitudes[2 * d] * amplitudes[2 * d] + amplitudes[2 * d + 1] * amplitudes[2 * d + 1];
        double time = (to - tap.onset()) / fullRate;
        double its =
            square / 2 * (1 - Math.exp(-2 * fit.decay(pole) * time)) / (2 * fit.decay(pole));
        if (whole > strongest) {
          strongest = whole;
          best = 10 * Math.log10(its / whole);
        }
      }
      return best;
    }

    /** Variance of the residual per sample, as if all of it were as about a frequency. */
    private double noise(RingDown fit, double f, double loss) {
      double sum = 0;
      int count = 0;
      for (double[] r : fit.residuals()) {
        sum +=
            Spectrum.density(r, rate, f, Math.max(2 * loss * f, 3 / (r.length / rate))) * rate / 2;
        count++;
      }
      return Math.max(sum / count, 1e-300);
    }

    /** Standard uncertainty of frequency, Hz, and of loss. */
    private double[] uncertainties(RingDown fit, int pole, double noise) {
      DMatrixRMaj c = fit.covariance();
      int i = 2 * pole;
      double decay = fit.decay(pole);
      double omega = fit.omega(pole);
      double own = Math.hypot(decay, omega);
      double[] df = {decay / own / (2 * Math.PI), omega / own / (2 * Math.PI)};
      double[] dl = {
        2 / own - 2 * decay * decay / Math.pow(own, 3), -2 * decay * omega / Math.pow(own, 3)
      };
      double varianceF = 0;
      double varianceL = 0;
      for (int a = 0; a < 2; a++) {
        for (int b = 0; b < 2; b++) {
          varianceF += df[a] * df[b] * c.get(i + a, i + b) * noise;
          varianceL += dl[a] * dl[b] * c.get(i + a, i + b) * noise;
        }
      }
      List<double[]> moves = fit.leftOut();
      double jackF = 0;
      double jackL = 0;
      for (double[] move : moves) {
        double f = df[0] * move[i] + df[1] * move[i + 1];
        double l = dl[0] * move[i] + dl[1] * move[i + 1];
        jackF += f * f;
        jackL += l * l;
      }
      double n = moves.size();
      double scale = n > 1 ? (n - 1) / n : 0;
      return new double[] {
        Math.sqrt(Math.max(varianceF, jackF * scale)), Math.sqrt(Math.max(varianceL, jackL * scale))
      };
    }

    /** Energy in the half-power band over that of the silence before the first tap, dB. */
    private double overNoise(RingDown fit, int pole, double f, double loss) {
      double width = Math.max(loss * f, 1);
      double[] a = amplitudes(fit, pole);
      double square = 0;
      for (double part : a) {
        square = square + part * part;
      }
      square /= decays.size();
      double power = square / 2 / (2 * fit.decay(pole)) / SHARE_TIME;
      double density =
          background.length > 0
              ? Spectrum.density(background, rate, f, Math.max(width, 4 * rate / background.length))
              : noise(fit, f, loss) * 2 / rate;
      return 10 * Math.log10(power / Math.max(density * width, 1e-300));
    }
  }
}
