package cutaway.bench.exam;

import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.bench.finding.Notice;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * What a take's files hold, as plain values; without points where nothing can be taken from them.
 *
 * @param frequency Hz
 * @param re real parts, or magnitudes where the phase is not known, Ω
 * @param im imaginary parts, Ω
 * @param sigma relative standard uncertainties, empty where not known
 * @param phaseKnown whether the phase was measured
 * @param understood how the files were read
 * @param notices what was found on the way
 */
record ReadTake(
    List<Double> frequency,
    List<Double> re,
    List<Double> im,
    List<Double> sigma,
    boolean phaseKnown,
    String understood,
    List<Notice> notices) {
  ReadTake {
    frequency = List.copyOf(frequency);
    re = List.copyOf(re);
    im = List.copyOf(im);
    sigma = List.copyOf(sigma);
    notices = List.copyOf(notices);
  }

  static ReadTake of(ImpedanceCurve curve, String understood, List<Notice> notices) {
    int n = curve.size();
    return new ReadTake(
        listed(n, curve::frequency),
        listed(n, curve::re),
        listed(n, curve::im),
        listed(curve.sigmaKnown() ? n : 0, curve::sigma),
        curve.phaseKnown(),
        understood,
        notices);
  }

  /** Files that no impedance can be taken from. */
  static ReadTake nothing(List<Notice> notices) {
    return new ReadTake(List.of(), List.of(), List.of(), List.of(), false, "", notices);
  }

  private static List<Double> listed(int n, IntToDoubleFunction value) {
    return IntStream.range(0, n).mapToDouble(value).boxed().toList();
  }

  boolean isEmpty() {
    return frequency.isEmpty();
  }

  ImpedanceCurve curve() {
    return phaseKnown
        ? ImpedanceCurve.of(array(frequency), array(re), array(im), array(sigma))
        : ImpedanceCurve.ofMagnitude(array(frequency), array(re));
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
