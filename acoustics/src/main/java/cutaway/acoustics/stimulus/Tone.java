package cutaway.acoustics.stimulus;

/**
 * A tone of steady frequency, or of one that grows exponentially, f e^{γ(t − start)}.
 *
 * @param start s
 * @param end s
 * @param frequency at the start, Hz
 * @param glide γ, 1/s; 0 where it is steady
 * @param phase at the start, cycles of a sine
 * @param amplitude peak, full scale at 1
 */
public record Tone(
    double start, double end, double frequency, double glide, double phase, double amplitude) {
  /** Frequency at a time, Hz. */
  public double frequency(double time) {
    return frequency * Math.exp(glide * (time - start));
  }

  /** Phase at a time, cycles. */
  public double cycles(double time) {
    double since = time - start;
    double x = glide * since;
    // (e^x − 1)/x is lost in rounding where x is small
    double stretched = Math.abs(x) < 1e-9 ? since : Math.expm1(x) / glide;
    return phase + frequency * stretched;
  }

  /** Time at which a gliding tone passes a frequency in Hz, s. */
  public double time(double frequency) {
    return start + Math.log(frequency / this.frequency) / glide;
  }

  /** Whether its frequency stands still. */
  public boolean isSteady() {
    return glide == 0;
  }

  /** The same as recorded by a clock that runs faster by a share and started earlier by a time. */
  public Tone recorded(double delay, double drift) {
    double stretch = 1 + drift;
    return new Tone(
        start * stretch + delay,
        end * stretch + delay,
        frequency / stretch,
        glide / stretch,
        phase,
        amplitude);
  }
}
