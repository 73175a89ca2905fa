package cutaway.app.drawing;

import cutaway.bench.finding.LeftOver;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/**
 * What is left over, as SVG: what was played to the right, frequency upwards, darker for louder;
 * and its blows round the cone's cycle.
 */
public final class LeftOverDrawing {
  private static final double WIDTH = 460;
  private static final double HEIGHT = 300;
  private static final double LEFT = 54;
  private static final double RIGHT = 12;
  private static final double TOP = 12;
  private static final double BOTTOM = 44;

  /** Between shades, dB, and what is fully dark. */
  private static final double STEP = 4;

  private static final int SHADES = 8;

  private static final double[] BANDS = {250, 500, 1000, 2000, 4000, 8000, 16000};
  private static final double[] TONES = {10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000};

  private final LeftOver shown;

  private LeftOverDrawing(LeftOver shown) {
    this.shown = shown;
  }

  /** Over time and frequency. */
  public static String map(LeftOver shown) {
    return new LeftOverDrawing(shown).map();
  }

  /** Round the cycle. */
  public static String cycle(LeftOver shown) {
    return new LeftOverDrawing(shown).cycle();
  }

  /** What the shades stand for, in words. */
  public static String scale() {
    return String.format(
        Locale.ROOT,
        "the stronger the colour the louder, from %.0f dB over silence to %.0f dB and more; dotted where ordinary"
            + " distortion or settling may lie and nothing is judged; the ring is where it stands out most",
        STEP,
        STEP * (SHADES - 1));
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private String map() {
    StringBuilder out = new StringBuilder();
    out.append(
        say(
            "<svg class=\"leftover\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"What is"
                + " left over of %s\">",
            WIDTH, HEIGHT, shown.take()));
    out.append(say("<path class=\"unjudged\" d=\"%s\"/>", unjudged()));
    for (int shade = 1; shade < SHADES; shade++) {
      out.append(
          say(
              "<path class=\"shade\" fill-opacity=\"%.2f\" d=\"%s\"/>",
              (double) shade / (SHADES - 1), cells(shade)));
    }
    bandAxis(out);
    playedAxis(out);
    frame(out);
    out.append(
        say(
            "<circle class=\"spot\" cx=\"%.1f\" cy=\"%.1f\" r=\"11\"/>",
            x(shown.spotTime()), y(shown.spotBand())));
    return out.append("</svg>").toString();
  }

  private double wide() {
    return (WIDTH - LEFT - RIGHT) / shown.times().size();
  }

  private double tall() {
    return (HEIGHT - TOP - BOTTOM) / shown.bands().size();
  }

  private double x(double time) {
    double first = shown.times().get(0);
    double last = shown.times().get(shown.times().size() - 1);
    double share = (time - first) / (last - first);
    return LEFT + wide() / 2 + share * (WIDTH - LEFT - RIGHT - wide());
  }

  private double y(double frequency) {
    double low = shown.bands().get(0);
    double high = shown.bands().get(shown.bands().size() - 1);
    double share = Math.log(frequency / low) / Math.log(high / low);
    return HEIGHT - BOTTOM - tall() / 2 - share * (HEIGHT - TOP - BOTTOM - tall());
  }

  /** Every stretch of one shade, band by band. */
  private String cells(int shade) {
    StringBuilder out = new StringBuilder();
    for (int b = 0; b < shown.bands().size(); b++) {
      int begin = -1;
      for (int t = 0; t <= shown.times().size(); t++) {
        boolean is = t < shown.times().size() && shade(t, b) == shade;
        if (is && begin < 0) {
          begin = t;
        } else if (!is && begin >= 0) {
          double x = LEFT + begin * wide();
          double y = HEIGHT - BOTTOM - (b + 1) * tall();
          double length = (t - begin) * wide();
          out.append(say("M%.1f %.1fh%.1fv%.1fh%.1fz", x, y, length, tall(), -length));
          begin = -1;
        }
      }
    }
    return out.toString();
  }

  private int shade(int time, int band) {
    return (int) Math.max(0, Math.min(SHADES - 1, shown.level(time, band) / STEP));
  }

  /** A dot in the middle of every third cell that is not judged. */
  private String unjudged() {
    StringBuilder out = new StringBuilder();
    for (int b = 0; b < shown.bands().size(); b++) {
      for (int t = b % 2; t < shown.times().size(); t += 3) {
        if (shown.level(t, b) < 0) {
          double x = LEFT + (t + 0.5) * wide();
          double y = HEIGHT - BOTTOM - (b + 0.5) * tall();
          out.append(say("M%.1f %.1fh0", x, y));
        }
      }
    }
    return out.toString();
  }

  private void bandAxis(StringBuilder out) {
    for (double band : BANDS) {
      if (band <= shown.bands().get(shown.bands().size() - 1)) {
        out.append(
            say(
                "<text class=\"tick\" x=\"%.0f\" y=\"%.1f\" text-anchor=\"end\">%s</text>",
                LEFT - 8, y(band) + 4, hertz(band)));
      }
    }
    out.append(
        say(
            "<text class=\"label\" transform=\"translate(13 %.0f) rotate(-90)\""
                + " text-anchor=\"middle\">left over at, Hz</text>",
            (TOP + HEIGHT - BOTTOM) / 2));
  }

  private static String hertz(double f) {
    return f >= 1000 ? say("%.0fk", f / 1000) : say("%.0f", f);
  }

  private void playedAxis(StringBuilder out) {
    if (ofMusic()) {
      double first = shown.times().get(0);
      double last = shown.times().get(shown.times().size() - 1);
      double every = last - first > 16 ? 5 : last - first > 6 ? 2 : 1;
      for (double t = every; t < last - first; t += every) {
        tick(out, first + t, say("%.0f", t));
      }
    } else if (shown.glides()) {
      for (double tone : TONES) {
        crossing(tone).forEach(t -> tick(out, shown.times().get(t), hertz(tone)));
      }
    } else {
      int begin = 0;
      int tone = 0;
      for (int t = 1; t <= shown.tones().size(); t++) {
        boolean same = t < shown.tones().size() && shown.tones().get(t).equals(tone(begin));
        if (!same) {
          if (tone(begin) > 0 && (t - begin) * wide() > 16) {
            double middle = (shown.times().get(begin) + shown.times().get(t - 1)) / 2;
            tick(out, middle, played(tone, tone(begin)));
          }
          tone += tone(begin) > 0 ? 1 : 0;
          begin = t;
        }
      }
    }
    out.append(
        say(
            "<text class=\"label\" x=\"%.0f\" y=\"%.0f\" text-anchor=\"middle\">%s</text>",
            (LEFT + WIDTH - RIGHT) / 2,
            HEIGHT - 8,
            ofMusic()
                ? "into the music, s"
                : shown.glides() ? "while the sweep passes, Hz" : playing()));
  }

  /** A tone among others by its frequency; where only the level differs, by that. */
  private String played(int tone, double frequency) {
    return shown.played().isEmpty() || tone >= shown.played().size()
        ? say("%.0f", frequency)
        : say("%.0f", shown.played().get(tone)).replace("-0", "0").replace('-', '−');
  }

  private String playing() {
    double frequency = shown.tones().stream().mapToDouble(f -> f).max().orElse(0);
    return shown.played().isEmpty()
        ? "while the tone plays, Hz"
        : say("while %.0f Hz plays, dB against the loudest", frequency);
  }

  private boolean ofMusic() {
    return shown.tones().stream().allMatch(t -> t == 0);
  }

  private double tone(int time) {
    return shown.tones().get(time);
  }

  /** First time at which a sweep has come to a frequency, none where it never does. */
  private List<Integer> crossing(double frequency) {
    List<Integer> out = new ArrayList<>();
    for (int t = 1; t < shown.tones().size() && out.isEmpty(); t++) {
      if (tone(t) >= frequency && tone(t - 1) < frequency && tone(t - 1) > 0) {
        out.add(t);
      }
    }
    return out;
  }

  private void tick(StringBuilder out, double time, String text) {
    out.append(
        say(
            "<path class=\"mark\" d=\"M%.1f %.0fv5\"/><text class=\"tick\" x=\"%.1f\" y=\"%.0f\""
                + " text-anchor=\"middle\">%s</text>",
            x(time), HEIGHT - BOTTOM, x(time), HEIGHT - BOTTOM + 18, text));
  }

  private static void frame(StringBuilder out) {
    out.append(
        say(
            "<rect class=\"frame\" x=\"%.0f\" y=\"%.0f\" width=\"%.0f\" height=\"%.0f\"/>",
            LEFT, TOP, WIDTH - LEFT - RIGHT, HEIGHT - TOP - BOTTOM));
  }

  private String cycle() {
    StringBuilder out = new StringBuilder();
    out.append(
        say(
            "<svg class=\"leftover\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"Blows of"
                + " %s round the cone's cycle\">",
            WIDTH, HEIGHT, shown.take()));
    List<Double> parts = shown.cycle();
    // the tallest stays clear of the frame
    double most = 1.06 * Math.max(2, Collections.max(parts));
    double wide = (WIDTH - LEFT - RIGHT) / parts.size();
    double room = HEIGHT - TOP - BOTTOM;
    StringBuilder bars = new StringBuilder();
    for (int i = 0; i < parts.size(); i++) {
      double height = room * parts.get(i) / most;
      bars.append(
          say(
              "M%.1f %.1fh%.1fv%.1fh%.1fz",
              LEFT + i * wide + 1, HEIGHT - BOTTOM - height, wide - 2, height, 2 - wide));
    }
    out.append(say("<path class=\"blow\" d=\"%s\"/>", bars));
    out.append(
        say(
            "<path class=\"mean\" d=\"M%.0f %.1fH%.0f\"/>",
            LEFT, HEIGHT - BOTTOM - room / most, WIDTH - RIGHT));
    out.append(say("<path class=\"cone\" d=\"%s\"/>", cone()));
    powerAxis(out, most);
    String[] turns = {"out", "middle", "in", "middle", "out"};
    for (int i = 0; i < turns.length; i++) {
      double x = LEFT + (WIDTH - LEFT - RIGHT) * i / 4;
      String anchor = i == 0 ? "start" : i == 4 ? "end" : "middle";
      out.append(
          say(
              "<path class=\"mark\" d=\"M%.1f %.0fv5\"/><text class=\"tick\" x=\"%.1f\""
                  + " y=\"%.0f\" text-anchor=\"%s\">%s</text>",
              x, HEIGHT - BOTTOM, x, HEIGHT - BOTTOM + 18, anchor, turns[i]));
    }
    out.append(
        say(
            "<text class=\"label\" x=\"%.0f\" y=\"%.0f\" text-anchor=\"middle\">where the cone is"
                + " (line), one cycle of the tone</text>",
            (LEFT + WIDTH - RIGHT) / 2, HEIGHT - 8));
    frame(out);
    return out.append("</svg>").toString();
  }

  private static String cone() {
    StringBuilder out = new StringBuilder();
    double middle = (TOP + HEIGHT - BOTTOM) / 2;
    double half = 0.42 * (HEIGHT - TOP - BOTTOM);
    for (int i = 0; i <= 48; i++) {
      double x = LEFT + (WIDTH - LEFT - RIGHT) * i / 48;
      double y = middle - half * Math.cos(2 * Math.PI * i / 48);
      out.append(say("%s%.1f %.1f", i == 0 ? "M" : "L", x, y));
    }
    return out.toString();
  }

  private static void powerAxis(StringBuilder out, double most) {
    double step = most > 12 ? 5 : most > 6 ? 2 : 1;
    for (double v = 0; v <= most; v += step) {
      double y = HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * v / most;
      out.append(
          say(
              "<text class=\"tick\" x=\"%.0f\" y=\"%.1f\" text-anchor=\"end\">%.0f</text>",
              LEFT - 8, y + 4, v));
    }
    out.append(
        say(
            "<text class=\"label\" transform=\"translate(13 %.0f) rotate(-90)\""
                + " text-anchor=\"middle\">power over its mean</text>",
            (TOP + HEIGHT - BOTTOM) / 2));
  }
}
