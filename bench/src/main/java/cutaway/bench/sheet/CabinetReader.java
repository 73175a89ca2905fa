package cutaway.bench.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import cutaway.acoustics.board.Material;
import cutaway.acoustics.board.MaterialTable;
import cutaway.acoustics.board.Range;
import cutaway.acoustics.cabinet.DampingSheet;
import cutaway.acoustics.cabinet.FootMaterial;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.CabinetReadings.Back;
import cutaway.bench.sheet.CabinetReadings.BraceReadings;
import cutaway.bench.sheet.CabinetReadings.CutOutReadings;
import cutaway.bench.sheet.CabinetReadings.DampingReadings;
import cutaway.bench.sheet.CabinetReadings.FeetReadings;
import cutaway.bench.sheet.CabinetReadings.LiningReadings;
import cutaway.bench.sheet.CabinetReadings.Pulled;
import cutaway.bench.sheet.CabinetReadings.WallReadings;
import cutaway.bench.sheet.CabinetReadings.WindowBraceReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Reads the part of a sheet that tells shape and walls of the box. */
final class CabinetReader {
  private static final Range SOME_LOSS = new Range(0.01, 0.04);

  /** A point this near the line between its neighbours is no corner, m. */
  private static final double STRAIGHT = 1e-4;

  private static final double THINNEST = 2e-4;
  private static final double THICKEST = 0.3;

  private final SheetReader reader;

  CabinetReader(SheetReader reader) {
    this.reader = reader;
  }

  CabinetReadings read() {
    List<Material> materials = materials();
    List<WallReadings> walls = new ArrayList<>();
    for (int i = 0; i < reader.at("/box/walls").size(); i++) {
      wall("/box/walls/" + i, materials, walls);
    }
    return new CabinetReadings(
        back(),
        points("/box/corners"),
        outline(),
        walls,
        windowBraces(materials),
        feet(),
        materials,
        reader.positive("/box/amplifier-mass"),
        reader.positive("/box/hardware-mass"),
        reader.within("/box/board-density", 20, 20000));
  }

  private Optional<Back> back() {
    String b = "/box/back/";
    return reader.at("/box/back").isObject()
        ? Optional.of(
            new Back(
                reader.within(b + "width", 0.01, 5),
                reader.within(b + "height", 0.01, 5),
                reader.quantity(b + "left"),
                reader.quantity(b + "bottom")))
        : Optional.empty();
  }

  private Optional<Pulled> outline() {
    return reader
        .within("/box/outline/height", 0.01, 5)
        .map(h -> new Pulled(turning(open(points("/box/outline/points"))), h));
  }

  /** Says which point is none of its corners. */
  private List<Point> turning(List<Point> outline) {
    int n = outline.size();
    for (int i = 0; i < n; i++) {
      Point along = outline.get((i + 1) % n).minus(outline.get((i + n - 1) % n));
      Point to = outline.get(i).minus(outline.get((i + n - 1) % n));
      boolean on = along.dot(to) > 0 && along.dot(to) < along.dot(along);
      if (on && Math.abs(along.cross(to).z()) < STRAIGHT * along.length()) {
        reader.problem(
            "/box/outline/points/" + i,
            "point " + (i + 1) + " lies on the straight line between its neighbours",
            "leave it out; list its two walls as one");
      }
    }
    return outline;
  }

  /** Without a last point that is the first again. */
  private static List<Point> open(List<Point> outline) {
    int last = outline.size() - 1;
    boolean closed = last > 2 && outline.get(0).minus(outline.get(last)).length() < 1e-6;
    return closed ? outline.subList(0, last) : outline;
  }

  /** Places, each by two or three coordinates. */
  List<Point> points(String pointer) {
    List<Point> out = new ArrayList<>();
    for (int i = 0; i < reader.at(pointer).size(); i++) {
      out.add(point(pointer + "/" + i));
    }
    return out;
  }

  private Point point(String pointer) {
    double[] at = new double[3];
    for (int axis = 0; axis < Math.min(3, reader.at(pointer).size()); axis++) {
      at[axis] = reader.quantity(pointer + "/" + axis).map(r -> r.estimate().value()).orElse(0.0);
    }
    return new Point(at[0], at[1], at[2]);
  }

  private List<Material> materials() {
    List<Material> out = new ArrayList<>();
    for (int i = 0; i < reader.at("/box/materials").size(); i++) {
      String p = "/box/materials/" + i;
      Optional<Range> density = range(p + "/density");
      Optional<Range> modulus = range(p + "/modulus");
      JsonNode loss = reader.at(p + "/loss");
      if (density.isPresent() && modulus.isPresent()) {
        boolean told = loss.size() == 2 && loss.get(0).asDouble() <= loss.get(1).asDouble();
        out.add(
            new Material(
                reader.text(p + "/name"),
                density.get(),
                modulus.get(),
                1,
                0.3,
                told ? new Range(loss.get(0).asDouble(), loss.get(1).asDouble()) : SOME_LOSS,
                true,
                reader.text(p + "/source")));
      }
    }
    return out;
  }

  private Optional<Range> range(String pointer) {
    Optional<Reading> low = reader.positive(pointer + "/0");
    Optional<Reading> high = reader.positive(pointer + "/1");
    if (low.isEmpty() || high.isEmpty()) {
      return Optional.empty();
    }
    double from = low.get().estimate().value();
    double to = high.get().estimate().value();
    if (to < from) {
      reader.problem(
          pointer,
          "the range goes from " + low.get().text() + " down to " + high.get().text(),
          "write the lower figure first");
      return Optional.empty();
    }
    return Optional.of(new Range(from, to));
  }

