package cutaway.bench.noise;

import cutaway.acoustics.fault.Place;
import cutaway.acoustics.fault.ResiduePicture;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.stimulus.Tone;
import cutaway.bench.finding.LeftOver;
import cutaway.bench.sheet.Words;
import java.util.Arrays;
import java.util.List;

/** What is left over of a take, with figures no finer than a picture shows. */
final class NoisePictures {
  private static final double NOT_JUDGED = -1;

  private NoisePictures() {}

  static LeftOver of(String take, TestSignal signal, Place place) {
    ResiduePicture picture = place.picture();
    double[] tones = picture.tones();
    boolean glides = Arrays.stream(tones).filter(t -> t > 0).distinct().count() > tones.length / 2;
    return new LeftOver(
        take,
        Words.of(picture.sensor())
            + place.without().map(w -> ", without what comes from the " + Words.of(w)).orElse(""),
        glides,
        rounded(picture.times(), 1e-4),
        rounded(tones, 0.1),
        rounded(played(signal), 0.1),
        rounded(picture.bands(), 0.1),
        rounded(
            Arrays.stream(picture.over())
                .flatMapToDouble(Arrays::stream)
                .map(v -> Double.isNaN(v) ? NOT_JUDGED : Math.max(0, v))
                .toArray(),
            0.1),
        picture.spotTime(),
        picture.spotBand(),
        rounded(picture.cycle(), 0.01));
  }

  private static double[] played(TestSignal signal) {
    double[] peaks = signal.tones().stream().mapToDouble(Tone::amplitude).toArray();
    double most = Arrays.stream(peaks).max().orElse(0);
    boolean alike = Arrays.stream(peaks).allMatch(p -> p == most);
    return alike
        ? new double[0]
        : Arrays.stream(peaks).map(p -> 20 * Math.log10(p / most)).toArray();
  }

  private static List<Double> rounded(double[] values, double step) {
    double whole = Math.rint(1 / step);
    return Arrays.stream(values).map(v -> Math.rint(v * whole) / whole).boxed().toList();
  }
}
