package cutaway.bench.dossier;

import cutaway.bench.exam.Bench;
import cutaway.bench.exam.Examination;
import cutaway.bench.finding.Fingerprint;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.SheetEditor;
import cutaway.bench.sheet.SheetReader;
import cutaway.bench.sheet.SoundTake;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;

/** A folder with a sheet and takes. */
public final class Dossier {
  /** The sheet's file name. */
  public static final String SHEET = "dossier.yaml";

  /** Where Cutaway keeps what it made. */
  public static final String MADE = "made";

  /** Version, for people; what a kept solve was computed by is told by its basis. */
  public static final String VERSION = "0.1.0";

  private static final String FINDINGS = "findings";

  /** What the program stands under beside the files, for people; the key goes by neither name. */
  private static final String PROGRAM = "(the program)";

  private static final long LARGEST_SHEET = 4L << 20;

  private final Path folder;
  private final String text;
  private final Sheet sheet;
  private Optional<Problem> notKept = Optional.empty();

  private Dossier(Path folder, String text, Sheet sheet) {
    this.folder = folder;
    this.text = text;
    this.sheet = sheet;
  }

  /**
   * Opens a folder and reads its sheet.
   *
   * @throws ProblemException where there is no sheet or it is wrong
   */
  public static Dossier open(Path folder) {
    Path file = folder.resolve(SHEET);
    if (!Files.isDirectory(folder)) {
      throw new ProblemException(
          Problem.of(folder.toString(), "is no folder", "name a folder with a " + SHEET));
    }
    if (!Files.isRegularFile(file)) {
      throw new ProblemException(
          Problem.of(
              folder.toString(), "holds no " + SHEET, "'cutaway new " + folder + "' writes one"));
    }
    String text = sheetText(file);
    return new Dossier(folder, text, SheetReader.read(text, SHEET));
  }

