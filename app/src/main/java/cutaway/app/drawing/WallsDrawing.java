package cutaway.app.drawing;

import cutaway.app.typeset.Typeset;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.ModeShape;
import cutaway.bench.finding.ModeShape.Face;
import cutaway.bench.finding.Shown;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BinaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Pictures of a box's walls from outside: tinted by what is heard of them, or moving in a mode. */
public final class WallsDrawing {
  private static final double WIDTH = 340;
  private static final double HEIGHT = 330;
  private static final double MARGIN = 24;

  /** Largest displacement on the picture, as a share of the box. */
  private static final double SWING = 0.07;

  /** Corners nearer than this are one, m. */
  private static final double JUST = 1e-5;

  /** About the width of a letter and the height of a line of a label, px. */
  private static final double LETTER = 8;

  private static final double LINE = 17;

  private final List<Face> faces;
  private final double turn;
  private final double tilt;
  private final StringBuilder out = new StringBuilder();
  private double scale = 1;
  private double left;
  private double top;

  private WallsDrawing(List<Face> faces, boolean fromBehind) {
    this.faces = faces;
    this.turn = Math.toRadians(fromBehind ? 32 + 180 : 32);
    this.tilt = Math.toRadians(fromBehind ? -20 : 20);
    fit();
  }

  /** The box from two sides, walls tinted by the likelihood that they are heard. */
  public static Optional<String> tinted(Findings findings) {
    if (findings.shapes().isEmpty()) {
      return Optional.empty();
    }
    List<Face> faces = findings.shapes().get(0).faces();
    StringBuilder svg = new StringBuilder("<div class=\"pictures\">");
    for (int side = 0; side < 2; side++) {
      WallsDrawing drawing = new WallsDrawing(faces, side == 1);
      svg.append(
          String.format(
              Locale.ROOT,
              "<svg class=\"walls\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"The box from"
                  + " %s, walls tinted by the likelihood that they are heard\">",
              WIDTH,
              HEIGHT,
              side == 0 ? "the right" : "behind and below"));
      List<Face> visible = drawing.visible();
      for (Face face : visible) {
        drawing.face(face, findings.finding("walls." + face.wall() + ".heard"));
      }
      visible.stream()
          .collect(
              Collectors.toMap(
                  Face::wall,
                  f -> f,
                  BinaryOperator.maxBy(Comparator.comparingDouble(WallsDrawing::size))))
          .forEach(
              (wall, face) -> drawing.label(face, findings.finding("walls." + wall + ".heard")));
      svg.append(drawing.out).append("</svg>");
    }
    svg.append("</div>");
    legend(svg);
    return Optional.of(svg.toString());
  }

  private static void legend(StringBuilder svg) {
    svg.append(
        "<svg class=\"walls legend\" viewBox=\"0 0 340 30\" role=\"img\" aria-label=\"Tints from 0"
            + " to 100 %\">");
    for (int i = 0; i < 10; i++) {
      svg.append(
          String.format(
              Locale.ROOT,
              "<rect class=\"board\" x=\"%d\" y=\"8\" width=\"18\" height=\"12\"/><rect"
                  + " class=\"tint\" x=\"%d\" y=\"8\" width=\"18\" height=\"12\""
                  + " fill-opacity=\"%.2f\"/>",
              30 + 18 * i,
              30 + 18 * i,
              (i + 0.5) / 10));
    }
    svg.append(
        "<text class=\"end\" x=\"24\" y=\"19\">0</text><text x=\"216\" y=\"19\">100 % likely"
            + " heard</text></svg>");
  }

