package cutaway.app.report;

import cutaway.app.chart.Chart;
import cutaway.app.chart.Chart.Kind;
import cutaway.app.chart.Chart.Marker;
import cutaway.app.chart.Chart.Series;
import cutaway.bench.finding.Curve;
import cutaway.bench.finding.Findings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/** Which curves go into which chart. */
final class Charts {
  private static final String FREQUENCY = "frequency, Hz";

  /** More than these cannot be told apart by colour. */
  private static final int MOST_TAKES = 4;

  private static final String REST = "noise.";
  private static final String SPECTRUM = ".spectrum";

  private final Findings findings;

  Charts(Findings findings) {
    this.findings = findings;
  }

  /** Impedance of takes, measured as points and fitted as lines. */
  Optional<Chart> impedance(String id, String title, List<String> takes, List<Marker> markers) {
    List<Series> series = new ArrayList<>();
    List<String> fitted = with(".fitted", takes);
    for (String take : first(fitted)) {
      int colour = 1 + series.size() / 2;
      series.add(points(findings.curve("impedance." + take + ".measured").orElseThrow(), colour));
      Curve fit = findings.curve("impedance." + take + ".fitted").orElseThrow();
      series.add(line(fit, take, colour, false, v -> v));
    }
    return series.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Chart(
                id,
                titled(title, fitted),
                true,
                FREQUENCY,
                "impedance, Ω",
                series,
                markers,
                0,
                peak(series)));
  }

  private List<String> with(String curve, List<String> takes) {
    return takes.stream()
        .filter(t -> findings.curve("impedance." + t + curve).isPresent())
        .toList();
  }

  private static List<String> first(List<String> takes) {
    return takes.subList(0, Math.min(MOST_TAKES, takes.size()));
  }

  private static String titled(String title, List<String> takes) {
    return takes.size() <= MOST_TAKES
        ? title
        : title + ", the first " + MOST_TAKES + " of " + takes.size() + " takes";
  }

  /** The coil's rise at the top must not squeeze the peaks: room to the tallest low peak. */
  private static double peak(List<Series> series) {
    double low = 0;
    double all = 0;
    for (Series s : series) {
      for (int i = 0; i < s.x().size(); i++) {
        all = Math.max(all, s.y().get(i));
        low = s.x().get(i) < 1000 ? Math.max(low, s.y().get(i)) : low;
      }
    }
    double top = all > 1.5 * low && low > 0 ? 1.5 * low : all;
    double step = top > 60 ? 20 : top > 20 ? 10 : top > 8 ? 5 : 2;
    return Math.ceil(top * 1.02 / step) * step;
  }

  /** How far the measured magnitudes lie from the fit. */
  Optional<Chart> residuals(String id, String title, List<String> takes) {
    List<Series> series = new ArrayList<>();
    List<String> fitted = with(".residual", takes);
    for (String take : first(fitted)) {
      Curve c = findings.curve("impedance." + take + ".residual").orElseThrow();
      int colour = 1 + series.size();
      series.add(
          new Series(take, Kind.POINTS, colour, false, c.axis(), c.values(), List.of(), List.of()));
    }
    if (series.isEmpty()) {
      return Optional.empty();
    }
    double largest = 1;
    for (Series s : series) {
      List<Double> sizes = s.y().stream().map(Math::abs).sorted().toList();
      largest = Math.max(largest, sizes.get((int) (0.98 * (sizes.size() - 1))));
    }
    double bound = Math.ceil(largest * 1.2);
    return Optional.of(
        new Chart(
            id,
            titled(title, fitted),
            true,
            FREQUENCY,
            "measured over fitted, %",
            series,
            List.of(),
            -bound,
            bound));
  }

  /** One or two predicted curves. */
  Optional<Chart> predicted(
      String id,
      String title,
      String label,
      DoubleUnaryOperator unit,
      double low,
      List<Marker> markers,
      String... curves) {
    List<Series> series = new ArrayList<>();
    for (int i = 0; i + 1 < curves.length; i += 2) {
      String name = curves[i + 1];
      int colour = i / 2 + 1;
      findings
          .curve(curves[i])
          .ifPresent(c -> series.add(line(c, name, colour, colour == 2, unit)));
    }
    if (series.isEmpty()) {
      return Optional.empty();
    }
    boolean time = findings.curve(curves[0]).map(c -> c.axisUnit().equals("s")).orElse(false);
    double bottom = Double.isNaN(low) ? floor(series, label) : low;
    return Optional.of(
        new Chart(
            id,
            title,
            !time,
            time ? "time, ms" : FREQUENCY,
            label,
            time ? inMilliseconds(series) : series,
            markers,
            bottom,
            Double.NaN));
  }

  /** All that was heard with nothing played, take over take. */
  Optional<Chart> atRest() {
    List<Series> series = new ArrayList<>();
    List<Marker> markers = new ArrayList<>();
    for (Curve c : findings.curves()) {
      if (c.id().startsWith(REST) && c.id().endsWith(SPECTRUM) && series.size() < MOST_TAKES) {
        String take = c.id().substring(REST.length(), c.id().length() - SPECTRUM.length());
        if (series.isEmpty()) {
          mark(markers, REST + take + ".mains", "mains");
          mark(markers, REST + take + ".tone-frequency", "tone");
        }
        series.add(line(c, take, series.size() + 1, series.size() % 2 == 1, v -> v));
      }
    }
    return series.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Chart(
                "at-rest",
                "With nothing played, at the cone",
                true,
                FREQUENCY,
                "level of a tone, dB SPL",
                series,
                markers,
                Double.NaN,
                Double.NaN));
  }

  private void mark(List<Marker> markers, String finding, String label) {
    findings.finding(finding).ifPresent(f -> markers.add(new Marker(f.estimate().value(), label)));
  }

  /** Levels are shown 36 dB deep. */
  private static double floor(List<Series> series, String label) {
    if (!label.contains("dB")) {
      return Double.NaN;
    }
    double top =
        series.stream()
            .flatMap(s -> s.y().stream())
            .mapToDouble(Double::doubleValue)
            .max()
            .orElse(0);
    return Math.floor((top - 36) / 5) * 5;
  }

  private static List<Series> inMilliseconds(List<Series> series) {
    return series.stream()
        .map(
            s ->
                new Series(
                    s.label(),
                    s.kind(),
                    s.colour(),
                    s.dashed(),
                    s.x().stream().map(v -> 1000 * v).toList(),
                    s.y(),
                    s.low(),
                    s.high()))
        .toList();
  }

  private static Series points(Curve c, int colour) {
    return new Series("", Kind.POINTS, colour, false, c.axis(), c.values(), List.of(), List.of());
  }

  /** A line with a band of two standard uncertainties. */
  private static Series line(
      Curve c, String label, int colour, boolean dashed, DoubleUnaryOperator unit) {
    List<Double> y = c.values().stream().map(unit::applyAsDouble).toList();
    List<Double> low = new ArrayList<>();
    List<Double> high = new ArrayList<>();
    c.sd()
        .ifPresent(
            sd -> {
              for (int i = 0; i < sd.size(); i++) {
                low.add(unit.applyAsDouble(c.values().get(i) - 2 * sd.get(i)));
                high.add(unit.applyAsDouble(c.values().get(i) + 2 * sd.get(i)));
              }
            });
    return new Series(label, Kind.LINE, colour, dashed, c.axis(), y, low, high);
  }
}
