package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.box.Loading;
import cutaway.acoustics.driveunit.CurveShape;
import cutaway.acoustics.driveunit.CurveShape.Oddity;
import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.acoustics.driveunit.Mounting;
import cutaway.acoustics.driveunit.Readings;
import cutaway.acoustics.driveunit.RigError;
import cutaway.acoustics.driveunit.Take;
import cutaway.acoustics.driveunit.VoltageDivider;
import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.signal.Capture;
import cutaway.acoustics.signal.Stretch;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.measure.Reading;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.result.Evidence;
import cutaway.bench.sheet.BoxKind;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.TakeEntry;
import cutaway.bench.take.CurveFile;
import cutaway.bench.take.SoundFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/**
 * The takes of a dossier, loaded, looked at and ready for the fit.
 *
 * @param loaded every take that could be read, by id, believed or not
 * @param believed those that a model may be fitted to
 * @param notices what was found on the way
 */
public record Bench(Map<String, Loaded> loaded, List<Take> believed, List<Notice> notices) {
  private static final double LOWEST = 5;
  private static final double HIGHEST = 22000;

  /** Samples of a recording that takes little memory. */
  private static final long SHORT = 1 << 20;

  /**
   * One take as read.
   *
   * @param entry what the sheet says of it
   * @param curve its impedance
   * @param understood how the file was read
   */
  public record Loaded(TakeEntry entry, ImpedanceCurve curve, String understood) {}

  /**
   * Loads every take.
   *
   * @param sheet the sheet
   * @param resolve path of a file named in the sheet
   * @throws ProblemException where a file cannot be read at all
   */
  public static Bench load(Sheet sheet, Function<String, Path> resolve) {
    return load(sheet, resolve, Evidence.of(sheet, Map.of()), Memory.NONE);
  }

  static Bench load(Sheet sheet, Function<String, Path> resolve, Evidence evidence, Memory memory) {
    Loader loader = new Loader(sheet, resolve, evidence, memory);
    List<Problem> problems = new ArrayList<>();
    for (TakeEntry entry : sheet.takes()) {
      try {
        loader.load(entry);
      } catch (ProblemException e) {
        problems.addAll(e.problems());
      }
    }
    if (!problems.isEmpty()) {
      throw new ProblemException(problems);
    }
    return new Bench(loader.loaded, List.copyOf(loader.believed), List.copyOf(loader.notices));
  }

  private static final class Loader {
    private final Sheet sheet;
    private final Function<String, Path> resolve;
    private final Evidence evidence;
    private final Memory memory;
    private final Map<String, Loaded> loaded = new LinkedHashMap<>();
    private final List<Take> believed = new ArrayList<>();
    private final List<Notice> notices = new ArrayList<>();

    Loader(Sheet sheet, Function<String, Path> resolve, Evidence evidence, Memory memory) {
      this.sheet = sheet;
      this.resolve = resolve;
      this.evidence = evidence;
      this.memory = memory;
    }

    void load(TakeEntry entry) {
      String about = "takes." + entry.id();
      ReadTake read =
          memory.recall(
              about,
              evidence.of(about),
              ReadTake.class,
              () -> entry.isRecording() ? recording(entry, about) : curve(entry, about));
      notices.addAll(read.notices());
      if (!read.isEmpty()) {
        ImpedanceCurve curve = read.curve();
        loaded.put(entry.id(), new Loaded(entry, curve, read.understood()));
        believe(entry, curve);
      }
    }

    private ReadTake curve(TakeEntry entry, String about) {
      CurveFile file =
          CurveFile.read(resolve.apply(entry.file()), entry.file(), about, entry.readAs());
      ImpedanceCurve curve = bounded(entry, file.curve());
      refuseEmpty(entry, curve);
      return ReadTake.of(curve, file.understood(), file.notices());
    }

    private static void refuseEmpty(TakeEntry entry, ImpedanceCurve curve) {
      if (curve.size() == 0) {
        throw new ProblemException(
            Problem.of(
                entry.file(),
                "holds no point between 'from' and 'to' of " + entry.id(),
                "widen them, 'from' below 'to', or take them away"));
      }
    }