  /** A mode, its walls shaded by how far they move and swinging. */
  public static String moving(ModeShape shape) {
    WallsDrawing drawing = new WallsDrawing(shape.faces(), false);
    drawing.out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"walls mode\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"%s\">",
            WIDTH,
            HEIGHT,
            Typeset.escaped(shape.name())));
    for (Face face : drawing.visible()) {
      drawing.shaded(face);
      drawing.lines(face);
    }
    return drawing.out.append("</svg>").toString();
  }

  private void fit() {
    double[] low = {Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY};
    double[] high = {Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY};
    for (Face face : faces) {
      for (int i = 0; i + 2 < face.places().size(); i += 3) {
        double[] p = flat(face.places(), i);
        for (int axis = 0; axis < 2; axis++) {
          low[axis] = Math.min(low[axis], p[axis]);
          high[axis] = Math.max(high[axis], p[axis]);
        }
      }
    }
    double w = WIDTH - 2 * MARGIN;
    double h = HEIGHT - 2 * MARGIN;
    scale = Math.min(w / (high[0] - low[0]), h / (high[1] - low[1]));
    left = MARGIN + (w - scale * (high[0] - low[0])) / 2 - scale * low[0];
    top = MARGIN + (h - scale * (high[1] - low[1])) / 2 - scale * low[1];
  }

  /** Before scaling: right and down. */
  private double[] flat(List<Double> at, int i) {
    return flat(at.get(i), at.get(i + 1), at.get(i + 2));
  }

  private double[] flat(double x, double y, double z) {
    double away = -x * Math.sin(turn) + y * Math.cos(turn);
    return new double[] {
      x * Math.cos(turn) + y * Math.sin(turn), -z * Math.cos(tilt) - away * Math.sin(tilt)
    };
  }

  private String point(double x, double y, double z) {
    double[] p = flat(x, y, z);
    return String.format(Locale.ROOT, "%.1f %.1f", left + scale * p[0], top + scale * p[1]);
  }

  /** Place of a grid point moved by a share of the swing. */
  private String point(Face face, int column, int row, double swing) {
    int i = 3 * (row * face.columns() + column);
    double by = swing * SWING * size();
    return point(
        face.places().get(i) + by * face.moves().get(i),
        face.places().get(i + 1) + by * face.moves().get(i + 1),
        face.places().get(i + 2) + by * face.moves().get(i + 2));
  }

  private double size() {
    return Math.min(WIDTH, HEIGHT) / scale;
  }

  /** Faces that look at the viewer, the farthest first. */
  private List<Face> visible() {
    double[] view = {
      -Math.sin(turn) * Math.cos(tilt), Math.cos(turn) * Math.cos(tilt), -Math.sin(tilt)
    };
    return faces.stream()
        .filter(face -> dot(normal(face), view) < -1e-6)
        .sorted(Comparator.comparingDouble(face -> -dot(middle(face), view)))
        .toList();
  }

  private static double[] middle(Face face) {
    return place(face, face.columns() / 2, face.columns() / 2);
  }

  private static double dot(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  /** Outwards. */
  private static double[] normal(Face face) {
    int last = face.columns() - 1;
    double[] a = place(face, 0, 0);
    double[] b = place(face, last, 0);
    double[] c = place(face, 0, last);
    double[] u = {b[0] - a[0], b[1] - a[1], b[2] - a[2]};
    double[] v = {c[0] - a[0], c[1] - a[1], c[2] - a[2]};
    double[] n = {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
    double length = Math.sqrt(dot(n, n));
    return new double[] {n[0] / length, n[1] / length, n[2] / length};
  }

  private static double[] place(Face face, int column, int row) {
    int i = 3 * (row * face.columns() + column);
    return new double[] {face.places().get(i), face.places().get(i + 1), face.places().get(i + 2)};
  }

  private String quad(Face face, int column, int row, int span, double swing) {
    return "M"
        + point(face, column, row, swing)
        + "L"
        + point(face, column + span, row, swing)
        + "L"
        + point(face, column + span, row + span, swing)
        + "L"
        + point(face, column, row + span, swing)
        + "Z";
  }

  private void face(Face face, Optional<Finding> heard) {
    String d = quad(face, 0, 0, face.columns() - 1, 0);
    out.append("<path class=\"board bare\" d=\"").append(d).append("\"/>");
    heard.ifPresent(
        f ->
            out.append(
                String.format(
                    Locale.ROOT,
                    "<path class=\"tint\" fill-opacity=\"%.2f\" d=\"%s\"/>",
                    f.estimate().value(),
                    d)));
    out.append("<path class=\"rim\" d=\"").append(rim(face)).append("\"/>");
  }

  /** Edges of a face that it does not share with another part of its wall. */
  private String rim(Face face) {
    List<Face> others =
        faces.stream().filter(f -> !f.equals(face) && f.wall().equals(face.wall())).toList();
    StringBuilder d = new StringBuilder();
    List<double[]> corners = corners(face);
    for (int i = 0; i < 4; i++) {
      double[] from = corners.get(i);
      double[] to = corners.get((i + 1) % 4);
      boolean shared =
          others.stream().map(WallsDrawing::corners).anyMatch(o -> hasBoth(o, from, to));
      if (!shared) {
        d.append('M').append(point(from[0], from[1], from[2]));
        d.append('L').append(point(to[0], to[1], to[2]));
      }
    }
    return d.toString();
  }

  private static List<double[]> corners(Face face) {
    int last = face.columns() - 1;
    return List.of(
        place(face, 0, 0), place(face, last, 0), place(face, last, last), place(face, 0, last));
  }

  private static boolean hasBoth(List<double[]> corners, double[] a, double[] b) {
    return Stream.of(a, b).allMatch(p -> corners.stream().anyMatch(q -> apart(p, q) < JUST));
  }

  private static double apart(double[] a, double[] b) {
    double[] d = {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
    return Math.sqrt(dot(d, d));
  }

  /** The wall's name and how likely it is heard, on two lines where the wall looks narrow. */
  private void label(Face face, Optional<Finding> heard) {
    String likely = heard.map(f -> Shown.percent(f.estimate().value())).orElse("");
    double[] p = middle(face);
    double[] flat = flat(p[0], p[1], p[2]);
    double x = left + scale * flat[0];
    double y = top + scale * flat[1] + 5;
    if (likely.isEmpty() || width(face) > LETTER * (face.wall().length() + 1 + likely.length())) {
      text(x, y, (face.wall() + " " + likely).trim());
    } else {
      text(x, y - LINE / 2, face.wall());
      text(x, y + LINE / 2, likely);
    }
  }

  private void text(double x, double y, String words) {
    out.append(
        String.format(
            Locale.ROOT,
            "<text class=\"middle\" x=\"%.1f\" y=\"%.1f\">%s</text>",
            x,
            y,
            Typeset.svg(words)));
  }

  /** How wide a face looks, px. */
  private double width(Face face) {
    double[] across =
        corners(face).stream().mapToDouble(c -> flat(c[0], c[1], c[2])[0]).sorted().toArray();
    return scale * (across[3] - across[0]);
  }

  private static double size(Face face) {
    List<double[]> c = corners(face);
    return apart(c.get(0), c.get(2)) * apart(c.get(1), c.get(3));
  }

  /** Cells shaded by how far they move across the wall. */
  private void shaded(Face face) {
    double[] n = normal(face);
    out.append("<path class=\"board\" d=\"")
        .append(quad(face, 0, 0, face.columns() - 1, 0))
        .append("\"/>");
    for (int row = 0; row + 1 < face.columns(); row++) {
      for (int column = 0; column + 1 < face.columns(); column++) {
        double move = 0;
        for (int k = 0; k < 4; k++) {
          int i = 3 * ((row + k / 2) * face.columns() + column + k % 2);
          move +=
              (face.moves().get(i) * n[0]
                      + face.moves().get(i + 1) * n[1]
                      + face.moves().get(i + 2) * n[2])
                  / 4;
        }
        if (Math.abs(move) > 0.04) {
          out.append(
              String.format(
                  Locale.ROOT,
                  "<path class=\"%s\" fill-opacity=\"%.2f\" d=\"%s\"/>",
                  move > 0 ? "outwards" : "inwards",
                  Math.min(1, 0.8 * Math.abs(move)),
                  quad(face, column, row, 1, 0)));
        }
      }
    }
  }

  /** The grid, swinging out and back. */
  private void lines(Face face) {
    for (int k = 0; k < face.columns(); k += 2) {
      for (boolean across : new boolean[] {true, false}) {
        String one = line(face, k, across, 1);
        String other = line(face, k, across, -1);
        out.append("<path class=\"mesh still\" d=\"").append(one).append("\"/>");
        out.append("<path class=\"mesh swing\" d=\"")
            .append(one)
            .append("\"><animate attributeName=\"d\" dur=\"2.4s\" repeatCount=\"indefinite\"")
            .append(" calcMode=\"spline\" keyTimes=\"0;0.5;1\" keySplines=\".4 0 .6 1;.4 0 .6 1\"")
            .append(" values=\"")
            .append(one)
            .append(';')
            .append(other)
            .append(';')
            .append(one)
            .append("\"/></path>");
      }
    }
  }

  private String line(Face face, int k, boolean across, double swing) {
    StringBuilder d = new StringBuilder();
    for (int i = 0; i < face.columns(); i++) {
      d.append(i == 0 ? "M" : "L")
          .append(across ? point(face, i, k, swing) : point(face, k, i, swing));
    }
    return d.toString();
  }
}
