package cutaway.app.drawing;

import cutaway.app.typeset.Typeset;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Shown;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.Lining;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The unit cut open from front to back, to scale where sizes were read, each finding pinned to the
 * part it speaks of.
 *
 * <p>What the sheet gives is drawn at its size: walls, drive unit, port. Where the sheet does not
 * say how high a part sits, it is placed where it fits.
 */
public final class CutawayDrawing {
  private static final double WIDTH = 760;
  private static final double MARGIN = 26;
  private static final double SIDE = 210;
  private static final double TALLEST = 400;

  private final Sheet sheet;
  private final Findings findings;
  private final StringBuilder out = new StringBuilder();
  private final double wall;
  private final double front;
  private final double innerHeight;
  private final double innerDepth;
  private final double scale;
  private final double left;
  private final double top;

  private CutawayDrawing(Sheet sheet, Findings findings) {
    this.sheet = sheet;
    this.findings = findings;
    Optional<BoxReadings> box = sheet.box();
    this.wall = box.flatMap(BoxReadings::wall).map(CutawayDrawing::metres).orElse(0.016);
    this.front = box.flatMap(BoxReadings::baffle).map(CutawayDrawing::metres).orElse(wall);
    Optional<Sheet.Size> inner = box.flatMap(BoxReadings::inner);
    Optional<Sheet.Size> outer = box.flatMap(BoxReadings::outer);
    double d = diameter();
    this.innerHeight =
        inner
            .map(s -> metres(s.height()))
            .or(() -> outer.map(s -> metres(s.height()) - 2 * wall))
            .filter(h -> h > 0)
            .orElse(1.5 * d);
    this.innerDepth =
        inner
            .map(s -> metres(s.depth()))
            .or(() -> outer.map(s -> metres(s.depth()) - front - wall))
            .filter(h -> h > 0)
            .orElse(d);
    double fullDepth = innerDepth + front + wall;
    double fullHeight = innerHeight + 2 * wall;
    this.scale =
        Math.min((WIDTH - 2 * SIDE - 2 * MARGIN) / fullDepth, (TALLEST - 2 * MARGIN) / fullHeight);
    this.left = (WIDTH - fullDepth * scale) / 2;
    this.top = MARGIN;
  }

  private static double metres(Reading reading) {
    return reading.estimate().value();
  }

  /** The drawing as an {@code svg} element. */
  public static String of(Sheet sheet, Findings findings) {
    CutawayDrawing drawing = new CutawayDrawing(sheet, findings);
    drawing.draw();
    return drawing.out.toString();
  }

  private double diameter() {
    return sheet.driveUnit().pistonDiameter().map(CutawayDrawing::metres).orElse(0.15);
  }

  private boolean boxed() {
    return sheet.box().isPresent();
  }

  /** Only what was measured is to scale. */
  private String scaleWords() {
    boolean unit = sheet.driveUnit().pistonDiameter().isPresent();
    boolean box =
        sheet.box().flatMap(BoxReadings::inner).isPresent()
            || sheet.box().flatMap(BoxReadings::outer).isPresent();
    if (unit && (box || !boxed())) {
      return "to scale";
    }
    return unit || box ? "to scale where sizes were read" : "not to scale: no size was read";
  }

  private double fullHeight() {
    return innerHeight + 2 * wall;
  }

  private double height() {
    return fullHeight() * scale + 2 * MARGIN + 26;
  }

  /** Px across from metres behind the front face. */
  private double px(double depth) {
    return left + depth * scale;
  }

  /** Px down from metres above the bottom of the box. */
  private double py(double above) {
    return top + (fullHeight() - above) * scale;
  }

  private double unitHeight() {
    double d = diameter();
    double wanted =
        sheet
            .driveUnit()
            .height()
            .map(CutawayDrawing::metres)
            .orElse(fullHeight() - wall - 0.62 * d);
    return Math.max(wall + 0.55 * d, Math.min(fullHeight() - wall - 0.55 * d, wanted));
  }

  private double portHeight() {
    double half = portWidth() / 2;
    double below = unitHeight() - 0.58 * diameter() - half;
    return below > wall + half ? (below + wall + half) / 2 : wall + half + 0.004;
  }

  private double portWidth() {
    return sheet
        .box()
        .flatMap(BoxReadings::port)
        .map(p -> metres(p.diameter().or(p::height).orElseThrow()))
        .orElse(0.0);
  }

