package cutaway.acoustics.stimulus;

/**
 * Where each sample of a recording lies in a tone's course, worked out once for all its channels.
 */
public final class ToneGrid {
  final Tone tone;
  final double rate;

  /** First sample of the recording that lies in the tone. */
  final int from;

  /** Phase at each, cycles. */
  final double[] cycles;

  final double[] cosine;
  final double[] sine;

  /** Frequency at each over that at the start: turns sums over time into sums over phase. */
  final double[] growth;

  /**
   * Lays a tone over a recording.
   *
   * @param tone as it lies in the recording
   * @param rate samples per second
   * @param samples how long the recording is
   */
  public ToneGrid(Tone tone, double rate, int samples) {
    this.tone = tone;
    this.rate = rate;
    this.from = (int) Math.max(0, Math.ceil(tone.start() * rate));
    int n = Math.max(0, (int) Math.min(samples, Math.floor(tone.end() * rate) + 1) - from);
    cycles = new double[n];
    cosine = new double[n];
    sine = new double[n];
    growth = new double[n];
    for (int i = 0; i < n; i++) {
      double time = (from + i) / rate;
      cycles[i] = tone.cycles(time);
      double angle = 2 * Math.PI * (cycles[i] % 1);
      cosine[i] = Math.cos(angle);
      sine[i] = Math.sin(angle);
      growth[i] = tone.frequency(time) / tone.frequency();
    }
  }

  int size() {
    return cycles.length;
  }
}