  private void wall(String p, List<Material> own, List<WallReadings> walls) {
    String name = reader.text(p + "/name");
    if (walls.stream().anyMatch(w -> w.name().equals(name))) {
      reader.problem(p + "/name", "the wall '" + name + "' is listed twice", "join the two");
    }
    List<CutOutReadings> cutOuts = new ArrayList<>();
    for (int i = 0; i < reader.at(p + "/cut-outs").size(); i++) {
      cutOut(p + "/cut-outs/" + i).ifPresent(cutOuts::add);
    }
    List<BraceReadings> braces = new ArrayList<>();
    for (int i = 0; i < reader.at(p + "/braces").size(); i++) {
      brace(p + "/braces/" + i, own).ifPresent(braces::add);
    }
    walls.add(
        new WallReadings(
            name,
            points(p + "/corners"),
            reader.within(p + "/thickness", THINNEST, THICKEST),
            material(p + "/material", own),
            cutOuts,
            braces,
            reader
                .within(p + "/lining/thickness", 5e-4, 1)
                .map(
                    t ->
                        new LiningReadings(
                            t,
                            reader.positive(p + "/lining/resistivity"),
                            reader.text(p + "/lining/kind"))),
            damping(p + "/damping")));
  }

  private Optional<DampingReadings> damping(String p) {
    Optional<Reading> thickness = reader.within(p + "/thickness", THINNEST, 0.05);
    String kind = reader.text(p + "/kind");
    return kind.isEmpty()
        ? Optional.empty()
        : thickness.map(
            t -> new DampingReadings(Words.read(kind, DampingSheet.Kind.BITUMEN_SHEET), t));
  }

  private List<WindowBraceReadings> windowBraces(List<Material> own) {
    List<WindowBraceReadings> out = new ArrayList<>();
    for (int i = 0; i < reader.at("/box/window-braces").size(); i++) {
      String p = "/box/window-braces/" + i;
      Optional<Reading> height = reader.within(p + "/height", 0.001, 5);
      Optional<Reading> thickness = reader.within(p + "/thickness", 0.001, THICKEST);
      Optional<Reading> rim = reader.within(p + "/rim", 0.005, 1);
      if (height.isPresent() && thickness.isPresent() && rim.isPresent()) {
        out.add(
            new WindowBraceReadings(
                height.get(),
                thickness.get(),
                rim.get(),
                material(p + "/material", own).stream().findFirst()));
      }
    }
    return out;
  }

  private Optional<FeetReadings> feet() {
    String p = "/box/feet";
    List<Point> at = points(p + "/at");
    Optional<Reading> inset = reader.within(p + "/inset", 0.001, 2);
    Optional<Reading> diameter = reader.within(p + "/diameter", 0.002, 1);
    Optional<Reading> height = reader.within(p + "/height", 0.001, 1);
    if (diameter.isEmpty() || height.isEmpty()) {
      return Optional.empty();
    }
    if (at.isEmpty() == inset.isEmpty()) {
      reader.problem(
          p,
          at.isEmpty() ? "where the feet stand is not told" : "where the feet stand is told twice",
          "write 'inset' for one in each corner, or 'at' with a list of their middles");
      return Optional.empty();
    }
    return Optional.of(
        new FeetReadings(
            Words.read(reader.text(p + "/material"), FootMaterial.RUBBER),
            at,
            inset,
            diameter.get(),
            height.get()));
  }

  /** One name or a list of them, each a material that is known. */
  private List<String> material(String pointer, List<Material> own) {
    List<String> names = new ArrayList<>();
    JsonNode written = reader.at(pointer);
    if (written.isTextual()) {
      names.add(written.asText());
    }
    written.forEach(n -> names.add(n.asText()));
    names.removeIf(n -> n.equals("unknown"));
    List<String> known =
        Stream.concat(own.stream(), MaterialTable.all().stream()).map(Material::name).toList();
    for (String name : names) {
      if (!known.contains(name) && !known.contains(name.replace(' ', '_'))) {
        reader.problem(
            pointer,
            "the material '" + name + "' is not known",
            Nearness.nearest(name, known)
                .map(near -> "did you mean '" + near + "'?")
                .orElse(
                    "known are " + String.join(", ", known) + "; add others under 'materials'"));
      }
    }
    return names;
  }

  private Optional<CutOutReadings> cutOut(String p) {
    Point at = point(p + "/at");
    return reader
        .within(p + "/diameter", 0.001, 2)
        .map(
            d ->
                new CutOutReadings(
                    reader.text(p + "/what"),
                    at.x(),
                    at.y(),
                    d,
                    reader.within(p + "/flange", 0.001, 2),
                    reader.positive(p + "/mass")));
  }

  private Optional<BraceReadings> brace(String p, List<Material> own) {
    Optional<Reading> width = reader.within(p + "/width", 0.001, 0.5);
    Optional<Reading> depth = reader.within(p + "/depth", 0.001, 1);
    return width.isPresent() && depth.isPresent()
        ? Optional.of(
            new BraceReadings(
                point(p + "/from"),
                point(p + "/to"),
                width.get(),
                depth.get(),
                material(p + "/material", own).stream().findFirst()))
        : Optional.empty();
  }
}