  private void draw() {
    out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"cutaway\" viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"%s\">",
            WIDTH,
            height(),
            Typeset.escaped(
                sheet.unit().name()
                    + " cut open from front to back, "
                    + scaleWords()
                    + ", with its main findings")));
    out.append(
        "<defs><pattern id=\"hatch\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\""
            + " patternTransform=\"rotate(45)\"><line class=\"hatch\" x1=\"0\" y1=\"0\" x2=\"0\""
            + " y2=\"6\"/></pattern></defs>");
    if (boxed()) {
      box();
      lining();
      port();
    }
    driveUnit();
    scaleBar();
    pins();
    out.append("</svg>");
  }

  private void box() {
    double full = innerDepth + front + wall;
    out.append(
        String.format(
            Locale.ROOT,
            "<path class=\"wall\" fill-rule=\"evenodd\" d=\"M%.1f %.1fH%.1fV%.1fH%.1fZ"
                + "M%.1f %.1fV%.1fH%.1fV%.1fZ\"/>",
            px(0),
            py(fullHeight()),
            px(full),
            py(0),
            px(0),
            px(front),
            py(fullHeight() - wall),
            py(wall),
            px(front + innerDepth),
            py(fullHeight() - wall)));
    opening(unitHeight(), 1.06 * diameter());
  }

  /** Takes a hole out of the front. */
  private void opening(double at, double size) {
    rect("air", px(0) - 1, py(at + size / 2), front * scale + 2, size * scale);
  }

  private void rect(String style, double x, double y, double w, double h) {
    out.append(
        String.format(
            Locale.ROOT,
            "<rect class=\"%s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>",
            style,
            x,
            y,
            w,
            h));
  }

  private void lining() {
    Lining lining = sheet.box().map(BoxReadings::lining).orElse(Lining.NONE);
    double in = 0.012;
    if (lining == Lining.LINED_WALLS) {
      rect(
          "lining",
          px(front + innerDepth - 2 * in),
          py(fullHeight() - wall),
          2 * in * scale,
          innerHeight * scale);
    } else if (lining != Lining.NONE) {
      rect(
          "lining",
          px(front + in),
          py(fullHeight() - wall - in),
          (innerDepth - 2 * in) * scale,
          (innerHeight - 2 * in) * scale);
    }
  }

  private void port() {
    Optional<Sheet.PortReadings> port = sheet.box().flatMap(BoxReadings::port);
    port.ifPresent(
        p -> {
          double w = portWidth();
          double length = metres(p.length());
          double at = portHeight();
          opening(at, w);
          double shown = Math.min(length, front + innerDepth - 0.01);
          double tube = 0.003;
          rect("tube", px(0), py(at + w / 2 + tube), shown * scale, tube * scale);
          rect("tube", px(0), py(at - w / 2), shown * scale, tube * scale);
        });
    sheet
        .box()
        .flatMap(BoxReadings::radiator)
        .ifPresent(
            r -> {
              double d = metres(r.pistonDiameter());
              double at = wall + 0.6 * d;
              opening(at, 1.06 * d);
              out.append(
                  String.format(
                      Locale.ROOT,
                      "<path class=\"cone\" d=\"M%.1f %.1fQ%.1f %.1f %.1f %.1f\"/>",
                      px(0),
                      py(at + d / 2),
                      px(0.06 * d),
                      py(at),
                      px(0),
                      py(at - d / 2)));
            });
  }

  /** Surround, cone, coil and magnet in proportions usual for the size (common practice). */
  private void driveUnit() {
    double d = diameter();
    double at = unitHeight();
    double deep = 0.30 * d;
    double neck = 0.14 * d;
    double face = boxed() ? front * 0.35 : 0.016;
    path("frame", face, at + 0.56 * d, face + deep + 0.06 * d, at + 0.26 * d);
    path("frame", face, at - 0.56 * d, face + deep + 0.06 * d, at - 0.26 * d);
    for (int side : new int[] {1, -1}) {
      out.append(
          String.format(
              Locale.ROOT,
              "<path class=\"cone\" d=\"M%.1f %.1fL%.1f %.1f\"/>",
              px(face + 0.01),
              py(at + side * 0.47 * d),
              px(face + deep),
              py(at + side * neck)));
      out.append(
          String.format(
              Locale.ROOT,
              "<path class=\"surround\" d=\"M%.1f %.1fA%.1f %.1f 0 0 %d %.1f %.1f\"/>",
              px(face),
              py(at + side * 0.54 * d),
              0.04 * d * scale,
              0.04 * d * scale,
              side > 0 ? 0 : 1,
              px(face + 0.01),
              py(at + side * 0.46 * d)));
    }
    out.append(
        String.format(
            Locale.ROOT,
            "<path class=\"cap\" d=\"M%.1f %.1fQ%.1f %.1f %.1f %.1f\"/>",
            px(face + deep - 0.03 * d),
            py(at + 0.17 * d),
            px(face + deep - 0.16 * d),
            py(at),
            px(face + deep - 0.03 * d),
            py(at - 0.17 * d)));
    rect("coil", px(face + deep), py(at + neck), 0.16 * d * scale, 2 * neck * scale);
    rect(
        "magnet",
        px(face + deep + 0.07 * d),
        py(at + 0.29 * d),
        0.13 * d * scale,
        0.58 * d * scale);
  }

  private void path(String style, double x1, double y1, double x2, double y2) {
    out.append(
        String.format(
            Locale.ROOT,
            "<path class=\"%s\" d=\"M%.1f %.1fL%.1f %.1f\"/>",
            style,
            px(x1),
            py(y1),
            px(x2),
            py(y2)));
  }

  private void scaleBar() {
    double y = top + fullHeight() * scale + 24;
    double x = px(0);
    out.append(
        String.format(
            Locale.ROOT,
            "<path class=\"scale\" d=\"M%.1f %.1fv8M%.1f %.1fh%.1fM%.1f %.1fv8\"/>"
                + "<text class=\"scale-text\" x=\"%.1f\" y=\"%.1f\">100 mm (3.9 in), %s</text>",
            x,
            y - 4,
            x,
            y,
            0.1 * scale,
            x + 0.1 * scale,
            y - 4,
            x + 0.1 * scale + 8,
            y + 4,
            scaleWords()));
  }

  private record Pin(String title, List<String> ids, double x, double y, boolean onLeft) {}

  private void pins() {
    List<Pin> pins = new ArrayList<>();
    double d = diameter();
    double at = unitHeight();
    double face = boxed() ? front * 0.35 : 0.016;
    pins.add(
        new Pin(
            "Diaphragm",
            List.of("drive-unit.sd", "drive-unit.mms", "drive-unit.fs"),
            px(face + 0.1 * d),
            py(at + 0.37 * d),
            true));
    pins.add(
        new Pin(
            "Motor and coil",
            List.of("drive-unit.bl", "drive-unit.re", "drive-unit.qts"),
            px(face + 0.44 * d),
            py(at - 0.05 * d),
            false));
    if (findings.finding("box.volume").isPresent() || findings.finding("box.fc").isPresent()) {
      pins.add(
          new Pin(
              "Air in the box",
              List.of("box.volume", "box.fc", "box.qtc", "box.ql"),
              px(front + 0.85 * innerDepth),
              py(fullHeight() - wall - 0.12 * innerHeight),
              false));
    }
    if (findings.finding("box.fb").isPresent()) {
      pins.add(
          new Pin(
              sheet.box().flatMap(BoxReadings::radiator).isPresent() ? "Passive radiator" : "Port",
              List.of("box.fb", "box.port-mass", "box.radiator-mass"),
              px(0.3 * front),
              py(portHeight()),
              true));
    }
    if (findings.finding("response.f3").isPresent()) {
      pins.add(
          new Pin(
              "Out at the front",
              List.of("response.f3", "drive-unit.sensitivity-voltage"),
              px(0) - 6,
              py(fullHeight() * 0.52),
              true));
    }
    place(pins.stream().filter(Pin::onLeft).toList(), true);
    place(pins.stream().filter(p -> !p.onLeft()).toList(), false);
  }

  private record Placed(Pin pin, List<String> lines, double y) {}

  private void place(List<Pin> pins, boolean onLeft) {
    List<Pin> sorted = new ArrayList<>(pins);
    sorted.sort(java.util.Comparator.comparingDouble(Pin::y));
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
    double over = Math.max(0, y - height());
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
