package cutaway.bench.finding;

/**
 * A reading or take that would tell more.
 *
 * @param what what to do
 * @param tells which quantity it would sharpen most
 * @param before its relative standard uncertainty now; infinite where nothing tells it
 * @param after what it would be, computed from the Fisher information
 */
public record NextReading(String what, String tells, double before, double after) {
  /** What it would bring, in words. */
  public String gain() {
    String now = Double.isInfinite(before) ? ", now unknown," : " from " + percent(before);
    return tells + now + " to " + percent(after);
  }

  private static String percent(double x) {
    return "± " + Shown.digits(100 * x, 2) + " %";
  }
}
