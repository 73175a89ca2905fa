package cutaway.bench.finding;

/**
 * A test that would tell more of a noise.
 *
 * @param what to do, as an instruction
 * @param bits of information it is expected to bring
 * @param minutes it takes, about
 * @param caution what to mind
 */
public record NextTest(String what, double bits, int minutes, String caution) {
  /** Made ready anew for each test, minutes. */
  private static final double READY = 4;

  /** Bits a minute, getting ready counted. */
  public double worth() {
    return bits / (minutes + READY);
  }
}
