package cutaway.app.report;

import cutaway.acoustics.estimate.Estimate;
import cutaway.app.chart.Chart;
import cutaway.app.chart.Chart.Kind;
import cutaway.app.chart.Chart.Series;
import cutaway.app.chart.SvgChart;
import cutaway.bench.exam.RemedyExam;
import cutaway.bench.finding.Shown;
import cutaway.bench.finding.Trial;
import cutaway.bench.finding.Trial.Levels;
import cutaway.bench.finding.Trial.WallLine;
import cutaway.bench.finding.Trial.WaveLine;
import cutaway.bench.finding.Trial.Worst;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What a change would do, in words, tables and a chart.
 *
 * @param name the change
 * @param verdict a sentence
 * @param costs mass, volume and tuning in a sentence
 * @param walls rows of each wall: name, likelihood before and after, level before and after
 * @param waves rows of each standing wave: frequency, Q before and after, change of the output
 * @param chart of the changed wall, SVG
 */
public record TrialView(
    String name,
    String verdict,
    String costs,
    List<List<String>> walls,
    List<List<String>> waves,
    String chart) {
  /** What the model leaves open in a difference of two levels, dB; judgement. */
  public static final double LEAST = 2;

  /** Copies its lists. */
  public TrialView {
    walls = List.copyOf(walls);
    waves = List.copyOf(waves);
  }

  /** Of a trial. */
  public static TrialView of(Trial t) {
    List<List<String>> walls = new ArrayList<>();
    for (WallLine w : t.walls()) {
      walls.add(
          List.of(
              w.wall(),
              Shown.percent(w.before().heard()),
              Shown.percent(w.after().heard()),
              level(w.before()),
              level(w.after())));
    }
    List<List<String>> waves = new ArrayList<>();
    for (WaveLine w : t.waves()) {
      waves.add(
          List.of(
              String.format(Locale.ROOT, "%.0f Hz", w.frequency()),
              shown(w.before().q(), ""),
              shown(w.after().q(), ""),
              shown(w.before().ripple(), "dB"),
              shown(w.after().ripple(), "dB")));
    }
    return new TrialView(
        RemedyExam.name(t.change()), verdict(t), costs(t), walls, waves, SvgChart.of(chart(t)));
  }

  /** Change of the wall's loudest resonance with its uncertainty. */
  public static String change(Trial t) {
    double change = t.changed().after().level() - t.changed().before().level();
    // a sheet's loss is known to a factor of two
    double share = t.change().sheet().isPresent() ? 0.5 : 0.33;
    return Shown.of(change, Math.max(LEAST, share * Math.abs(change)), "dB").text();
  }

  private static String verdict(Trial t) {
    if (!t.change().ofWalls()) {
      return t.change().linedWall().isPresent()
          ? String.format(
              Locale.ROOT,
              "The lowest standing waves would change the output by %s at most in place of %s.",
              shown(t.rippleAfter(), "dB"),
              shown(t.rippleBefore(), "dB"))
          : "Nothing is changed yet.";
    }
    return String.format(
        Locale.ROOT,
        "The %s wall's resonance most likely heard changes by %s; heard with %s in place of %s.",
        t.change().wall(),
        change(t),
        Shown.percent(t.changed().after().heard()),
        Shown.percent(t.changed().before().heard()));
  }

  private static String costs(Trial t) {
    StringBuilder out = new StringBuilder();
    if (t.addedMass() != 0) {
      out.append(String.format(Locale.ROOT, "%s kg", signedMass(t.addedMass())));
    }
    if (t.lostVolume() > 0) {
      out.append(out.isEmpty() ? "" : ", ")
          .append(String.format(Locale.ROOT, "%.2f L of air lost", 1000 * t.lostVolume()));
      t.tuning()
          .ifPresent(
              f -> out.append(", f_b then ").append(Shown.of(f.value(), f.sd(), "Hz").text()));
    }
    return out.toString();
  }

  /** With its sign, kg. */
  public static String signedMass(double kilograms) {
    return (kilograms < 0 ? "−" : "+") + String.format(Locale.ROOT, "%.2f", Math.abs(kilograms));
  }

  private static String level(Worst worst) {
    return Double.isFinite(worst.level())
        ? Shown.of(worst.level(), worst.levelSd(), "dB").text()
        : "";
  }

  /** With its uncertainty. */
  public static String shown(Estimate e, String unit) {
    return Shown.of(e.value(), e.sd(), unit).text();
  }

  private static Chart chart(Trial t) {
    List<Series> series = new ArrayList<>();
    series.add(line("as it is", 2, true, t.before()));
    if (t.change().ofWalls()) {
      series.add(line("with it", 1, false, t.after()));
    }
    double top =
        series.stream()
            .flatMap(s -> s.y().stream())
            .mapToDouble(Double::doubleValue)
            .max()
            .orElse(0);
    double ceiling = Math.ceil((top + 1) / 10) * 10;
    return new Chart(
        "trial",
        "Sound of the " + t.change().wall() + " wall at 1 m over the drive unit's own",
        true,
        "frequency, Hz",
        "level over the unit's own, dB",
        series,
        List.of(),
        ceiling - 50,
        ceiling);
  }

  private static Series line(String label, int colour, boolean dashed, Levels levels) {
    return new Series(
        label,
        Kind.LINE,
        colour,
        dashed,
        levels.frequencies(),
        levels.levels(),
        List.of(),
        List.of());
  }
}
