package cutaway.app.report;

import cutaway.app.chart.Chart;
import cutaway.app.report.Story.ChartFigure;
import cutaway.app.report.Story.Exhibit;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Shown;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Words, table and charts of what the air inside does. */
final class AirChapter {
  private static final int MOST = 9;

  /** Ripple that is worth a word, dB; common practice, no source. */
  private static final double WORTH = 1;

  private final Findings findings;

  AirChapter(Findings findings) {
    this.findings = findings;
  }

  private Optional<Finding> find(String what, int wave) {
    return findings.finding("cavity." + what + "-" + wave);
  }

  private List<Integer> waves() {
    return IntStream.rangeClosed(1, MOST).filter(w -> find("wave", w).isPresent()).boxed().toList();
  }

  String lead() {
    List<String> out = new ArrayList<>();
    waves().stream()
        .filter(w -> find("ripple", w).isPresent())
        .max(Comparator.comparingDouble(w -> Math.abs(value(find("ripple", w)))))
        .ifPresent(w -> out.add(worst(w)));
    findings
        .finding("cavity.port-level")
        .ifPresent(
            f ->
                out.add(
                    f.estimate().value() > 0
                        ? "In the midrange the port is louder than the cone by "
                            + positive(f)
                            + at(f)
                            + "."
                        : "In the midrange the port stays "
                            + positive(f)
                            + " under the cone"
                            + at(f)
                            + "."));
    findings
        .finding("cavity.shape-gain")
        .ifPresent(f -> out.add("Against a plain box as large: " + shape(f)));
    return String.join(" ", out);
  }

  private String worst(int wave) {
    double ripple = value(find("ripple", wave));
    String f = frequency(wave);
    return Math.abs(ripple) < WORTH
        ? "None of the lowest standing waves is likely to change the output by a decibel; the strongest"
            + " stands at "
            + f
            + "."
        : "The standing wave at "
            + f
            + (ripple > 0 ? " lifts the output by " : " takes ")
            + find("ripple", wave).map(AirChapter::positive).orElse("")
            + (ripple > 0 ? "." : " from the output.");
  }

  /** Where it is, as its caution tells. */
  private static String at(Finding f) {
    return f.cautions().isEmpty() ? "" : " " + f.cautions().get(0);
  }

  private static String positive(Finding f) {
    return Shown.of(f).text().replace("−", "");
  }

  private static String shape(Finding f) {
    double gain = f.estimate().value();
    return Math.abs(gain) < 1
        ? "the slanted walls change the strongest wave behind the cone by less than 1 dB."
        : "the strongest wave behind the cone is "
            + positive(f)
            + (gain > 0 ? " weaker." : " stronger.");
  }

  private static double value(Optional<Finding> f) {
    return f.map(x -> x.estimate().value()).orElse(0.0);
  }

  Exhibit exhibit() {
    List<List<String>> rows = new ArrayList<>();
    for (int wave : waves()) {
      rows.add(
          List.of(
              find("wave", wave).map(AirChapter::way).orElse(""),
              frequency(wave),
              shown("q", wave),
              shown("ripple", wave)));
    }
    boolean computed = rows.stream().anyMatch(r -> !r.get(3).isEmpty());
    return new Exhibit(
        "",
        List.of(),
        List.of("Standing wave", "Frequency", "Q", "Change of the output"),
        computed ? rows : List.of(),
        List.of(),
        "");
  }

  /** "1, along the height". */
  private static String way(Finding wave) {
    return wave.name().replace("Standing wave ", "").replace(", without the lining", "");
  }

  /** With the lining where there is one, else of the bare room. */
  private String frequency(int wave) {
    return shown(find("lined", wave).isPresent() ? "lined" : "wave", wave);
  }

  private String shown(String what, int wave) {
    return find(what, wave).map(f -> Shown.of(f).text()).orElse("");
  }

  List<ChartFigure> charts(Charts charts, Function<Chart, ChartFigure> figure) {
    return Stream.of(
            charts.predicted(
                "waves-output",
                "Level with the waves inside, 2.83 V, half space",
                "level at 1 m, dB",
                v -> v,
                Double.NaN,
                List.of(),
                "cavity.output.with",
                "with waves",
                "cavity.output.without",
                "one pressure inside",
                "cavity.output.port",
                "port alone"))
        .flatMap(Optional::stream)
        .map(figure)
        .toList();
  }
}
