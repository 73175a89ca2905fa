package cutaway.app.drawing;

import cutaway.bench.finding.Spectrogram;
import java.util.List;
import java.util.Locale;

/** A spectrogram as SVG: time to the right, frequency upwards, darker for louder. */
public final class SpectrogramDrawing {
  private static final double WIDTH = 420;
  private static final double HEIGHT = 300;
  private static final double LEFT = 52;
  private static final double RIGHT = 58;
  private static final double TOP = 10;
  private static final double BOTTOM = 44;
  private static final int SHADES = 8;

  /** Lowest level that has a shade, dB. */
  private static final double DEEPEST = -56;

  private static final double[] TICKS = {60, 100, 200, 500, 1000, 1600};

  /** Marks nearer to each other than this have no room for their figures. */
  private static final double LEADING = 13;

  private final Spectrogram shown;

  private SpectrogramDrawing(Spectrogram shown) {
    this.shown = shown;
  }

  /** Draws. */
  public static String of(Spectrogram spectrogram) {
    return new SpectrogramDrawing(spectrogram).draw();
  }

  private String draw() {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"spectrogram\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"%s\">",
            WIDTH,
            HEIGHT,
            shown.name()));
    for (int shade = 1; shade < SHADES; shade++) {
      out.append(
          String.format(
              Locale.ROOT,
              "<path class=\"shade\" fill-opacity=\"%.2f\" d=\"%s\"/>",
              (double) shade / (SHADES - 1),
              cells(shade)));
    }
    axes(out);
    modes(out);
    return out.append("</svg>").toString();
  }

  /** Every stretch of one shade, frequency by frequency. */
  private String cells(int shade) {
    StringBuilder out = new StringBuilder();
    int times = shown.times().size();
    int frequencies = shown.frequencies().size();
    double wide = (WIDTH - LEFT - RIGHT) / times;
    double tall = (HEIGHT - TOP - BOTTOM) / frequencies;
    for (int f = 0; f < frequencies; f++) {
      double y = HEIGHT - BOTTOM - (f + 1) * tall;
      int begin = -1;
      for (int t = 0; t <= times; t++) {
        boolean is = t < times && shade(t, f) == shade;
        if (is && begin < 0) {
          begin = t;
        } else if (!is && begin >= 0) {
          out.append(
              String.format(
                  Locale.ROOT,
                  "M%.1f %.1fh%.1fv%.1fh%.1fz",
                  LEFT + begin * wide,
                  y,
                  (t - begin) * wide,
                  tall,
                  -(t - begin) * wide));
          begin = -1;
        }
      }
    }
    return out.toString();
  }

  private int shade(int time, int frequency) {
    double level = shown.levels().get(time * shown.frequencies().size() + frequency);
    return (int) Math.max(0, Math.min(SHADES - 1, SHADES * (1 - level / DEEPEST)));
  }

  private double y(double frequency) {
    List<Double> f = shown.frequencies();
    double low = f.get(0);
    double high = f.get(f.size() - 1);
    return HEIGHT
        - BOTTOM
        - (HEIGHT - TOP - BOTTOM) * Math.log(frequency / low) / Math.log(high / low);
  }

  private void axes(StringBuilder out) {
    for (double tick : TICKS) {
      out.append(
          String.format(
              Locale.ROOT,
              "<text class=\"tick\" x=\"%.0f\" y=\"%.1f\" text-anchor=\"end\">%.0f</text>",
              LEFT - 8,
              y(tick) + 4,
              tick));
    }
    double end = shown.times().get(shown.times().size() - 1);
    for (double t = 0; t <= end; t += 0.1) {
      double x = LEFT + (WIDTH - LEFT - RIGHT) * t / end;
      out.append(
          String.format(
              Locale.ROOT,
              "<text class=\"tick\" x=\"%.1f\" y=\"%.0f\" text-anchor=\"middle\">%.0f</text>",
              x,
              HEIGHT - BOTTOM + 17,
              1000 * t));
    }
    out.append(
        String.format(
            Locale.ROOT,
            "<text class=\"label\" x=\"%.0f\" y=\"%.0f\" text-anchor=\"middle\">after the tap,"
                + " ms</text><text class=\"label\" transform=\"translate(13 %.0f) rotate(-90)\""
                + " text-anchor=\"middle\">frequency, Hz</text>",
            (LEFT + WIDTH - RIGHT) / 2,
            HEIGHT - 8,
            (TOP + HEIGHT - BOTTOM) / 2));
    out.append(
        String.format(
            Locale.ROOT,
            "<rect class=\"frame\" x=\"%.0f\" y=\"%.0f\" width=\"%.0f\" height=\"%.0f\"/>",
            LEFT,
            TOP,
            WIDTH - LEFT - RIGHT,
            HEIGHT - TOP - BOTTOM));
  }

  /** A mark at every mode, its figure where there is room. */
  private void modes(StringBuilder out) {
    double last = Double.POSITIVE_INFINITY;
    for (double mode : shown.modes()) {
      double y = y(mode);
      if (y < TOP || y > HEIGHT - BOTTOM) {
        continue;
      }
      double x = WIDTH - RIGHT;
      out.append(String.format(Locale.ROOT, "<path class=\"mode\" d=\"M%.0f %.1fh7\"/>", x, y));
      if (last - y > LEADING) {
        out.append(
            String.format(
                Locale.ROOT,
                "<text class=\"modeName\" x=\"%.0f\" y=\"%.1f\">%.0f</text>",
                x + 10,
                y + 4,
                mode));
        last = y;
      }
    }
  }
}
