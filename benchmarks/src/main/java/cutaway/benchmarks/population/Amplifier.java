package cutaway.benchmarks.population;

import java.util.Random;

/** What an amplifier makes of the voltage asked of it, step by step. */
interface Amplifier {
  /**
   * One step.
   *
   * @param wanted V
   * @param current that flows, A
   * @return V at the drive unit
   */
  double step(double wanted, double current);

  /** Does as it is told. */
  static Amplifier clean() {
    return (wanted, current) -> wanted;
  }

  /** Rails behind a rectifier and a reservoir, at which the output is cut off. */
  final class Rails implements Amplifier {
    private final double idle;
    private final double resistance;
    private final double reservoir;
    private final double mains;
    private final double softness;
    private double rail;
    private long n;

    /**
     * Makes it.
     *
     * @param idle rail without load, V
     * @param softness 0 cuts off hard, else the exponent with which it bends over
     */
    Rails(double idle, double resistance, double reservoir, double mains, double softness) {
      this.idle = idle;
      this.resistance = resistance;
      this.reservoir = reservoir;
      this.mains = mains;
      this.softness = softness;
      this.rail = idle;
    }

    @Override
    public double step(double wanted, double current) {
      double source = idle * Math.abs(Math.sin(Math.PI * mains * n++ * Motion.STEP));
      double charge = Math.max(0, source - rail) / resistance;
      rail += (charge - Math.abs(current)) / reservoir * Motion.STEP;
      rail = Math.max(0.3 * idle, rail);
      double size = Math.abs(wanted);
      double out =
          softness == 0
              ? Math.min(size, rail)
              : size / Math.pow(1 + Math.pow(size / rail, softness), 1 / softness);
      return Math.copySign(out, wanted);
    }
  }

  /** Cannot change faster than so many volts a second. */
  final class Slewing implements Amplifier {
    private final double limit;
    private double out;

    Slewing(double voltsPerSecond) {
      this.limit = voltsPerSecond * Motion.STEP;
    }

    @Override
    public double step(double wanted, double current) {
      out += Math.max(-limit, Math.min(limit, wanted - out));
      return out;
    }
  }

  /** Turns itself down above one level and up again only below another. */
  final class Pumping implements Amplifier {
    private final double upper;
    private final double lower;
    private final double attack;
    private final double release;
    private final double least;
    private double level;
    private double gain = 1;
    private boolean down;

    Pumping(double upper, double lower, double attack, double release, double least) {
      this.upper = upper;
      this.lower = lower;
      this.attack = Motion.STEP / attack;
      this.release = Motion.STEP / release;
      this.least = least;
    }

    @Override
    public double step(double wanted, double current) {
      double out = gain * wanted;
      double size = Math.abs(out);
      // falls slowly, so that it holds the peak from one half cycle to the next
      level = size > level ? level + (size - level) * 0.02 : level * (1 - 8 * Motion.STEP);
      down = down ? level > lower : level > upper;
      gain += down ? (least - gain) * attack : (1 - gain) * release;
      return out;
    }
  }

  /** Goes silent for a while when the mean level is too high. */
  final class Protection implements Amplifier {
    private final double threshold;
    private final double averaging;
    private final int steps;
    private double mean;
    private int left;

    Protection(double threshold, double averaging, double seconds) {
      this.threshold = threshold;
      this.averaging = Motion.STEP / averaging;
      this.steps = (int) (seconds * Motion.RATE);
    }

    @Override
    public double step(double wanted, double current) {
      double out = left > 0 ? 0 : wanted;
      left--;
      mean += (Math.abs(out) - mean) * averaging;
      if (left <= 0 && mean > threshold) {
        left = steps;
      }
      return out;
    }
  }

  /** A contact that opens now and then, and bounces. */
  final class LooseContact implements Amplifier {
    private final Random random;
    private final double rate;
    private int left;
    private int bounce;
    private boolean open;

    LooseContact(double timesPerSecond, Random random) {
      this.rate = timesPerSecond * Motion.STEP;
      this.random = random;
    }

    @Override
    public double step(double wanted, double current) {
      if (left <= 0 && random.nextDouble() < rate) {
        left = (int) ((0.02 + 0.2 * random.nextDouble()) * Motion.RATE);
      }
      if (left > 0) {
        left--;
        if (--bounce <= 0) {
          open = left > 2000 ? random.nextDouble() < 0.85 : random.nextBoolean();
          bounce = (int) ((0.0003 + 0.003 * random.nextDouble()) * Motion.RATE);
        }
        return open ? 0 : wanted;
      }
      return wanted;
    }
  }

  /** Adds a voltage of its own. */
  final class Adding implements Amplifier {
    private final Amplifier to;
    private final double[] voltage;
    private int at;

    Adding(Amplifier to, double[] voltage) {
      this.to = to;
      this.voltage = voltage;
    }

    @Override
    public double step(double wanted, double current) {
      return to.step(wanted, current) + voltage[at++ % voltage.length];
    }
  }
}
