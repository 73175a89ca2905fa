package cutaway.bench.exam;

import cutaway.acoustics.driveunit.JointFit;
import cutaway.bench.finding.Finding;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Fingerprint;
import cutaway.bench.finding.Notice;
import cutaway.bench.noise.FoundBefore;
import cutaway.bench.noise.NoiseExam;
import cutaway.bench.result.Evidence;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.work.Ahead;
import cutaway.bench.work.Once;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * All exams in their order: a pure function of sheet and takes.
 *
 * <p>Each exam is shown only the sections of the sheet that may bear on it, and is run again only
 * where one of them, or a take, has changed. The fit itself is not remembered: it is made anew
 * where an exam that needs it runs.
 */
public final class Examination {
  private static final String TAKES = "takes";
  private static final String DRIVE_UNIT = "drive-unit";
  private static final String BOX = "box";
  private static final String PREDICTIONS = "predictions";
  private static final String WAVES = "air inside";
  private static final String WALLS = "walls";
  private static final String NOISE = "noise";

  private final Evidence evidence;
  private final Memory memory;
  private final Consumer<String> progress;
  private final Sheet sheet;
  private final Function<String, Path> resolve;
  private final Once<Bench> bench;
  private final Once<DriveUnit> driveUnit;

  private Examination(
      Sheet sheet,
      Function<String, Path> resolve,
      Evidence evidence,
      Memory memory,
      Consumer<String> progress) {
    this.sheet = sheet;
    this.resolve = resolve;
    this.evidence = evidence;
    this.memory = memory;
    // exams run side by side, whoever listens hears one at a time
    this.progress =
        step -> {
          synchronized (this) {
            progress.accept(step);
          }
        };
    this.bench =
        new Once<>(
            () -> {
              progress.accept("takes");
              return Bench.load(sheet.forDriveUnit(), resolve, evidence, memory);
            });
    this.driveUnit = new Once<>(this::driveUnit);
  }

  /**
   * What an examination comes to.
   *
   * @param evidence content hash of each reading and take that findings may rest on, by id
   * @param understood how each take's file was read, by take id
   * @param findings everything found
   */
  public record Outcome(
      Map<String, String> evidence, Map<String, String> understood, Findings findings) {
    /** Orders its maps, so that the same dossier gives the same bytes. */
    public Outcome {
      evidence = new TreeMap<>(evidence);
      understood = new TreeMap<>(understood);
    }
  }

  /** How the takes were read, and what was odd about them. */
  record Told(Map<String, String> understood, Findings findings) {}

  /** The drive unit's exam: a fit where one is believed, and what it tells. */
  private record DriveUnit(Optional<JointFit> fit, Findings findings) {}

  /**
   * Runs every exam that has something new to look at.
   *
   * @param sheet the sheet
   * @param resolve path of a file named in the sheet
   * @param files content hash of each such file, by its name there
   * @param memory what earlier runs came to
   * @param progress told in a word what is being done, one at a time
   */
  public static Outcome run(
      Sheet sheet,
      Function<String, Path> resolve,
      Map<String, String> files,
      Memory memory,
      Consumer<String> progress) {
    return new Examination(sheet, resolve, Evidence.of(sheet, files), memory, progress).outcome();
  }

  /**
   * How takes are read, and what is odd about them.
   *
   * @param understood how each was read, by take id
   * @param notices what is odd
   */
  public record Checked(Map<String, String> understood, List<Notice> notices) {}

  /**
   * Reads every take, without solving.
   *
   * @param sheet the sheet
   * @param resolve path of a file named in the sheet
   */
  public static Checked check(Sheet sheet, Function<String, Path> resolve) {
    Bench bench = Bench.load(sheet.forDriveUnit(), resolve);
    Map<String, String> understood = new TreeMap<>();
    bench.loaded().forEach((id, take) -> understood.put(id, take.understood()));
    Results results = new Results(Evidence.of(sheet, Map.of()));
    bench.notices().forEach(results::notice);
    KnockExam.run(sheet, CabinetGeometry.names(sheet), resolve, results, understood);
    CabinetCheck.run(sheet, results);
    NoiseExam.check(sheet, resolve, results, understood);
    return new Checked(understood, results.done().notices());
  }

  /** Name of every step that may be remembered. */
  public static Set<String> steps(Sheet sheet) {
    Set<String> out =
        new TreeSet<>(List.of(TAKES, DRIVE_UNIT, BOX, PREDICTIONS, WAVES, WALLS, NOISE));
    sheet.takes().forEach(t -> out.add("takes." + t.id()));
    return out;
  }

