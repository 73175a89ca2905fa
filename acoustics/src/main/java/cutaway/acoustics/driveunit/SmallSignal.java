package cutaway.acoustics.driveunit;

import cutaway.acoustics.air.Air;
import java.util.Optional;
import org.hipparchus.complex.Complex;
import org.jtransforms.fft.DoubleFFT_1D;

/**
 * Small-signal behaviour of a drive unit in its box: sound pressure, excursion, port air, delay.
 *
 * <p>The drive unit and box are lumped; the radiators are small against the wavelength and the
 * distances between them too, so the pressure holds below the frequency where ka of the diaphragm
 * nears one and where the cabinet stops being small. Equations in {@code docs/methods/box.md}.
 */
public final class SmallSignal {
  private final TakeModel model;
  private final double movingMass;
  private final double area;
  private final Air air;
  private final Drive drive;
  private final double[] motion = new double[12];
  private final double[] voltage = new double[2];

  /** State at one frequency: rms phasors. */
  private final double[] cone = new double[2];

  private final double[] total = new double[2];
  private final double[] port = new double[2];
  private double solved = Double.NaN;

  SmallSignal(TakeModel model, double movingMass, double area, Air air, Drive drive) {
    this.model = model;
    this.movingMass = movingMass;
    this.area = area;
    this.air = air;
    this.drive = drive;
  }

  /** Solves for the cone's velocity (m/s) and the volume velocities (m³/s) at f. */
  private void solve(double f) {
    if (f == solved) {
      return;
    }
    solved = f;
    model.motion(f, motion);
    voltage[0] = drive.volts();
    voltage[1] = 0;
    for (Drive.Filter filter : drive.filters()) {
      filter.apply(f, voltage);
    }
    double zRe = motion[0] + drive.sourceResistance();
    double zIm = motion[1];
    // v = Bl I / (ω_s M z), I = E/(R_g + Z)
    double bl = Math.sqrt(model.motor() * 2 * Math.PI * model.fs() * movingMass);
    double scale = bl / (2 * Math.PI * model.fs() * movingMass);
    double dRe = zRe * motion[2] - zIm * motion[3];
    double dIm = zRe * motion[3] + zIm * motion[2];
    double inv = scale / (dRe * dRe + dIm * dIm);
    cone[0] = (voltage[0] * dRe + voltage[1] * dIm) * inv;
    cone[1] = (voltage[1] * dRe - voltage[0] * dIm) * inv;
    share(4, port);
    port[0] = -port[0];
    port[1] = -port[1];
    // U_d + U_port + U_leak = U_d y_spring / y
    share(8, total);
  }

  /** U_d times a branch over y. */
  private void share(int branch, double[] out) {
    double inv = area / (motion[10] * motion[10] + motion[11] * motion[11]);
    double re = (motion[branch] * motion[10] + motion[branch + 1] * motion[11]) * inv;
    double im = (motion[branch + 1] * motion[10] - motion[branch] * motion[11]) * inv;
    out[0] = cone[0] * re - cone[1] * im;
    out[1] = cone[0] * im + cone[1] * re;
  }

  /** Level at 1 m in half space, dB re 20 µPa rms; full space is 6.02 dB less. */
  public double level(double f) {
    return 20 * Math.log10(pressure(f) / 20e-6);
  }

  /** Pressure at 1 m in half space, Pa rms. */
  public double pressure(double f) {
    solve(f);
    return air.density().value() * f * Math.hypot(total[0], total[1]);
  }

  /** Phase of that pressure without the way to the microphone, rad. */
  public double phase(double f) {
    solve(f);
    return Math.atan2(total[0], -total[1]);
  }

  /** Half-space pressure phasor at 1 m without the way to the microphone, Pa rms. */
  void pressure(double f, double[] out) {
    solve(f);
    double scale = air.density().value() * f;
    out[0] = -scale * total[1];
    out[1] = scale * total[0];
  }

