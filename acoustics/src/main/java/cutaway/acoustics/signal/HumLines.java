package cutaway.acoustics.signal;

import cutaway.acoustics.signal.Hum.Harmonic;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Mains hum in an averaged spectrum: lines that stand clear of the noise on either side.
 *
 * <p>Each line's bins are left out of the sums, with its whole width again on either side.
 */
final class HumLines {
  private static final int HARMONICS = 12;
  private static final double SEARCH = 0.004;

  /** Times the median of the neighbourhood; noise averaged over a few segments never gets there. */
  private static final double CLEAR = 12;

  private static final double AS_LOW = 3;

  /** Half the neighbourhood, Hz. */
  private static final double AROUND = 6;

  private final CrossSpectrum spectrum;

  private HumLines(CrossSpectrum spectrum) {
    this.spectrum = spectrum;
  }

  /**
   * Takes hum out of a spectrum of Hann windows.
   *
   * @param mains frequencies the mains may have, Hz
   * @return what was found, of the mains that explain more of it; absent where nothing was
   */
  static Optional<Hum> takeOut(CrossSpectrum spectrum, double[] mains) {
    HumLines all = new HumLines(spectrum);
    Optional<Map.Entry<Hum, List<Line>>> best =
        Arrays.stream(mains)
            .mapToObj(all::at)
            .filter(e -> !e.getValue().isEmpty())
            .max(Comparator.comparingDouble(e -> e.getKey().power()));
    best.ifPresent(e -> e.getValue().forEach(all::leaveOut));
    return best.map(Map.Entry::getKey);
  }

  private Map.Entry<Hum, List<Line>> at(double nominal) {
    List<Harmonic> found = new ArrayList<>();
    List<Line> lines = new ArrayList<>();
    double strongest = 0;
    double fundamental = nominal;
    for (int h = 1; h <= HARMONICS; h++) {
      Optional<Line> line = near(h * nominal);
      if (line.isPresent()) {
        found.add(new Harmonic(h, line.get().amplitude(), 0));
        if (line.get().amplitude() > strongest) {
          strongest = line.get().amplitude();
          fundamental = line.get().frequency() / h;
        }
        lines.add(line.get());
      }
    }
    return Map.entry(new Hum(fundamental, found), lines);
  }

  /**
   * A line: its bins, both ends included; frequency in Hz; peak amplitude in the stronger channel.
   */
  private record Line(int from, int to, double frequency, double amplitude) {}

  private Optional<Line> near(double f) {
    double df = spectrum.spacing();
    int from = (int) Math.floor(f * (1 - SEARCH) / df) - 1;
    int to = (int) Math.ceil(f * (1 + SEARCH) / df) + 1;
    if (from < 1 || to + AROUND / df >= spectrum.bins()) {
      return Optional.empty();
    }
    Optional<Line> first = near(from, to, spectrum::s11);
    Optional<Line> second = near(from, to, spectrum::s22);
    if (first.isEmpty() || second.isEmpty()) {
      return first.or(() -> second);
    }
    Line a = first.get();
    Line b = second.get();
    Line main = a.amplitude() >= b.amplitude() ? a : b;
    return Optional.of(
        new Line(
            Math.min(a.from(), b.from()),
            Math.max(a.to(), b.to()),
            main.frequency(),
            main.amplitude()));
  }

  private interface Power {
    double at(int bin);
  }

  private Optional<Line> near(int from, int to, Power power) {
    int peak = from;
    for (int k = from; k <= to; k++) {
      peak = power.at(k) > power.at(peak) ? k : peak;
    }
    double floor = median(peak, power);
    if (!(power.at(peak) > CLEAR * floor)) {
      return Optional.empty();
    }
    int low = peak;
    while (low > 1 && power.at(low - 1) > AS_LOW * floor) {
      low--;
    }
    int high = peak;
    while (high < spectrum.bins() - 1 && power.at(high + 1) > AS_LOW * floor) {
      high++;
    }
    double sum = 0;
    double moment = 0;
    for (int k = low; k <= high; k++) {
      sum += power.at(k);
      moment += k * power.at(k);
    }
    // a line of amplitude A leaves A²/4 N Σw² in one segment's bins, Σw² = 3N/8
    double n = spectrum.length();
    double amplitude = Math.sqrt(sum * 4 / (spectrum.segments() * n * n * 3 / 8));
    return Optional.of(new Line(low - 1, high + 1, moment / sum * spectrum.spacing(), amplitude));
  }

  private double median(int centre, Power power) {
    int reach = (int) Math.ceil(AROUND / spectrum.spacing());
    int from = Math.max(1, centre - reach);
    int to = Math.min(spectrum.bins() - 1, centre + reach);
    double[] values = new double[to - from + 1];
    for (int k = from; k <= to; k++) {
      values[k - from] = power.at(k);
    }
    Arrays.sort(values);
    return values[values.length / 2];
  }

  private void leaveOut(Line line) {
    for (int k = Math.max(1, line.from()); k <= Math.min(line.to(), spectrum.bins() - 1); k++) {
      spectrum.leaveOut(k);
    }
  }
}