  private Outcome outcome() {
    Told told = memory.recall(TAKES, key(sheet.forDriveUnit()), Told.class, this::told);
    List<Findings> parts = new ArrayList<>();
    parts.add(told.findings());
    if (!sheet.isForOtherExams()) {
      parts.add(
          memory.recall(
              DRIVE_UNIT,
              key(sheet.forDriveUnit()),
              Findings.class,
              () -> driveUnit.get().findings()));
    }
    parts.add(exam(BOX, sheet.forBox(), BoxExam::run));
    parts.add(exam(PREDICTIONS, sheet.forPredictions(), PredictionExam::run));
    // the two take longest and need nothing of each other
    Once<Ahead<Findings>> waves =
        new Once<>(() -> Ahead.begin(() -> exam(WAVES, sheet.forWaves(), WavesExam::run)));
    Told walls;
    try {
      walls = walls(parts, waves::get);
      parts.add(waves.get().get());
    } finally {
      waves.get().close();
    }
    parts.add(walls.findings());
    Told noise = noise(parts);
    parts.add(noise.findings());
    Map<String, String> understood = new TreeMap<>(told.understood());
    understood.putAll(walls.understood());
    understood.putAll(noise.understood());
    Results all = new Results(evidence);
    parts.forEach(all::add);
    ClaimExam.run(sheet, all);
    return new Outcome(evidence.hashes(), understood, all.done());
  }

  /**
   * The walls.
   *
   * @param beside told once they no longer keep every thread busy
   */
  private Told walls(List<Findings> parts, Runnable beside) {
    Sheet seen = sheet.forWalls();
    Optional<Finding> mass = find(parts, "drive-unit.mms");
    Optional<Finding> area = find(parts, "drive-unit.sd");
    Optional<Finding> level = find(parts, "drive-unit.sensitivity-voltage");
    String key =
        Fingerprint.of(List.of(key(seen), mass.toString(), area.toString(), level.toString()));
    return memory.recall(
        WALLS,
        key,
        Told.class,
        () -> {
          Results results = new Results(evidence);
          Map<String, String> understood = new TreeMap<>();
          if (seen.box().isPresent()) {
            progress.accept("walls");
            CabinetExam.run(seen, resolve, mass, area, level, beside, results, understood);
          }
          return new Told(understood, results.done());
        });
  }

  private Told noise(List<Findings> parts) {
    Sheet seen = sheet.forNoise();
    FoundBefore found =
        new FoundBefore(find(parts, "drive-unit.fs"), find(parts, "box.fb"), rings(parts));
    List<String> all = new ArrayList<>(List.of(key(seen)));
    all.addAll(found.fingerprint());
    String key = Fingerprint.of(all);
    return memory.recall(
        NOISE,
        key,
        Told.class,
        () -> {
          Results results = new Results(evidence);
          Map<String, String> understood = new TreeMap<>();
          NoiseExam.run(seen, found, resolve, progress, results, understood);
          return new Told(understood, results.done());
        });
  }

  /**
   * What the walls were heard to ring at; none where the wall that sounds were taken at was not
   * knocked, as its own rings would be missed.
   */
  private List<Finding> rings(List<Findings> parts) {
    Set<String> listenedAt =
        sheet.sounds().takes().stream().flatMap(t -> t.wall().stream()).collect(Collectors.toSet());
    List<Finding> rings =
        parts.stream()
            .flatMap(p -> p.findings().stream())
            .filter(f -> KnockExam.ringing(f.id()).isPresent())
            .toList();
    boolean known =
        rings.stream()
            .flatMap(f -> KnockExam.ringing(f.id()).stream())
            .anyMatch(listenedAt::contains);
    return known ? rings : List.of();
  }

  private static Optional<Finding> find(List<Findings> parts, String id) {
    return parts.stream().flatMap(p -> p.finding(id).stream()).findFirst();
  }

  /** Hash of what an exam looks at. */
  private String key(Sheet seen) {
    List<String> parts = new ArrayList<>(List.of(seen.toString()));
    seen.takes().forEach(t -> parts.add(evidence.of("takes." + t.id())));
    seen.sounds().takes().forEach(t -> parts.add(evidence.of("takes." + t.id())));
    return Fingerprint.of(parts);
  }

  private Told told() {
    Results results = new Results(evidence);
    bench.get().notices().forEach(results::notice);
    air().ifPresent(results::notice);
    Map<String, String> understood = new TreeMap<>();
    bench.get().loaded().forEach((id, loaded) -> understood.put(id, loaded.understood()));
    return new Told(understood, results.done());
  }

  private Optional<Notice> air() {
    List<String> missing = new ArrayList<>();
    if (sheet.air().temperature().isEmpty()) {
      missing.add("temperature");
    }
    if (sheet.air().pressure().isEmpty()) {
      missing.add("pressure");
    }
    return missing.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Notice.note(
                "air",
                "no reading of the air's "
                    + String.join(" and ", missing)
                    + "; a usual room is taken, and its spread counted",
                "note temperature and pressure with each session of takes"));
  }

  private DriveUnit driveUnit() {
    Bench loaded = bench.get();
    progress.accept("drive unit");
    Results results = new Results(evidence);
    Optional<JointFit> fit = DriveUnitExam.run(sheet.forDriveUnit(), loaded, results);
    return new DriveUnit(fit, results.done());
  }

  private interface Exam {
    void run(Sheet seen, JointFit fit, Results results);
  }

  private Findings exam(String step, Sheet seen, Exam exam) {
    return memory.recall(
        step,
        key(seen),
        Findings.class,
        () -> {
          Results results = new Results(evidence);
          Optional<JointFit> fit = driveUnit.get().fit();
          fit.ifPresent(
              f -> {
                progress.accept(step);
                exam.run(seen, f, results);
              });
          return results.done();
        });
  }
}