    private static ImpedanceCurve bounded(TakeEntry entry, ImpedanceCurve curve) {
      return curve.between(
          entry.from().map(r -> r.estimate().value()).orElse(0.0),
          entry.to().map(r -> r.estimate().value()).orElse(Double.MAX_VALUE));
    }

    private double[] mains() {
      return sheet.mains().stream().mapToDouble(Double::doubleValue).toArray();
    }

    private ReadTake recording(TakeEntry entry, String about) {
      SoundFile file = SoundFile.open(resolve.apply(entry.file()), entry.file(), about);
      List<Notice> told = new ArrayList<>(file.notices());
      List<SoundFile> files =
          Stream.concat(
                  Stream.of(file),
                  entry.calibration().stream()
                      .map(c -> SoundFile.open(resolve.apply(c.file()), c.file(), about)))
              .toList();
      // short ones at once, for decoding leaves a processor idle; long ones would fill the memory
      boolean small = files.stream().allMatch(f -> f.frames() < SHORT);
      List<Capture> captures =
          (small ? files.parallelStream() : files.stream())
              .map(f -> Capture.of(f, mains(), LOWEST, HIGHEST))
              .toList();
      Capture capture = captures.get(0);
      CaptureNotices.tell(capture, about, file.rate(), told);
      Optional<Capture> calibration = captures.stream().skip(1).findFirst();
      calibration.ifPresent(c -> calibration(c, entry.calibration().orElseThrow(), about, told));
      if (calibration.isEmpty()) {
        told.add(
            Notice.caution(
                about,
                "no calibration recording: both channels are taken as equal in gain and time",
                "record the sweep once more with a known resistor in the drive unit's place"));
      }
      double resistor = sheet.resistor().orElseThrow().estimate().value();
      Optional<VoltageDivider> divider =
          VoltageDivider.of(
              capture,
              listening(entry),
              resistor,
              calibration,
              entry.calibration().map(c -> c.resistor().estimate().value()).orElse(0.0));
      if (divider.isEmpty()) {
        told.add(CaptureNotices.nothing(capture, about));
        return ReadTake.nothing(told);
      }
      if (divider.get().troubles().contains(VoltageDivider.Trouble.OTHER_PART)) {
        told.add(
            Notice.fault(
                about,
                "by its calibration, channel 2 hears the "
                    + (entry.overResistor()
                        ? "drive unit, not the resistor"
                        : "resistor, not the drive unit"),
                "write 'channels: branch and "
                    + (entry.overResistor() ? "drive unit" : "resistor")
                    + "', or look where the probe was"));
        return ReadTake.nothing(told);
      }
      CaptureNotices.tell(divider.get(), about, file.rate(), told);
      ImpedanceCurve curve = bounded(entry, divider.get().impedance());
      refuseEmpty(entry, curve);
      String understood =
          String.format(
              Locale.ROOT,
              "%s at %s kHz, %.1f s, %s; channel 2 %+.3f dB, %+.2f µs against channel 1;"
                  + " %d points from %s to %s Hz",
              file.format(),
              Shown.digits(file.rate() / 1000, 4),
              file.frames() / file.rate(),
              capture.sweep().isPresent() ? "a sweep" : "no sweep, averaged as noise",
              20 * Math.log10(divider.get().correction().gain()),
              divider.get().correction().delay() * 1e6,
              curve.size(),
              Shown.digits(curve.frequency(0), 4),
              Shown.digits(curve.frequency(curve.size() - 1), 5));
      return ReadTake.of(curve, understood, told);
    }

    private static VoltageDivider.Listening listening(TakeEntry entry) {
      return entry.overResistor()
          ? VoltageDivider.Listening.RESISTOR
          : VoltageDivider.Listening.DRIVE_UNIT;
    }

    /** Only a recording hangs on the rig's resistors; a curve file comes from elsewhere. */
    private List<RigError> rigErrors(TakeEntry entry) {
      return entry.isRecording()
          ? VoltageDivider.rigErrors(
              listening(entry),
              sheet.resistor().orElseThrow().estimate(),
              entry.calibration().map(c -> c.resistor().estimate()))
          : List.of();
    }

