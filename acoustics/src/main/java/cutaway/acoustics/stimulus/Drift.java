package cutaway.acoustics.stimulus;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;

/**
 * How two clocks run apart, read off the phase of the fundamental.
 *
 * <p>A tone recorded by a clock that is fast by δ is flat by δ, so its phase against the played one
 * falls by δ f cycles each second. In a sweep a constant delay τ gives a phase of −τ f, and what
 * the loudspeaker adds falls off towards high frequencies as 1/f: the three are fitted together.
 */
final class Drift {
  /** Periods over which a phase is read. */
  private static final double PERIODS = 8;

  private static final double LEAST_TIME = 0.04;

  private Drift() {}

  private record Point(double time, double frequency, double cycles, double weight) {}

  /**
   * Fits.
   *
   * @param tones as played
   * @param lag of the recording, samples
   * @return drift, its standard uncertainty, and, at time 0, the delay beyond the lag, s
   */
  static double[] of(List<Tone> tones, double[] recorded, int lag, double rate) {
    List<List<Point>> tracks = new ArrayList<>();
    boolean sweep = false;
    for (Tone tone : tones) {
      sweep |= !tone.isSteady();
      tracks.add(track(tone, recorded, lag, rate));
    }
    return sweep ? ofSweep(tracks.get(0)) : ofSteady(tracks);
  }

  /** Phase of the recording against the tone, unwrapped, where it is heard. */
  private static List<Point> track(Tone tone, double[] x, int lag, double rate) {
    List<Point> out = new ArrayList<>();
    double time = tone.start();
    double before = 0;
    while (true) {
      double length = Math.max(LEAST_TIME, PERIODS / tone.frequency(time));
      double from = time;
      double to = time + length;
      if (to > tone.end()) {
        return out;
      }
      double[] mean = mean(tone, x, lag, rate, from, to);
      double cycles = Math.atan2(mean[1], mean[0]) / (2 * Math.PI);
      cycles += Math.rint(before - cycles);
      before = cycles;
      double middle = (from + to) / 2;
      out.add(new Point(middle, tone.frequency(middle), cycles, Math.hypot(mean[0], mean[1])));
      time += length / 2;
    }
  }

  /** Mean of the recording against the turning tone, under a Hann window. */
  private static double[] mean(
      Tone tone, double[] x, int lag, double rate, double from, double to) {
    double re = 0;
    double im = 0;
    int first = (int) Math.max(0, Math.ceil(from * rate) + lag);
    int last = (int) Math.min(x.length - 1.0, Math.floor(to * rate) + lag);
    for (int i = first; i <= last; i++) {
      double t = (i - lag) / rate;
      double w = 0.5 - 0.5 * Math.cos(2 * Math.PI * (t - from) / (to - from));
      double angle = 2 * Math.PI * tone.cycles(t);
      re += w * x[i] * Math.cos(angle);
      im -= w * x[i] * Math.sin(angle);
    }
    return new double[] {re, im};
  }

  private static double[] ofSteady(List<List<Point>> tracks) {
    double top = 0;
    double bottom = 0;
    double scatter = 0;
    double middle = 0;
    double weights = 0;
    int n = 0;
    for (List<Point> all : tracks) {
      if (all.size() < 6) {
        continue;
      }
      // the first and last hear the tone come and go
      List<Point> track = all.subList(2, all.size() - 2);
      double meanTime = track.stream().mapToDouble(Point::time).average().orElse(0);
      double meanCycles = track.stream().mapToDouble(Point::cycles).average().orElse(0);
      double weight = track.stream().mapToDouble(Point::weight).average().orElse(0);
      double a = 0;
      double b = 0;
      for (Point p : track) {
        double t = (p.time() - meanTime) * p.frequency();
        a += t * (p.cycles() - meanCycles);
        b += t * t;
      }
      for (Point p : track) {
        double off =
            p.cycles() - meanCycles - (b > 0 ? a / b : 0) * (p.time() - meanTime) * p.frequency();
        scatter += weight * weight * off * off;
        n++;
      }
      top += weight * weight * a;
      bottom += weight * weight * b;
      middle += weight * weight * b * meanTime;
      weights += weight * weight * b;
    }
    if (!(bottom > 0)) {
      return new double[] {0, 1e-4, 0};
    }
    // neighbours share half of their samples
    double sd = Math.sqrt(2 * scatter / Math.max(1, n - 2) / bottom);
    return new double[] {-top / bottom, sd, top / bottom * middle / weights};
  }

  private static double[] ofSweep(List<Point> track) {
    double loudest = track.stream().mapToDouble(Point::weight).max().orElse(0);
    List<Point> used =
        track.stream()
            .filter(p -> p.weight() > 0.03 * loudest && p.frequency() > 4 * track.get(0).frequency)
            .toList();
    if (used.size() < 12) {
      return new double[] {0, 1e-4, 0};
    }
    // cycles = phase − τ f − δ t f + c/f, errors of one size in phase
    double[][] rows = new double[used.size()][];
    double[] cycles = new double[used.size()];
    double middle = used.get(used.size() / 2).frequency();
    for (int i = 0; i < rows.length; i++) {
      double f = used.get(i).frequency();
      rows[i] = new double[] {-f, -used.get(i).time() * f, middle / f};
      cycles[i] = used.get(i).cycles();
    }
    OLSMultipleLinearRegression line = new OLSMultipleLinearRegression();
    line.newSampleData(cycles, rows);
    double[] found = line.estimateRegressionParameters();
    double[] sd = line.estimateRegressionParametersStandardErrors();
    return new double[] {found[2], Math.sqrt(2) * sd[2], found[1]};
  }
}
