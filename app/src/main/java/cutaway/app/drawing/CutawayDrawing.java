package cutaway.app.drawing;

import cutaway.acoustics.cabinet.Point;
import cutaway.app.typeset.Typeset;
import cutaway.bench.exam.BoxSection;
import cutaway.bench.exam.BoxSection.Opening;
import cutaway.bench.exam.BoxSection.Part;
import cutaway.bench.exam.BoxSection.Piece;
import cutaway.bench.exam.BoxSection.View;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Shown;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The unit cut open from front to back and across, to scale where sizes were read, each finding
 * pinned to the part it speaks of.
 *
 * <p>What the sheet gives is drawn at its size and place: walls, braces, linings, drive unit, port.
 * Where the sheet does not say how high a part sits, it is placed where it fits.
 */
public final class CutawayDrawing {
  private static final double WIDTH = 760;
  private static final double MARGIN = 26;
  private static final double SIDE = 210;
  private static final double TALLEST = 400;

  /** Between the side view and the one from above. */
  private static final double GAP = 64;

  private static final Map<Part, String> WORDS =
      Map.of(
          Part.BOARD, "board, cut",
          Part.BRACE, "batten or brace, cut",
          Part.LINING, "lining, cut",
          Part.SHEET, "damping sheet",
          Part.BRACE_BEYOND, "batten or brace behind",
          Part.LINING_BEYOND, "lining behind",
          Part.FOOT, "foot");

  private final Sheet sheet;
  private final Findings findings;
  private final StringBuilder out = new StringBuilder();
  private final List<Opening> told;
  private final BoxSection side;
  private final Optional<BoxSection> above;
  private final SectionDrawing.Frame frame;
  private final double bottom;

  private CutawayDrawing(Sheet sheet, Findings findings) {
    this.sheet = sheet;
    this.findings = findings;
    Optional<BoxSection> cut = BoxSection.of(sheet, findings, View.SIDE);
    BoxSection bare = cut.orElseGet(this::supposed);
    this.told = bare.openings();
    this.side = furnished(bare);
    this.above = cut.flatMap(c -> BoxSection.of(sheet, findings, View.ABOVE));
    double[] e = SectionDrawing.extent(side);
    double d = diameter();
    double wide = Math.max(e[1] - e[0], 0.6 * d);
    double tall = Math.max(e[3] - e[2], 1.2 * d);
    double scale = Math.min((WIDTH - 2 * SIDE - 2 * MARGIN) / wide, (TALLEST - 2 * MARGIN) / tall);
    double middle = boxed() ? (e[0] + e[1]) / 2 : 0.25 * d;
    double high = boxed() ? e[3] : unit().face().y() + tall / 2;
    this.frame = new SectionDrawing.Frame(scale, WIDTH / 2 - middle * scale, MARGIN + high * scale);
    this.bottom = MARGIN + tall * scale;
  }

  /** The drawing as an {@code svg} element. */
  public static String of(Sheet sheet, Findings findings) {
    CutawayDrawing drawing = new CutawayDrawing(sheet, findings);
    drawing.draw();
    return drawing.out.toString();
  }

  private double diameter() {
    return sheet.driveUnit().pistonDiameter().map(r -> r.estimate().value()).orElse(0.15);
  }

  private double portHeight() {
    return sheet
        .box()
        .flatMap(BoxReadings::port)
        .flatMap(p -> p.diameter().or(p::height))
        .map(r -> r.estimate().value())
        .orElse(0.0);
  }

  private boolean boxed() {
    return sheet.box().isPresent();
  }

  private Opening unit() {
    return SectionDrawing.named(side.openings(), "drive unit").orElseThrow();
  }

  /** With what must sit in the front though the sheet lists no cut-out for it. */
  private BoxSection furnished(BoxSection section) {
    double[] e = SectionDrawing.extentOfBox(section);
    return new BoxSection(
        section.pieces(), SectionDrawing.openings(sheet, section, e[0], e[2], e[3]));
  }

  /** A box of which no size was read, about its drive unit; nothing where there is no box. */
  private BoxSection supposed() {
    List<Piece> pieces = new ArrayList<>();
    if (boxed()) {
      double wall = SectionDrawing.USUAL_BOARD;
      double d = diameter();
      double deep = d + 2 * wall;
      double tall = 1.5 * d + 2 * wall + 1.5 * portHeight();
      pieces.add(board("front", 0, wall, 0, tall));
      pieces.add(board("back", deep - wall, deep, 0, tall));
      pieces.add(board("bottom", wall, deep - wall, 0, wall));
      pieces.add(board("top", wall, deep - wall, tall - wall, tall));
    }
    return new BoxSection(pieces, List.of());
  }

