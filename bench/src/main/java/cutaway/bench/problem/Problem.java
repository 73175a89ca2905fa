package cutaway.bench.problem;

/**
 * Something wrong with a file, and how to mend it.
 *
 * @param file path within the dossier
 * @param line first line is 1; 0 where the place is the whole file
 * @param column first column is 1; 0 where not known
 * @param what what is wrong
 * @param remedy how to mend it
 */
public record Problem(String file, int line, int column, String what, String remedy) {
  /** A problem with a file as a whole. */
  public static Problem of(String file, String what, String remedy) {
    return new Problem(file, 0, 0, what, remedy);
  }

  /** File, place, cause and remedy in one sentence. */
  public String sentence() {
    String place = line > 0 ? ":" + line + (column > 0 ? ":" + column : "") : "";
    return file + place + ": " + what + (remedy.isEmpty() ? "" : "; " + remedy);
  }
}