  /** Peak excursion of the diaphragm, m. */
  public double excursion(double f) {
    solve(f);
    return Math.sqrt(2) * Math.hypot(cone[0], cone[1]) / (2 * Math.PI * f);
  }

  /**
   * Peak air speed in a port, m/s.
   *
   * @param portArea cross-section of all ports together, m²
   */
  public double portSpeed(double f, double portArea) {
    solve(f);
    return Math.sqrt(2) * Math.hypot(port[0], port[1]) / portArea;
  }

  /** Volume velocity of the port, m³/s rms. */
  public double portFlow(double f) {
    solve(f);
    return Math.hypot(port[0], port[1]);
  }

  /** Its parts at a frequency; absent where no box shuts the air in. */
  public Optional<Network> network(double f) {
    if (model.alpha() == 0) {
      return Optional.empty();
    }
    solve(f);
    double omegaS = 2 * Math.PI * model.fs();
    double bl = Math.sqrt(model.motor() * omegaS * movingMass);
    double compliance = area * area / (model.alpha() * omegaS * omegaS * movingMass);
    Complex spring = new Complex(0, 2 * Math.PI * f * compliance);
    Complex whole = spring.multiply(new Complex(motion[10], motion[11]));
    Complex mechanical = new Complex(motion[2], motion[3]).multiply(omegaS * movingMass);
    return Optional.of(
        new Network(
            f,
            new Complex(voltage[0], voltage[1]),
            new Complex(motion[0] + drive.sourceResistance(), motion[1])
                .subtract(mechanical.reciprocal().multiply(bl * bl)),
            drive.sourceResistance(),
            bl,
            mechanical.subtract(whole.reciprocal().multiply(area * area)),
            area,
            spring.multiply(new Complex(motion[8], motion[9])),
            spring.multiply(new Complex(motion[6], motion[7])),
            spring.multiply(new Complex(motion[4], motion[5]))));
  }

  /** Group delay of the pressure, s, by a central difference over 0.2 % of f. */
  public double groupDelay(double f) {
    double h = 1e-3 * f;
    double turn = phase(f + h) - phase(f - h);
    turn -= 2 * Math.PI * Math.rint(turn / (2 * Math.PI));
    return -turn / (2 * Math.PI * 2 * h);
  }

  /**
   * Level that the piston range tends to above resonance, without coil inductance, dB re 20 µPa at
   * 1 m in half space.
   */
  public double referenceLevel() {
    double omegaS = 2 * Math.PI * model.fs();
    double bl = Math.sqrt(model.motor() * omegaS * movingMass);
    double p =
        air.density().value()
            * area
            * bl
            * drive.volts()
            / (2 * Math.PI * (model.resistance() + drive.sourceResistance()) * movingMass);
    return 20 * Math.log10(p / 20e-6);
  }

  /**
   * Pressure at 1 m in half space after the voltage steps from 0 to the drive's rms value, Pa.
   *
   * @param rate samples per second
   * @param samples how many; the transform takes four times as long a record so that the tail does
   *     not come round again
   */
  public double[] step(double rate, int samples) {
    int n = 4 * Integer.highestOneBit(Math.max(2, samples - 1) * 2);
    double[] spectrum = new double[n];
    double[] p = new double[2];
    for (int k = 1; k < n / 2; k++) {
      double f = k * rate / n;
      pressure(f, p);
      double omega = 2 * Math.PI * f;
      // a raised cosine over the top octave keeps the cut from ringing
      double taper = f > rate / 4 ? 0.5 * (1 + Math.cos(Math.PI * (4 * f / rate - 1))) : 1;
      spectrum[2 * k] = p[1] / omega * taper;
      spectrum[2 * k + 1] = -p[0] / omega * taper;
    }
    new DoubleFFT_1D(n).realInverse(spectrum, true);
    double[] out = new double[samples];
    for (int i = 0; i < samples; i++) {
      out[i] = spectrum[i] * rate;
    }
    return out;
  }
}
