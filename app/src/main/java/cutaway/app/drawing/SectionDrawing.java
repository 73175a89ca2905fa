package cutaway.app.drawing;

import cutaway.acoustics.cabinet.Point;
import cutaway.bench.exam.BoxSection;
import cutaway.bench.exam.BoxSection.Opening;
import cutaway.bench.exam.BoxSection.Part;
import cutaway.bench.exam.BoxSection.Piece;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** A section through a box with what sits in its walls, at a scale. */
final class SectionDrawing {
  /** Drawn first to last: what is cut lies over what is seen beyond. */
  private static final List<Part> ORDER =
      List.of(
          Part.FOOT,
          Part.LINING_BEYOND,
          Part.BRACE_BEYOND,
          Part.EDGE,
          Part.LINING,
          Part.SHEET,
          Part.BRACE,
          Part.BOARD);

  private static final double TUBE_WALL = 0.003;

  /** In place of a thickness that nobody read, m. */
  static final double USUAL_BOARD = 0.016;

  private static final double JUST = 0.001;

  private final Sheet sheet;
  private final BoxSection section;
  private final List<Opening> told;
  private final Frame frame;
  private final StringBuilder out;

  /**
   * Where metres lie on the paper.
   *
   * @param scale px for a metre
   * @param left px of x = 0
   * @param top px of y = 0
   */
  record Frame(double scale, double left, double top) {
    double px(double across) {
      return left + across * scale;
    }

    double py(double up) {
      return top - up * scale;
    }
  }

  /**
   * Draws into a buffer.
   *
   * @param section the box, with what sits in its walls
   * @param told openings that the section has already cut out of its boards
   */
  SectionDrawing(
      Sheet sheet, BoxSection section, List<Opening> told, Frame frame, StringBuilder out) {
    this.sheet = sheet;
    this.section = section;
    this.told = told;
    this.frame = frame;
    this.out = out;
  }

  /** Extent of a section: least and greatest x, least and greatest y, m. */
  static double[] extent(BoxSection section) {
    return extent(section.pieces().stream());
  }

  /** The same without what it stands on. */
  static double[] extentOfBox(BoxSection section) {
    return extent(section.pieces().stream().filter(p -> p.part() != Part.FOOT));
  }

  private static double[] extent(Stream<Piece> pieces) {
    List<Point> all = pieces.flatMap(p -> p.outline().stream()).toList();
    return new double[] {
      all.stream().mapToDouble(Point::x).min().orElse(0),
      all.stream().mapToDouble(Point::x).max().orElse(0),
      all.stream().mapToDouble(Point::y).min().orElse(0),
      all.stream().mapToDouble(Point::y).max().orElse(0)
    };
  }

  void draw() {
    for (Part part : ORDER) {
      section.pieces().stream().filter(p -> p.part() == part).forEach(this::piece);
    }
    for (Opening opening : section.openings()) {
      if (!told.contains(opening)) {
        block("air", opening, -JUST, front() + 2 * JUST, 0, opening.diameter());
      }
      switch (opening.what()) {
        case "drive unit" -> driveUnit(opening);
        case "port" -> port(opening);
        case "passive radiator" -> radiator(opening);
        default -> plate(opening);
      }
    }
  }

