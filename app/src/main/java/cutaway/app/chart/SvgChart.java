package cutaway.app.chart;

import cutaway.app.chart.Chart.Kind;
import cutaway.app.chart.Chart.Marker;
import cutaway.app.chart.Chart.Series;
import cutaway.app.typeset.Typeset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * Draws a chart as SVG. Colours come from style classes, so that light, dark and paper share one
 * drawing; why this is our own and no library stands in {@code docs/decisions/}.
 */
public final class SvgChart {
  private static final double WIDTH = 760;
  private static final double HEIGHT = 340;
  private static final double LEFT = 58;
  private static final double RIGHT = 132;
  private static final double TOP = 16;
  private static final double BOTTOM = 46;

  private final Chart chart;
  private final Scale x;
  private final Scale y;
  private final StringBuilder out = new StringBuilder();

  private SvgChart(Chart chart) {
    this.chart = chart;
    double[] bx = boundsX(chart);
    this.x = new Scale(chart.logX(), bx[0], bx[1], LEFT, WIDTH - RIGHT);
    double[] by = boundsY(chart);
    this.y = new Scale(false, by[0], by[1], HEIGHT - BOTTOM, TOP);
  }

  /** The drawing as an {@code svg} element. */
  public static String of(Chart chart) {
    SvgChart svg = new SvgChart(chart);
    svg.draw();
    return svg.out.toString();
  }

