package cutaway.bench.exam;

import cutaway.acoustics.knock.Knock;
import cutaway.acoustics.knock.Ring;
import cutaway.acoustics.knock.Tap;
import cutaway.acoustics.knock.TapSpectrogram;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Spectrogram;
import cutaway.bench.result.Results;
import java.util.Arrays;
import java.util.List;

/** How the first good tap on a wall dies away. */
final class KnockPictures {
  /** Over which the level is taken, and how often, s. */
  private static final double SPAN = 0.012;

  private static final double STEP = 0.004;
  private static final double LENGTH = 0.35;

  /** Over which the modes' shares of the energy were taken, s. */
  private static final double SHARE_TIME = 0.15;

  private static final double DEEPEST = -70;

  private final Knock knock;
  private final double[] samples;
  private final double rate;
  private final Tap tap;

  private KnockPictures(Knock knock, double[] samples, double rate) {
    this.knock = knock;
    this.samples = samples;
    this.rate = rate;
    this.tap = knock.taps().get(knock.used().get(0));
  }

  /** Adds spectrogram and ring-down of a knock that has a usable tap and modes. */
  static void of(
      Knock knock, double[] samples, double rate, String wall, String take, Results results) {
    if (knock.used().isEmpty() || knock.rings().isEmpty()) {
      return;
    }
    KnockPictures pictures = new KnockPictures(knock, samples, rate);
    TapSpectrogram s = TapSpectrogram.of(samples, rate, pictures.tap.onset());
    results.spectrogram(
        new Spectrogram(
            "walls." + wall + ".knock",
            "Knock on the " + wall + " wall, first good tap",
            boxed(s.times()),
            boxed(s.frequencies()),
            Arrays.stream(s.levels())
                .flatMapToDouble(Arrays::stream)
                .map(v -> Math.rint(10 * v) / 10)
                .boxed()
                .toList(),
            knock.rings().stream().map(Ring::frequency).toList(),
            List.of("takes." + take)));
    double[] times = pictures.times();
    double[] measured = pictures.measured(times);
    double[] modes = pictures.modes(times);
    double loudest = Arrays.stream(measured).max().orElse(0);
    results.curve(
        Curve.of(
            "walls." + wall + ".ring-down",
            "Level after a tap on the " + wall + " wall",
            "s",
            "dB",
            times,
            under(measured, loudest)));
    results.curve(
        Curve.of(
            "walls." + wall + ".ring-down-modes",
            "The modes found, added up",
            "s",
            "dB",
            times,
            under(modes, loudest)));
  }

  private static List<Double> boxed(double[] values) {
    return Arrays.stream(values).boxed().toList();
  }

  private static double[] under(double[] powers, double loudest) {
    return Arrays.stream(powers)
        .map(p -> Math.max(DEEPEST, 10 * Math.log10(Math.max(p, 1e-30) / loudest)))
        .toArray();
  }

  private double[] times() {
    double room = Math.min(LENGTH, (tap.end() - tap.onset()) / rate - SPAN);
    int n = Math.max(2, (int) (room / STEP));
    double[] out = new double[n];
    for (int i = 0; i < n; i++) {
      out[i] = i * STEP;
    }
    return out;
  }

  /** Mean square over a span from each time on. */
  private double[] measured(double[] times) {
    return Arrays.stream(times).map(t -> meanSquare(t, t + SPAN)).toArray();
  }

  private double meanSquare(double from, double to) {
    int begin = tap.onset() + (int) (from * rate);
    int end = Math.min(samples.length, tap.onset() + (int) (to * rate));
    double sum = 0;
    for (int i = begin; i < end; i++) {
      sum += samples[i] * samples[i];
    }
    return end > begin ? sum / (end - begin) : 0;
  }

  /** Each mode's share of the first 0.15 s, as it dies away. */
  private double[] modes(double[] times) {
    double whole = meanSquare(0, SHARE_TIME) * SHARE_TIME;
    return Arrays.stream(times)
        .map(
            t ->
                knock.rings().stream()
                    .mapToDouble(
                        r -> {
                          double twice = 2 * Math.PI * r.frequency() * r.loss();
                          double energy = whole * Math.pow(10, r.level() / 10);
                          double span = (1 - Math.exp(-twice * SPAN)) / (twice * SPAN);
                          return energy
                              * twice
                              / (1 - Math.exp(-twice * SHARE_TIME))
                              * Math.exp(-twice * t)
                              * span;
                        })
                    .sum())
        .toArray();
  }
}
