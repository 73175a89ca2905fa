package cutaway.bench.sheet;

import cutaway.acoustics.box.Port;
import cutaway.acoustics.cabinet.Point;
import cutaway.bench.measure.Reading;
import cutaway.bench.take.ReadAs;
import java.util.List;
import java.util.Optional;

/**
 * What the tester wrote down, as typed values. Keys and meanings are in {@code docs/sheet.md}.
 *
 * @param unit what it is
 * @param air the air the takes were made in
 * @param mains frequencies the mains may have, Hz: one where the sheet says, else both
 * @param resistor the rig's series resistor, Ω
 * @param driveUnit readings of the drive unit
 * @param box the box, where there is one
 * @param drive what the predictions are fed through
 * @param takes recordings and curves
 * @param sounds what microphones heard
 * @param claims sentences to be judged
 */
public record Sheet(
    Unit unit,
    AirReadings air,
    List<Double> mains,
    Optional<Reading> resistor,
    DriveUnitReadings driveUnit,
    Optional<BoxReadings> box,
    Feed drive,
    List<TakeEntry> takes,
    SoundReadings sounds,
    List<ClaimEntry> claims) {
  /** Copies its lists. */
  public Sheet {
    mains = List.copyOf(mains);
    takes = List.copyOf(takes);
    claims = List.copyOf(claims);
  }

  private static final Unit UNNAMED = new Unit("", "", "", "", List.of());
  private static final Feed STRAIGHT = new Feed(Optional.empty(), List.of());

  /** Only what may bear on the drive unit's takes and their fit. */
  public Sheet forDriveUnit() {
    return only(
        resistor, box.map(BoxReadings::loadingOnly), STRAIGHT, notKnocked(), SoundReadings.NONE);
  }

  /** Only what may bear on the box. */
  public Sheet forBox() {
    return withoutWalls(STRAIGHT);
  }

  /** Only what may bear on the walls: no take of the drive unit. */
  public Sheet forWalls() {
    return only(
        Optional.empty(),
        box,
        STRAIGHT,
        takes.stream().filter(TakeEntry::isKnock).toList(),
        SoundReadings.NONE);
  }

  /** Only what may bear on noises: sounds, and what kind of box it is. */
  public Sheet forNoise() {
    return only(Optional.empty(), box.map(BoxReadings::loadingOnly), STRAIGHT, List.of(), sounds);
  }

  /** Whether all that was taken is knocks or sounds: then no impedance is missed. */
  public boolean isForOtherExams() {
    return notKnocked().isEmpty() && !(takes.isEmpty() && sounds.takes().isEmpty());
  }

  /** The same without takes. */
  public Sheet withoutTakes() {
    return new Sheet(
        unit, air, mains, resistor, driveUnit, box, drive, List.of(), SoundReadings.NONE, claims);
  }

  /** The same with another box. */
  public Sheet withBox(BoxReadings other) {
    return new Sheet(
        unit, air, mains, resistor, driveUnit, Optional.of(other), drive, takes, sounds, claims);
  }

  /** Only what may bear on predictions. */
  public Sheet forPredictions() {
    return withoutWalls(drive);
  }

  /** Only what may bear on the waves inside the box and what they do to the output. */
  public Sheet forWaves() {
    return without(STRAIGHT, box);
  }

  private Sheet withoutWalls(Feed feed) {
    return without(feed, box.map(BoxReadings::withoutWalls));
  }

  /** Without knocks, claims and names. */
  private Sheet without(Feed feed, Optional<BoxReadings> seen) {
    return only(resistor, seen, feed, notKnocked(), SoundReadings.NONE);
  }

  private List<TakeEntry> notKnocked() {
    return takes.stream().filter(t -> !t.isKnock()).toList();
  }

  /** Air, mains and drive unit, and these: no claims and no names. */
  private Sheet only(
      Optional<Reading> resistance,
      Optional<BoxReadings> seen,
      Feed feed,
      List<TakeEntry> some,
      SoundReadings heard) {
    return new Sheet(
        UNNAMED, air, mains, resistance, driveUnit, seen, feed, some, heard, List.of());
  }

  /**
   * What it is.
   *
   * @param name its name
   * @param kind what kind of thing
   * @param obtained how it came to the bench
   * @param note free text
   * @param prices what it costs where
   */
  public record Unit(String name, String kind, String obtained, String note, List<Price> prices) {}

  /**
   * A price.
   *
   * @param amount with currency: 249 EUR
   * @param where shop or kind of price
   * @param on date
   */
  public record Price(String amount, String where, String on) {}

  /**
   * Readings of the air, each absent where not taken.
   *
   * @param temperature °C
   * @param pressure Pa
   * @param humidity 0 to 1
   */
  public record AirReadings(
      Optional<Reading> temperature, Optional<Reading> pressure, Optional<Reading> humidity) {}

  /**
   * Readings of the drive unit, SI, each absent where not taken.
   *
   * @param pistonDiameter effective diameter, m
   * @param movingMass kg, with air load
   * @param dcResistance cold, Ω
   * @param nominalImpedance what the maker says, Ω
   * @param mass the whole drive unit, kg
   * @param displacedVolume room it takes in the box, m³
   * @param height of its middle above the bottom of the box, m
   */
  public record DriveUnitReadings(
      Optional<Reading> pistonDiameter,
      Optional<Reading> movingMass,
      Optional<Reading> dcResistance,
      Optional<Reading> nominalImpedance,
      Optional<Reading> mass,
      Optional<Reading> displacedVolume,
      Optional<Reading> height) {}

  /**
   * A box-shaped size, m.
   *
   * @param width left to right
   * @param height bottom to top
   * @param depth front to back
   */
  public record Size(Reading width, Reading height, Reading depth) {}

  /**
   * The box.
   *
   * @param loading how it holds its air
   * @param inner inner size
   * @param outer outer size
   * @param wall thickness of the walls, m
   * @param baffle thickness of the front, m
   * @param displaced room taken inside without the drive unit, m³
   * @param lining what lies inside
   * @param mass the whole unit, kg
   * @param port the port
   * @param radiator the passive radiator
   * @param cabinet its shape and walls
   */
  public record BoxReadings(
      BoxKind loading,
      Optional<Size> inner,
      Optional<Size> outer,
      Optional<Reading> wall,
      Optional<Reading> baffle,
      Optional<Reading> displaced,
      Lining lining,
      Optional<Reading> mass,
      Optional<PortReadings> port,
      Optional<RadiatorReadings> radiator,
      CabinetReadings cabinet) {
    /** All but what is known of single walls besides their shape. */
    BoxReadings withoutWalls() {
      return withCabinet(
          new CabinetReadings(
              cabinet.back(),
              cabinet.corners(),
              cabinet.outline(),
              cabinet.walls().stream()
                  .filter(w -> !w.corners().isEmpty())
                  .map(CabinetReadings.WallReadings::shapeOnly)
                  .toList(),
              List.of(),
              Optional.empty(),
              List.of(),
              Optional.empty(),
              Optional.empty(),
              Optional.empty()));
    }

    /** The same with other walls. */
    public BoxReadings withCabinet(CabinetReadings other) {
      return new BoxReadings(
          loading, inner, outer, wall, baffle, displaced, lining, mass, port, radiator, other);
    }

    /** Nothing but the loading. */
    BoxReadings loadingOnly() {
      return new BoxReadings(
          loading,
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Lining.NONE,
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          CabinetReadings.NONE);
    }
  }

  /**
   * A port, round by its diameter or a slot by width and height, m.
   *
   * @param diameter inner diameter
   * @param width inner width
   * @param height inner height
   * @param length along its middle
   * @param ends how it opens, outside first
   * @param count how many
   * @param bends right-angled bends in each
   */
  public record PortReadings(
      Optional<Reading> diameter,
      Optional<Reading> width,
      Optional<Reading> height,
      Reading length,
      List<Port.End> ends,
      int count,
      int bends) {}

  /**
   * A passive radiator.
   *
   * @param pistonDiameter m
   * @param movingMass kg
   */
  public record RadiatorReadings(Reading pistonDiameter, Optional<Reading> movingMass) {}

  /**
   * What the predictions are fed through.
   *
   * @param sourceResistance Ω
   * @param filters in series
   */
  public record Feed(
      Optional<Reading> sourceResistance, List<cutaway.acoustics.driveunit.Drive.Filter> filters) {}

  /**
   * A take as the sheet lists it.
   *
   * @param id its name
   * @param file path within the dossier
   * @param what impedance, two-channel sweep or two-channel noise
   * @param mount where the drive unit sat
   * @param addedMass kg
   * @param volume of a test box, m³
   * @param portBlocked whether the box's port was stopped
   * @param overResistor whether channel 2 hears the resistor
   * @param calibration recording with a known resistor
   * @param readAs how to read a curve file
   * @param from lowest frequency to believe, Hz
   * @param to highest frequency to believe, Hz
   * @param wall the wall that was tapped, of a knock
   * @param at where each tap fell, right and up on the wall seen from outside, m; one for all taps
   *     on one place; empty where not told
   */
  public record TakeEntry(
      String id,
      String file,
      String what,
      Mount mount,
      Optional<Reading> addedMass,
      Optional<Reading> volume,
      boolean portBlocked,
      boolean overResistor,
      Optional<Calibration> calibration,
      ReadAs readAs,
      Optional<Reading> from,
      Optional<Reading> to,
      Optional<String> wall,
      List<Point> at) {
    /** Copies its list. */
    public TakeEntry {
      at = List.copyOf(at);
    }

    /** Whether it is a recording of the drive unit rather than a curve. */
    public boolean isRecording() {
      return !what.equals("impedance") && !isKnock();
    }

    /** Whether it is a recording of taps on a wall. */
    public boolean isKnock() {
      return what.equals("knock");
    }
  }

  /**
   * A recording with a known resistor in the drive unit's place.
   *
   * @param file path within the dossier
   * @param resistor Ω
   */
  public record Calibration(String file, Reading resistor) {}

  /**
   * A claim as the sheet lists it.
   *
   * @param by who makes it
   * @param says its words
   * @param about id of a finding
   * @param value the figure claimed, with unit
   * @param sense how the figure is meant
   */
  public record ClaimEntry(
      String by, String says, String about, Optional<String> value, Sense sense) {}
}