  private static String sheetText(Path file) {
    try {
      if (Files.size(file) > LARGEST_SHEET) {
        throw new ProblemException(
            Problem.of(SHEET, "is far too large for a sheet", "a sheet is a page of text"));
      }
      String text = Files.readString(file, StandardCharsets.UTF_8);
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new ProblemException(Problem.of(SHEET, "is no UTF-8 text", "save it as UTF-8"));
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(
              SHEET, "cannot be read (" + DurableFile.reason(e) + ")", "check its permissions"));
    }
  }

  /**
   * Writes one value into a folder's sheet; every other character stays.
   *
   * @param key dotted: box.port.length
   * @throws ProblemException where the result would be no valid sheet; it is then left as it was
   */
  public static void set(Path folder, String key, String value) {
    Path file = folder.resolve(SHEET);
    if (!Files.isRegularFile(file)) {
      throw new ProblemException(
          Problem.of(folder.toString(), "holds no " + SHEET, "'cutaway new' writes one"));
    }
    DurableFile.write(file, SheetEditor.set(sheetText(file), SHEET, key, value));
  }

  /** The folder. */
  public Path folder() {
    return folder;
  }

  /** What the tester wrote. */
  public Sheet sheet() {
    return sheet;
  }

  /**
   * A file named in the sheet.
   *
   * @throws ProblemException where it is missing or lies outside the dossier, by path or by link
   */
  public Path resolve(String name) {
    Path whole = folder.toAbsolutePath().normalize();
    Path file;
    try {
      file = whole.resolve(name).normalize();
    } catch (InvalidPathException e) {
      throw new ProblemException(Problem.of(name, "is no path", "name a file in the dossier"));
    }
    if (Path.of(name).isAbsolute() || !file.startsWith(whole)) {
      throw outside(name);
    }
    if (!Files.isRegularFile(file)) {
      throw new ProblemException(
          Problem.of(
              name,
              Files.isDirectory(file) ? "is a folder" : "is missing",
              "put the file there or correct 'file' in " + SHEET));
    }
    try {
      if (!file.toRealPath().startsWith(folder.toRealPath())) {
        throw outside(name);
      }
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(name, "cannot be reached (" + e.getMessage() + ")", "check the link"));
    }
    return file;
  }

  private static ProblemException outside(String name) {
    return new ProblemException(
        Problem.of(name, "lies outside the dossier", "copy the file into the dossier"));
  }

  /** Reads every take, without solving. */
  public Examination.Checked check() {
    return Examination.check(sheet, this::resolve);
  }

  /** The takes of the drive unit. */
  public Bench bench() {
    return Bench.load(sheet.forDriveUnit(), this::resolve);
  }

  /**
   * Solves; what neither sheet nor takes have changed since an earlier solve is taken from there.
   *
   * @param progress told in a word what is being done
   */
  public Solved solve(Consumer<String> progress) {
    Map<String, String> stamps = stamps();
    Map<String, String> files = files();
    Map<String, String> basis = new TreeMap<>(files);
    basis.put(PROGRAM, Program.fingerprint());
    basis.put(SHEET, Fingerprint.of(text));
    String key = Fingerprint.of(List.of(Program.fingerprint(), text, files.toString()));
    Kept kept = new Kept(folder.resolve(MADE).resolve("kept"), Program.fingerprint());
    String before = written(findings());
    if (kept.sealed(FINDINGS, key, before)) {
      Optional<Solved> solved = SolvedJson.read(before, Solved.class);
      if (solved.isPresent()) {
        return solved.get();
      }
    }
    Examination.Outcome outcome = Examination.run(sheet, this::resolve, files, kept, progress);
    Solved solved =
        new Solved(VERSION, basis, outcome.evidence(), outcome.understood(), outcome.findings());
    String now = SolvedJson.write(solved);
    if (!stamps().equals(stamps)) {
      throw new ProblemException(
          Problem.of(
              folder.toString(), "holds a take that changed while it was read", "solve it again"));
    }
    kept.seals(FINDINGS, key, now);
    keep(now, before, kept);
    return solved;
  }

  private Path findings() {
    return folder.resolve(MADE).resolve(FINDINGS + ".json");
  }

  /** Keeps a solve for next time; a folder that cannot be written to costs only that. */
  private void keep(String now, String before, Kept kept) {
    try {
      if (Files.isSymbolicLink(folder.resolve(MADE))) {
        throw new ProblemException(
            Problem.of(MADE, "is a link, and what it points to is not written to", "take it away"));
      }
      if (!now.equals(before)) {
        DurableFile.write(findings(), now);
      }
      kept.write(Examination.steps(sheet));
    } catch (ProblemException e) {
      notKept = Optional.of(e.problems().get(0));
    }
  }

  /** What a file holds now, empty where there is none. */
  private static String written(Path file) {
    try {
      boolean ours = Files.isRegularFile(file) && Files.size(file) < Kept.LARGEST;
      return ours ? Files.readString(file) : "";
    } catch (IOException e) {
      return "";
    }
  }

  /** Why the last solve could not be kept in the folder, absent where it was. */
  public Optional<Problem> notKept() {
    return notKept;
  }

  /** SHA-256 of every file that the sheet names. */
  private Map<String, String> files() {
    Map<String, String> out = new TreeMap<>();
    for (Sheet.TakeEntry take : sheet.takes()) {
      out.put(take.file(), hash(resolve(take.file())));
      take.calibration().ifPresent(c -> out.put(c.file(), hash(resolve(c.file()))));
    }
    for (SoundTake sound : sheet.sounds().takes()) {
      sound.files().forEach(f -> out.put(f, hash(resolve(f))));
    }
    return out;
  }

  /** Size and time of every file that the sheet names: whether one changes while it is read. */
  private Map<String, String> stamps() {
    Map<String, String> out = new TreeMap<>();
    for (Sheet.TakeEntry take : sheet.takes()) {
      out.put(take.file(), stamp(resolve(take.file())));
      take.calibration().ifPresent(c -> out.put(c.file(), stamp(resolve(c.file()))));
    }
    for (SoundTake sound : sheet.sounds().takes()) {
      sound.files().forEach(f -> out.put(f, stamp(resolve(f))));
    }
    return out;
  }

  private static String stamp(Path file) {
    try {
      return Files.size(file) + " " + Files.getLastModifiedTime(file);
    } catch (IOException e) {
      return "";
    }
  }

  static String hash(Path file) {
    MessageDigest digest = Fingerprint.digest();
    byte[] block = new byte[1 << 16];
    try (InputStream in = Files.newInputStream(file)) {
      for (int n = in.read(block); n >= 0; n = in.read(block)) {
        digest.update(block, 0, n);
      }
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(file.getFileName().toString(), "cannot be read", "check the file"));
    }
    return Fingerprint.of(digest);
  }
}