  private static Piece board(String wall, double from, double to, double low, double high) {
    return new Piece(
        Part.BOARD,
        wall,
        List.of(
            new Point(from, low, 0),
            new Point(to, low, 0),
            new Point(to, high, 0),
            new Point(from, high, 0)));
  }

  /** Only what was measured is to scale. */
  private String scaleWords() {
    boolean unit = sheet.driveUnit().pistonDiameter().isPresent();
    boolean box = above.isPresent();
    if (unit && (box || !boxed())) {
      return "to scale";
    }
    return unit || box ? "to scale where sizes were read" : "not to scale: no size was read";
  }

  /** Px down to the end of the pins' room. */
  private double pinned() {
    return bottom + MARGIN + 26;
  }

  private void draw() {
    StringBuilder body = new StringBuilder();
    new SectionDrawing(sheet, side, told, frame, body).draw();
    double y = bottom + 24;
    scaleBar(body, y);
    y += 30;
    if (above.isPresent()) {
      y = plan(body, above.get(), y + GAP - 30);
    }
    y = legend(body, y);
    out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"cutaway\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"%s\">",
            WIDTH,
            y,
            Typeset.escaped(
                sheet.unit().name()
                    + " cut open from front to back, "
                    + scaleWords()
                    + ", with its main findings")));
    out.append(body);
    pins();
    out.append("</svg>");
  }

  /** The view from above, under the side view at the same scale. */
  private double plan(StringBuilder body, BoxSection plan, double y) {
    double[] e = SectionDrawing.extent(plan);
    SectionDrawing.Frame under =
        new SectionDrawing.Frame(frame.scale(), frame.left(), y + e[3] * frame.scale());
    List<Opening> shown = new ArrayList<>(plan.openings());
    if (SectionDrawing.named(told, "drive unit").isEmpty()) {
      Point middle = new Point(e[0], (e[2] + e[3]) / 2, 0);
      shown.add(new Opening("drive unit", middle, new Point(1, 0, 0), 1.06 * diameter()));
    }
    // what lies under the drive unit would be drawn over it
    shown.removeIf(o -> o.what().equals("port"));
    body.append(text("scale-text", frame.px(e[0]), y - 12, "from above, the left wall uppermost"));
    BoxSection drawn = new BoxSection(plan.pieces(), shown);
    new SectionDrawing(sheet, drawn, plan.openings(), under, body).draw();
    return y + (e[3] - e[2]) * frame.scale() + MARGIN;
  }

  /** What the tints and hatchings stand for, of those that are there. */
  private double legend(StringBuilder body, double y) {
    List<Part> there =
        Stream.concat(side.pieces().stream(), above.stream().flatMap(a -> a.pieces().stream()))
            .map(Piece::part)
            .distinct()
            .filter(WORDS::containsKey)
            .sorted(Comparator.comparing(Part::ordinal))
            .collect(Collectors.toList());
    if (there.size() < 2) {
      return y;
    }
    double x = MARGIN;
    double row = y + 12;
    for (Part part : there) {
      String words = WORDS.getOrDefault(part, "");
      double need = 40 + 6.4 * words.length();
      if (x + need > WIDTH - MARGIN) {
        x = MARGIN;
        row += 24;
      }
      body.append(
          String.format(
              Locale.ROOT,
              "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"20\" height=\"12\"/>",
              SectionDrawing.style(part),
              x,
              row - 10));
      body.append(text("scale-text", x + 27, row, words));
      x += need;
    }
    return row + 16;
  }

  private void scaleBar(StringBuilder body, double y) {
    double start = boxed() ? frame.px(SectionDrawing.extent(side)[0]) : frame.px(0);
    String words = "100 mm (3.9 in), " + scaleWords();
    double need = 0.1 * frame.scale() + 8 + 6.6 * words.length();
    double x = Math.max(MARGIN, Math.min(start, WIDTH - MARGIN - need));
    body.append(
        String.format(
            Locale.ROOT,
            "<path class=\"scale\" d=\"M%.1f %.1fv8M%.1f %.1fh%.1fM%.1f %.1fv8\"/>"
                + "<text class=\"scale-text\" x=\"%.1f\" y=\"%.1f\">%s</text>",
            x,
            y - 4,
            x,
            y,
            0.1 * frame.scale(),
            x + 0.1 * frame.scale(),
            y - 4,
            x + 0.1 * frame.scale() + 8,
            y + 4,
            words));
  }

  private record Pin(String title, List<String> ids, double x, double y, boolean onLeft) {}

  private Pin pin(String title, List<String> ids, Point at, boolean onLeft) {
    return new Pin(title, ids, frame.px(at.x()), frame.py(at.y()), onLeft);
  }

  private void pins() {
    List<Pin> pins = new ArrayList<>();
    double d = diameter();
    double face = SectionDrawing.seat(sheet);
    double[] e = SectionDrawing.extentOfBox(side);
    Opening unit = unit();
    pins.add(
        pin(
            "Diaphragm",
            List.of("drive-unit.sd", "drive-unit.mms", "drive-unit.fs"),
            SectionDrawing.at(unit, face + 0.1 * d, 0.37 * d),
            true));
    pins.add(
        pin(
            "Motor and coil",
            List.of("drive-unit.bl", "drive-unit.re", "drive-unit.qts"),
            SectionDrawing.at(unit, face + 0.44 * d, -0.05 * d),
            false));
    if (findings.finding("box.volume").isPresent() || findings.finding("box.fc").isPresent()) {
      pins.add(
          pin(
              "Air in the box",
              List.of("box.volume", "box.fc", "box.qtc", "box.ql"),
              new Point(e[0] + 0.82 * (e[1] - e[0]), e[2] + 0.78 * (e[3] - e[2]), 0),
              false));
    }
    boolean radiator = sheet.box().flatMap(BoxReadings::radiator).isPresent();
    Optional<Opening> port =
        SectionDrawing.named(side.openings(), radiator ? "passive radiator" : "port");
    if (findings.finding("box.fb").isPresent() && port.isPresent()) {
      pins.add(
          pin(
              radiator ? "Passive radiator" : "Port",
              List.of("box.fb", "box.port-mass", "box.radiator-mass"),
              SectionDrawing.at(port.get(), 0.006, 0),
              true));
    }
    if (findings.finding("response.f3").isPresent()) {
      pins.add(
          pin(
              "Out at the front",
              List.of("response.f3", "drive-unit.sensitivity-voltage"),
              new Point(e[0] - 6 / frame.scale(), e[2] + 0.52 * (e[3] - e[2]), 0),
              true));
    }
    walls(e).ifPresent(pins::add);
    place(pins.stream().filter(Pin::onLeft).toList(), true);
    place(pins.stream().filter(p -> !p.onLeft()).toList(), false);
  }

  /** The back, where what it does was found. */
  private Optional<Pin> walls(double[] e) {
    return findings.finding("walls.back.resonance").isEmpty()
        ? Optional.empty()
        : Optional.of(
            pin(
                "Back wall",
                List.of("walls.back.resonance", "walls.back.level"),
                new Point(e[1] - 0.004, e[2] + 0.2 * (e[3] - e[2]), 0),
                false));
  }

  private record Placed(Pin pin, List<String> lines, double y) {}

  private void place(List<Pin> pins, boolean onLeft) {
    List<Pin> sorted = new ArrayList<>(pins);
    sorted.sort(Comparator.comparingDouble(Pin::y));
    double y = 16;
    List<Placed> placed = new ArrayList<>();
    for (Pin pin : sorted) {
      List<String> lines = lines(pin);
      if (lines.isEmpty()) {
        continue;
      }
      double need = 20 + 18.0 * lines.size();
      double at = Math.max(y, pin.y() - need / 2);
      placed.add(new Placed(pin, lines, at));
      y = at + need + 10;
    }
    double over = Math.max(0, y - pinned());
    for (Placed p : placed) {
      pin(p, p.y() - over, onLeft);
    }
  }

  private List<String> lines(Pin pin) {
    List<String> out = new ArrayList<>();
    for (String id : pin.ids()) {
      findings.finding(id).map(CutawayDrawing::line).ifPresent(out::add);
    }
    return out;
  }

  private static String line(Finding f) {
    return f.symbol() + " " + Shown.of(f).text();
  }

  private void pin(Placed p, double y, boolean onLeft) {
    double x = onLeft ? 4 : WIDTH - 4;
    String anchor = onLeft ? "" : " end";
    double edge = onLeft ? 172 : WIDTH - 172;
    out.append(
        String.format(
            Locale.ROOT,
            "<path class=\"leader\" d=\"M%.1f %.1fL%.1f %.1f\"/><circle class=\"pin\" cx=\"%.1f\""
                + " cy=\"%.1f\" r=\"4\"/>",
            edge,
            y + 8,
            p.pin().x(),
            p.pin().y(),
            p.pin().x(),
            p.pin().y()));
    out.append(text("pin-title" + anchor, x, y + 12, p.pin().title()));
    for (int i = 0; i < p.lines().size(); i++) {
      out.append(text("pin-line" + anchor, x, y + 31 + 18 * i, p.lines().get(i)));
    }
  }

  private static String text(String style, double x, double y, String text) {
    return String.format(
        Locale.ROOT,
        "<text class=\"%s\" x=\"%.1f\" y=\"%.1f\">%s</text>",
        style,
        x,
        y,
        Typeset.svg(text));
  }
}