    /** Tells what is wrong with a calibration. */
    private static void calibration(
        Capture capture, Sheet.Calibration calibration, String about, List<Notice> told) {
      long clipped =
          capture.check().stretches().stream()
              .filter(s -> s.kind() == Stretch.Kind.CLIPPED)
              .count();
      if (capture.cutShort()) {
        told.add(
            Notice.caution(
                about,
                "the calibration recording "
                    + calibration.file()
                    + " stops before its sweep does, so the delay between the channels is badly known",
                "record it whole"));
      }
      if (clipped > 0) {
        told.add(
            Notice.caution(
                about,
                "the calibration recording " + calibration.file() + " is clipped",
                "lower the gain and record it again"));
      }
    }

    /** Decides whether a model may be forced on a curve. */
    private void believe(TakeEntry entry, ImpedanceCurve curve) {
      Mounting mounting = mounting(entry);
      CurveShape shape = CurveShape.of(curve);
      List<Oddity> oddities = shape.oddities(mounting);
      ImpedanceCurve used = curve;
      if (oddities.contains(Oddity.REPEATED_ROWS)) {
        used = OddityNotices.withoutRepeats(curve);
      }
      boolean ok = true;
      for (Oddity oddity : oddities) {
        Notice notice = OddityNotices.of(oddity, entry, shape, mounting);
        notices.add(notice);
        ok &= notice.severity() != Notice.Severity.FAULT;
      }
      Optional<String> twin = twinOf(entry, curve);
      if (twin.isPresent()) {
        ok = false;
        notices.add(
            Notice.fault(
                "takes." + entry.id(),
                "holds the very same values as " + twin.get() + "; it counts once",
                "name the right file, or take the entry away"));
      }
      if (ok) {
        believed.add(new Take(entry.id(), used, mounting, rigErrors(entry)));
      }
    }

    /** An earlier take with the same values to the last digit: a copy, not a second measurement. */
    private Optional<String> twinOf(TakeEntry entry, ImpedanceCurve curve) {
      return loaded.values().stream()
          .filter(l -> !l.entry().id().equals(entry.id()))
          .filter(l -> l.curve().sameAs(curve))
          .map(l -> l.entry().id())
          .findFirst();
    }

    private Mounting mounting(TakeEntry entry) {
      Loading closed = new Loading.Closed(false, false);
      return switch (entry.mount()) {
        case BOX ->
            new Mounting.Boxed(entry.portBlocked() ? closed : unitsBox(closed), Optional.empty());
        case TEST_BOX -> new Mounting.Boxed(closed, entry.volume().map(Reading::estimate));
        case FREE_AIR ->
            entry
                .addedMass()
                .<Mounting>map(m -> new Mounting.AddedMass(m.estimate()))
                .orElseGet(Mounting.FreeAir::new);
      };
    }

    private Loading unitsBox(Loading closed) {
      return switch (sheet.box().map(Sheet.BoxReadings::loading).orElse(BoxKind.SEALED)) {
        case SEALED -> closed;
        case VENTED -> new Loading.Vented(true, true, false);
        case PASSIVE_RADIATOR -> new Loading.PassiveRadiator(true, true, false);
      };
    }
  }

  /** The air of the sheet; what was not read is taken as a room has it, widely. */
  public static Air air(Sheet sheet) {
    return Air.of(
        sheet.air().temperature().map(Reading::estimate).orElse(new Estimate(21, 4)),
        sheet.air().pressure().map(Reading::estimate).orElse(new Estimate(100500, 2000)),
        sheet.air().humidity().map(Reading::estimate).orElse(new Estimate(0.5, 0.2)));
  }

  /** The single readings of the sheet that bear on the drive unit. */
  public static Readings readings(Sheet sheet) {
    return new Readings(
        air(sheet),
        sheet.driveUnit().pistonDiameter().map(Reading::estimate),
        sheet.driveUnit().movingMass().map(Reading::estimate),
        sheet.driveUnit().dcResistance().map(Reading::estimate),
        Optional.empty(),
        Optional.empty());
  }
}
