package cutaway.bench.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import cutaway.acoustics.box.Port;
import cutaway.acoustics.driveunit.Drive;
import cutaway.bench.measure.Kind;
import cutaway.bench.measure.Reading;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.sheet.Sheet.AirReadings;
import cutaway.bench.sheet.Sheet.BoxReadings;
import cutaway.bench.sheet.Sheet.Calibration;
import cutaway.bench.sheet.Sheet.ClaimEntry;
import cutaway.bench.sheet.Sheet.DriveUnitReadings;
import cutaway.bench.sheet.Sheet.Feed;
import cutaway.bench.sheet.Sheet.PortReadings;
import cutaway.bench.sheet.Sheet.RadiatorReadings;
import cutaway.bench.sheet.Sheet.Size;
import cutaway.bench.sheet.Sheet.TakeEntry;
import cutaway.bench.take.ReadAs;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads a sheet's text into typed values, or says everything that is wrong with it. */
public final class SheetReader {
  private final SheetTree tree;
  private final List<Problem> problems = new ArrayList<>();
  private final CabinetReader cabinet = new CabinetReader(this);

  private SheetReader(SheetTree tree) {
    this.tree = tree;
  }

  /**
   * Reads.
   *
   * @param text the sheet's text
   * @param file what to call it in messages
   * @throws ProblemException with every problem found, in the order of the sheet
   */
  public static Sheet read(String text, String file) {
    SheetTree tree = SheetTree.parse(text, file);
    List<Problem> shape = SheetSchema.check(tree);
    if (!shape.isEmpty()) {
      throw new ProblemException(shape);
    }
    SheetReader reader = new SheetReader(tree);
    Sheet sheet = reader.sheet();
    if (!reader.problems.isEmpty()) {
      throw new ProblemException(reader.problems.stream().distinct().toList());
    }
    return sheet;
  }

  JsonNode at(String pointer) {
    return tree.root().at(pointer);
  }

  private Sheet sheet() {
    return new Sheet(
        unit(),
        new AirReadings(
            within("/air/temperature", -30, 60),
            within("/air/pressure", 50000, 115000),
            within("/air/humidity", 0, 1)),
        mains(),
        within("/rig/resistor", 0.01, 1e5),
        driveUnit(),
        at("/box").isObject() ? Optional.of(box()) : Optional.empty(),
        feed(),
        takes(),
        new SoundReader(this).sounds(),
        claims());
  }

  private Sheet.Unit unit() {
    List<Sheet.Price> prices = new ArrayList<>();
    for (int i = 0; i < at("/unit/price").size(); i++) {
      JsonNode price = at("/unit/price").path(i);
      date("/unit/price/" + i + "/on", price.path("on").asText(""));
      prices.add(
          new Sheet.Price(
              price.path("amount").asText(),
              price.path("where").asText(""),
              price.path("on").asText("")));
    }
    return new Sheet.Unit(
        text("/unit/name"), text("/unit/kind"), text("/unit/obtained"), text("/unit/note"), prices);
  }

  private void date(String pointer, String text) {
    try {
      if (!text.isEmpty()) {
        LocalDate.parse(text);
      }
    } catch (DateTimeParseException e) {
      problems.add(
          tree.problem(pointer, false, "'" + text + "' is no date", "write it like 2026-09-14"));
    }
  }

  private List<Double> mains() {
    return switch (text("/mains")) {
      case "50 Hz" -> List.of(50.0);
      case "60 Hz" -> List.of(60.0);
      default -> List.of(50.0, 60.0);
    };
  }

  private DriveUnitReadings driveUnit() {
    String d = "/drive-unit/";
    return new DriveUnitReadings(
        within(d + "piston-diameter", 0.005, 0.8),
        within(d + "moving-mass", 1e-5, 2),
        within(d + "dc-resistance", 0.05, 5000),
        positive(d + "nominal-impedance"),
        positive(d + "mass"),
        positive(d + "displaced-volume"),
        positive(d + "height"));
  }

  private BoxReadings box() {
    Optional<PortReadings> port = at("/box/port").isObject() ? port() : Optional.empty();
    Optional<RadiatorReadings> radiator =
        positive("/box/passive-radiator/piston-diameter")
            .map(d -> new RadiatorReadings(d, positive("/box/passive-radiator/moving-mass")));
    return new BoxReadings(
        Words.read(text("/box/loading"), BoxKind.SEALED),
        size("/box/inner"),
        size("/box/outer"),
        within("/box/wall", 2e-4, 0.3),
        within("/box/baffle", 2e-4, 0.3),
        positive("/box/displaced"),
        Words.read(text("/box/lining"), Lining.NONE),
        positive("/box/mass"),
        port,
        radiator,
        cabinet.read());
  }