  private static double[] boundsX(Chart chart) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Series s : chart.series()) {
      low = Math.min(low, s.x().get(0));
      high = Math.max(high, s.x().get(s.x().size() - 1));
    }
    return new double[] {low, high};
  }

  /** Room for every value, on round figures, with the band counted where it is narrow. */
  static double[] boundsY(Chart chart) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    for (Series s : chart.series()) {
      for (double v : s.y()) {
        low = Math.min(low, v);
        high = Math.max(high, v);
      }
    }
    double step = Scale.step(Math.max(1e-12, (high - low) / 6));
    double from = Double.isNaN(chart.lowY()) ? Math.floor(low / step) * step : chart.lowY();
    double to = Double.isNaN(chart.highY()) ? Math.ceil(high / step) * step : chart.highY();
    return new double[] {from, to <= from ? from + step : to};
  }

  private void draw() {
    out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"chart\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"%s\">",
            WIDTH,
            HEIGHT,
            Typeset.escaped(chart.title())));
    out.append(
        String.format(
            Locale.ROOT,
            "<clipPath id=\"clip-%s\"><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>"
                + "</clipPath>",
            chart.id(),
            LEFT,
            TOP,
            WIDTH - LEFT - RIGHT,
            HEIGHT - TOP - BOTTOM));
    axes();
    out.append("<g clip-path=\"url(#clip-").append(chart.id()).append(")\">");
    chart.markers().forEach(this::markerLine);
    chart.series().forEach(this::band);
    chart.series().forEach(this::curve);
    out.append("</g>");
    markerLabels();
    labels();
    out.append("</svg>");
  }

  private void axes() {
    for (double t : y.ticks(6)) {
      line("grid", LEFT, y.at(t), WIDTH - RIGHT, y.at(t));
      text("tick end", LEFT - 8, y.at(t) + 4, Scale.label(t));
    }
    for (double t : x.ticks(8)) {
      line("grid", x.at(t), TOP, x.at(t), HEIGHT - BOTTOM);
      text("tick mid", x.at(t), HEIGHT - BOTTOM + 18, Scale.label(t));
    }
    line("axis", LEFT, HEIGHT - BOTTOM, WIDTH - RIGHT, HEIGHT - BOTTOM);
    text("title mid", (LEFT + WIDTH - RIGHT) / 2, HEIGHT - 8, chart.labelX());
    out.append(
        String.format(
            Locale.ROOT,
            "<text class=\"title mid\" transform=\"translate(14 %.1f) rotate(-90)\">%s</text>",
            (TOP + HEIGHT - BOTTOM) / 2,
            Typeset.svg(chart.labelY())));
  }

  private void line(String style, double x1, double y1, double x2, double y2) {
    out.append(
        String.format(
            Locale.ROOT,
            "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>",
            style,
            x1,
            y1,
            x2,
            y2));
  }

  private void text(String style, double px, double py, String text) {
    out.append(
        String.format(
            Locale.ROOT,
            "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">%s</text>",
            style,
            px,
            py,
            Typeset.svg(text)));
  }

  private void band(Series s) {
    if (s.low().isEmpty()) {
      return;
    }
    StringBuilder path = new StringBuilder();
    for (int i = 0; i < s.x().size(); i++) {
      path.append(point(i == 0 ? 'M' : 'L', s.x().get(i), s.high().get(i)));
    }
    for (int i = s.x().size() - 1; i >= 0; i--) {
      path.append(point('L', s.x().get(i), s.low().get(i)));
    }
    out.append(
        String.format(Locale.ROOT, "<path class=\"band c%d\" d=\"%sZ\"/>", s.colour(), path));
  }

  private void curve(Series s) {
    if (s.kind() == Kind.POINTS) {
      for (int i = 0; i < s.x().size(); i++) {
        out.append(
            String.format(
                Locale.ROOT,
                "<circle class=\"dot c%d\" cx=\"%.1f\" cy=\"%.1f\" r=\"2\"/>",
                s.colour(),
                x.at(s.x().get(i)),
                y.at(s.y().get(i))));
      }
      return;
    }
    StringBuilder path = new StringBuilder();
    for (int i = 0; i < s.x().size(); i++) {
      path.append(point(i == 0 ? 'M' : 'L', s.x().get(i), s.y().get(i)));
    }
    out.append(
        String.format(
            Locale.ROOT,
            "<path class=\"curve c%d%s\" d=\"%s\"/>",
            s.colour(),
            s.dashed() ? " dashed" : "",
            path));
  }

  private String point(char command, double vx, double vy) {
    double bounded = Math.max(y.low() - 10 * (y.high() - y.low()), Math.min(vy, y.high() * 10 + 1));
    return String.format(Locale.ROOT, "%c%.1f %.1f", command, x.at(vx), y.at(bounded));
  }

  private void markerLine(Marker m) {
    if (m.x() >= x.low() && m.x() <= x.high()) {
      line("marker", x.at(m.x()), TOP, x.at(m.x()), HEIGHT - BOTTOM);
    }
  }

  private void markerLabels() {
    for (Marker m : chart.markers()) {
      if (m.x() >= x.low() && m.x() <= x.high()) {
        text("marker-label", x.at(m.x()) + 4, TOP + 12, m.label());
      }
    }
  }

  private record End(String label, int colour, double at) {}

  /** Names beside the ends of the curves, pushed apart where they would touch. */
  private void labels() {
    List<End> ends = new ArrayList<>();
    for (Series s : chart.series()) {
      if (!s.label().isEmpty()) {
        double last = s.y().get(s.y().size() - 1);
        double at = y.at(Math.max(y.low(), Math.min(y.high(), last)));
        ends.add(new End(s.label(), s.colour(), at));
      }
    }
    ends.sort(Comparator.comparingDouble(End::at));
    double before = TOP - 8;
    double room = HEIGHT - BOTTOM - TOP - 17.0 * ends.size();
    List<Double> places = new ArrayList<>();
    for (End e : ends) {
      before = Math.max(e.at() + 4, before + 17);
      places.add(before);
    }
    double over = room < 0 ? 0 : Math.max(0, before - (HEIGHT - BOTTOM));
    for (int i = 0; i < ends.size(); i++) {
      text(
          "label c" + ends.get(i).colour(),
          WIDTH - RIGHT + 8,
          places.get(i) - over,
          ends.get(i).label());
    }
  }
}