  static String style(Part part) {
    return part.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private void piece(Piece piece) {
    StringBuilder d = new StringBuilder();
    for (Point p : piece.outline()) {
      d.append(d.isEmpty() ? "M" : "L").append(place(p));
    }
    if (piece.outline().size() > 2) {
      d.append('Z');
    }
    path(style(piece.part()), d.toString());
  }

  private void path(String style, String d) {
    out.append("<path class=\"").append(style).append("\" d=\"").append(d).append("\"/>");
  }

  private String place(Point p) {
    return String.format(Locale.ROOT, "%.1f %.1f", frame.px(p.x()), frame.py(p.y()));
  }

  /** A place given from an opening's middle: inwards, and to the left of that; m. */
  static Point at(Opening opening, double in, double aside) {
    Point inwards = opening.inwards();
    return opening
        .face()
        .plus(inwards.times(in))
        .plus(new Point(-inwards.y(), inwards.x(), 0).times(aside));
  }

  private String place(Opening opening, double in, double aside) {
    return place(at(opening, in, aside));
  }

  private void line(String style, Opening o, double... inAside) {
    StringBuilder d = new StringBuilder();
    for (int i = 0; i < inAside.length; i += 2) {
      d.append(i == 0 ? "M" : "L").append(place(o, inAside[i], inAside[i + 1]));
    }
    path(style, d.toString());
  }

  private void block(String style, Opening o, double in, double deep, double aside, double high) {
    path(
        style,
        "M"
            + place(o, in, aside + high / 2)
            + "L"
            + place(o, in + deep, aside + high / 2)
            + "L"
            + place(o, in + deep, aside - high / 2)
            + "L"
            + place(o, in, aside - high / 2)
            + "Z");
  }

  private double pistonDiameter(Opening opening) {
    return sheet
        .driveUnit()
        .pistonDiameter()
        .map(SectionDrawing::metres)
        .orElse(opening.diameter() / 1.1);
  }

  private static double metres(Reading reading) {
    return reading.estimate().value();
  }

  private double front() {
    return sheet
        .box()
        .flatMap(b -> b.baffle().or(b::wall))
        .map(SectionDrawing::metres)
        .orElse(USUAL_BOARD);
  }

  /** How far behind the outer face the frame of a drive unit lies, m. */
  static double seat(Sheet sheet) {
    return sheet.box().flatMap(BoxReadings::baffle).map(b -> 0.35 * metres(b)).orElse(0.006);
  }

  /** Surround, cone, coil and magnet in proportions usual for the size (common practice). */
  private void driveUnit(Opening o) {
    double d = pistonDiameter(o);
    double deep = 0.30 * d;
    double neck = 0.14 * d;
    double face = seat(sheet);
    for (int side : new int[] {1, -1}) {
      line("frame", o, face, side * 0.56 * d, face + deep + 0.06 * d, side * 0.26 * d);
      line("cone", o, face + 0.01, side * 0.47 * d, face + deep, side * neck);
      path(
          "surround",
          "M"
              + place(o, face, side * 0.54 * d)
              + String.format(
                  Locale.ROOT,
                  "A%.1f %.1f 0 0 %d ",
                  0.04 * d * frame.scale(),
                  0.04 * d * frame.scale(),
                  side > 0 ? 0 : 1)
              + place(o, face + 0.01, side * 0.46 * d));
    }
    path(
        "cap",
        "M"
            + place(o, face + deep - 0.03 * d, 0.17 * d)
            + "Q"
            + place(o, face + deep - 0.16 * d, 0)
            + " "
            + place(o, face + deep - 0.03 * d, -0.17 * d));
    block("coil", o, face + deep, 0.16 * d, 0, 2 * neck);
    block("magnet", o, face + deep + 0.07 * d, 0.13 * d, 0, 0.58 * d);
  }

  private void port(Opening o) {
    Optional<Sheet.PortReadings> port = sheet.box().flatMap(BoxReadings::port);
    double length = port.map(p -> metres(p.length())).orElse(0.0);
    double room = depth(o);
    double shown = Math.min(length, room - 0.01);
    double half = port.flatMap(p -> p.diameter().or(p::height)).map(r -> metres(r) / 2).orElse(0.0);
    if (half > 0 && shown > 0) {
      block("tube", o, 0, shown, half + TUBE_WALL / 2, TUBE_WALL);
      block("tube", o, 0, shown, -half - TUBE_WALL / 2, TUBE_WALL);
    }
  }

  /** How far the box reaches inwards of an opening, m. */
  private double depth(Opening o) {
    return section.pieces().stream()
        .flatMap(p -> p.outline().stream())
        .mapToDouble(p -> p.minus(o.face()).dot(o.inwards()))
        .max()
        .orElse(0);
  }

  private void radiator(Opening o) {
    double d = o.diameter() / 1.06;
    path(
        "cone", "M" + place(o, 0, d / 2) + "Q" + place(o, 0.06 * d, 0) + " " + place(o, 0, -d / 2));
  }

  /** A plate over a cut-out: an amplifier's, or terminals. */
  private void plate(Opening o) {
    block("plate", o, -0.003, 0.003, 0, 1.1 * o.diameter());
  }

  /**
   * Openings of the walls that the sheet lists, and where it does not, what it must have in its
   * front: a drive unit, a port or a passive radiator, placed where they fit.
   *
   * @param face x of the front's outer face, m
   * @param low lower outer edge, m
   * @param high upper outer edge, m
   */
  static List<Opening> openings(
      Sheet sheet, BoxSection section, double face, double low, double high) {
    List<Opening> out = new ArrayList<>(section.openings());
    Point in = new Point(1, 0, 0);
    double d = sheet.driveUnit().pistonDiameter().map(SectionDrawing::metres).orElse(0.15);
    Optional<Opening> unit = named(out, "drive unit");
    if (unit.isEmpty()) {
      double wanted =
          sheet
              .driveUnit()
              .height()
              .map(h -> low + metres(h))
              .orElse(high - USUAL_BOARD - 0.62 * d);
      double up =
          Math.max(low + USUAL_BOARD + 0.55 * d, Math.min(high - USUAL_BOARD - 0.55 * d, wanted));
      unit = Optional.of(new Opening("drive unit", new Point(face, up, 0), in, 1.06 * d));
      out.add(unit.get());
    }
    double under = unit.get().face().y() - 0.58 * d;
    sheet
        .box()
        .flatMap(BoxReadings::port)
        .filter(p -> named(out, "port").isEmpty())
        .ifPresent(
            p -> {
              double w = metres(p.diameter().or(p::height).orElseThrow());
              double lowest = low + 0.02 + w / 2;
              double up = Math.max(lowest, (under - w / 2 + lowest) / 2);
              out.add(new Opening("port", new Point(face, up, 0), in, w));
            });
    sheet
        .box()
        .flatMap(BoxReadings::radiator)
        .ifPresent(
            r -> {
              double size = metres(r.pistonDiameter());
              double up = low + USUAL_BOARD + 0.6 * size;
              out.add(new Opening("passive radiator", new Point(face, up, 0), in, 1.06 * size));
            });
    return out;
  }

  static Optional<Opening> named(List<Opening> openings, String what) {
    return openings.stream().filter(o -> o.what().equals(what)).findFirst();
  }
}