  private Optional<PortReadings> port() {
    String p = "/box/port";
    Optional<Reading> diameter = within(p + "/diameter", 0.002, 1);
    Optional<Reading> width = within(p + "/width", 0.001, 2);
    Optional<Reading> height = within(p + "/height", 0.001, 2);
    Optional<Reading> length = within(p + "/length", 0.0005, 5);
    if (diameter.isEmpty() && (width.isEmpty() || height.isEmpty())) {
      problems.add(
          tree.problem(
              p,
              true,
              "the port has no cross-section",
              "give 'diameter', or 'width' and 'height'"));
    }
    List<Port.End> ends =
        strings(at(p + "/ends")).stream().map(w -> Words.read(w, Port.End.FREE)).toList();
    return length.map(
        l ->
            new PortReadings(
                diameter,
                width,
                height,
                l,
                ends.isEmpty() ? List.of(Port.End.FLANGED, Port.End.FREE) : ends,
                at(p + "/count").asInt(1),
                at(p + "/bends").asInt(0)));
  }

  private Optional<Size> size(String pointer) {
    Optional<Reading> w = within(pointer + "/width", 0.01, 5);
    Optional<Reading> h = within(pointer + "/height", 0.01, 5);
    Optional<Reading> d = within(pointer + "/depth", 0.01, 5);
    return w.isPresent() && h.isPresent() && d.isPresent()
        ? Optional.of(new Size(w.get(), h.get(), d.get()))
        : Optional.empty();
  }

  private Feed feed() {
    List<Drive.Filter> filters = new ArrayList<>();
    for (String side : List.of("high-pass", "low-pass")) {
      String p = "/drive/" + side;
      positive(p + "/frequency")
          .ifPresent(
              f ->
                  filters.add(
                      new Drive.Filter(
                          side.equals("high-pass"),
                          f.estimate().value(),
                          at(p + "/order").asInt(2),
                          at(p + "/q").asDouble(Math.sqrt(0.5)))));
    }
    return new Feed(quantity("/drive/source-resistance"), List.copyOf(filters));
  }

  private List<TakeEntry> takes() {
    List<TakeEntry> out = new ArrayList<>();
    Map<String, Integer> seen = new HashMap<>();
    for (int i = 0; i < at("/takes").size(); i++) {
      String p = "/takes/" + i;
      String id = text(p + "/id");
      Integer before = seen.putIfAbsent(id, i);
      if (before != null) {
        problems.add(
            tree.problem(
                p + "/id",
                false,
                "the id '" + id + "' is taken by take " + (before + 1),
                "give each take a name of its own"));
      }
      if (!SoundReader.isSound(at(p))) {
        out.add(take(p));
      }
    }
    return out;
  }

  private TakeEntry take(String p) {
    Optional<Calibration> calibration =
        positive(p + "/calibration/resistor")
            .map(r -> new Calibration(text(p + "/calibration/file"), r));
    ReadAs readAs =
        new ReadAs(
            strings(at(p + "/read/columns")),
            optional(p + "/read/frequency-unit"),
            optional(p + "/read/phase-unit"));
    TakeEntry take =
        new TakeEntry(
            text(p + "/id"),
            text(p + "/file"),
            text(p + "/what"),
            Words.read(text(p + "/setup/mount"), Mount.FREE_AIR),
            within(p + "/setup/added-mass", 1e-5, 2),
            within(p + "/setup/volume", 1e-5, 5),
            text(p + "/setup/port").equals("blocked"),
            text(p + "/channels").equals("branch and resistor"),
            calibration,
            readAs,
            positive(p + "/from"),
            positive(p + "/to"),
            optional(p + "/wall"),
            cabinet.points(p + "/at"));
    if (take.isKnock()) {
      knock(p, take);
      return take;
    }
    if (at(p + "/setup").isMissingNode()) {
      problems.add(
          tree.problem(
              p,
              false,
              "the take '" + take.id() + "' lacks 'setup'",
              "add 'setup: { mount: free air }' or test box or box"));
    }
    if (take.isRecording() && tree.root().at("/rig/resistor").isMissingNode()) {
      problems.add(
          tree.problem(
              p + "/what",
              false,
              "a recording needs the series resistor",
              "add 'rig: { resistor: 10.02 Ω ± 0.02 Ω }'"));
    }
    if (take.addedMass().isPresent() && take.mount() != Mount.FREE_AIR) {
      problems.add(
          tree.problem(
              p + "/setup/added-mass",
              true,
              "an added mass goes with 'mount: free air'",
              "take it away, or change the mount"));
    }
    if (take.mount() == Mount.TEST_BOX && at(p + "/setup/volume").isMissingNode()) {
      problems.add(
          tree.problem(
              p + "/setup/mount",
              false,
              "a take over a test box needs the box's volume",
              "add 'volume: 10.2 L ± 0.1 L', or say 'mount: box' for the unit's own box"));
    }
    if (take.mount() == Mount.BOX && tree.root().at("/box/loading").isMissingNode()) {
      problems.add(
          tree.problem(
              p + "/setup/mount",
              false,
              "a take in the box needs to know the box",
              "add 'box: { loading: sealed }' or vented or passive radiator"));
    }
    return take;
  }

  private void knock(String p, TakeEntry take) {
    if (take.wall().isEmpty()) {
      problems.add(
          tree.problem(
              p, false, "a knock needs the wall that was tapped", "add 'wall: left' or another"));
    }
    if (tree.root().at("/box/loading").isMissingNode()) {
      problems.add(
          tree.problem(
              p + "/what",
              false,
              "a knock needs to know the box",
              "add 'box: { loading: sealed, inner: … }'"));
    }
  }

  private List<ClaimEntry> claims() {
    List<ClaimEntry> out = new ArrayList<>();
    for (JsonNode claim : at("/claims")) {
      out.add(
          new ClaimEntry(
              claim.path("by").asText(),
              claim.path("says").asText(),
              claim.path("about").asText(),
              claim.has("value") ? Optional.of(claim.path("value").asText()) : Optional.empty(),
              Words.read(claim.path("sense").asText(), Sense.ABOUT)));
    }
    return out;
  }

  String text(String pointer) {
    return at(pointer).asText("");
  }

  private Optional<String> optional(String pointer) {
    return at(pointer).isTextual() ? Optional.of(at(pointer).asText()) : Optional.empty();
  }

  /** Notes what is wrong with a value. */
  void problem(String pointer, String what, String remedy) {
    problems.add(tree.problem(pointer, false, what, remedy));
  }

  private static List<String> strings(JsonNode array) {
    List<String> out = new ArrayList<>();
    array.forEach(n -> out.add(n.asText()));
    return out;
  }

  private static Kind kind(String pointer) {
    return Kind.valueOf(SheetSchema.schemaAt(pointer).path("x-quantity").asText());
  }

  Optional<Reading> quantity(String pointer) {
    return at(pointer).isTextual() ? quantity(pointer, kind(pointer)) : Optional.empty();
  }

  Optional<Reading> quantity(String pointer, Kind kind) {
    try {
      return Optional.of(Reading.parse(at(pointer).asText(), kind));
    } catch (Reading.UnreadableException e) {
      problems.add(tree.problem(pointer, false, e.what(), e.remedy()));
      return Optional.empty();
    }
  }

  /** A reading that lies within what a bench can show; beyond it the unit is wrong. */
  Optional<Reading> within(String pointer, double low, double high) {
    Optional<Reading> reading = quantity(pointer);
    if (reading.isPresent()
        && !(reading.get().estimate().value() >= low && reading.get().estimate().value() <= high)) {
      problems.add(
          tree.problem(
              pointer,
              false,
              "'"
                  + reading.get().text()
                  + "' is not to be believed: it would have to lie between "
                  + limit(low, kind(pointer))
                  + " and "
                  + limit(high, kind(pointer)),
              "check figure and unit"));
      return Optional.empty();
    }
    return reading;
  }

  /** A limit in the unit that a tester would write. */
  private static String limit(double value, Kind kind) {
    return switch (kind) {
      case LENGTH -> value < 1 ? plain(1000 * value) + " mm" : plain(value) + " m";
      case MASS -> value < 1 ? plain(1000 * value) + " g" : plain(value) + " kg";
      case VOLUME -> plain(1000 * value) + " L";
      default -> plain(value) + " " + kind.symbol();
    };
  }

  private static String plain(double value) {
    return BigDecimal.valueOf(value).round(new MathContext(6)).stripTrailingZeros().toPlainString();
  }

  Optional<Reading> positive(String pointer) {
    Optional<Reading> reading = quantity(pointer);
    if (reading.isPresent() && !(reading.get().estimate().value() > 0)) {
      problems.add(
          tree.problem(
              pointer,
              false,
              "'" + reading.get().text() + "' is not above zero",
              "write what was read"));
      return Optional.empty();
    }
    return reading;
  }
}
