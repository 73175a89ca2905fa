package cutaway.benchmarks.population;

import cutaway.benchmarks.population.Emission.Place;
import java.util.Random;

/**
 * A mechanical or aerodynamic defect. The masses that take part are so small that they do not act
 * back on the loudspeaker: each is moved by what the loudspeaker does and strikes it.
 */
sealed interface Defect {
  /** What it sounds like when the loudspeaker moves so. */
  Emission of(Motion motion, Loudspeaker unit);

  private static double most(double[] x) {
    double out = 0;
    for (double v : x) {
      out = Math.max(out, Math.abs(v));
    }
    return out;
  }

  /** Hertz contact with losses, for each kg: κ δ^1.5 (1 + c dδ/dt), never pulling. */
  private static double contact(double stiffness, double depth, double speed) {
    return depth <= 0
        ? 0
        : Math.max(0, stiffness * depth * Math.sqrt(depth) * (1 + 0.3 * speed / Math.sqrt(depth)));
  }

  /** Stiffness that rings at a frequency under so much acceleration, 1/(s² √m). */
  private static double stiffness(double frequency, double acceleration) {
    double w = 2 * Math.PI * frequency;
    double depth = 1.5 * acceleration / (w * w);
    return acceleration / (depth * Math.sqrt(depth));
  }

  /**
   * The coil rubs: tilted in proportion to displacement until it touches the gap, dragged by
   * Stribeck friction over a rough winding.
   *
   * @param side 1 or −1 where it touches on one way only, 0 on both
   * @param touches displacement at which it does, m
   */
  record CoilRub(int side, double touches, double lateral, double pitch, long seed)
      implements Defect {
    private static final double GAP = 1.5e-4;

    static CoilRub draw(Random r, double reached) {
      return new CoilRub(
          r.nextInt(3) - 1,
          reached * Loudspeaker.in(r, 0.5, 0.95),
          Loudspeaker.in(r, 180, 420),
          Loudspeaker.in(r, 2e-4, 4.5e-4),
          r.nextLong());
    }

    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      Random r = new Random(seed);
      double[] profile = r.doubles(4096).map(v -> v - 0.5).toArray();
      Structure structure = Structure.cone(r);
      double hold = 2 * Math.PI * Loudspeaker.in(r, 900, 2500);
      double w = 2 * Math.PI * lateral;
      double[] force = new double[motion.size()];
      double y = 0;
      double v = 0;
      boolean acts = false;
      for (int n = 1; n < force.length; n++) {
        double x = motion.displacement[n];
        double tilt = GAP / touches * (side == 0 ? Math.abs(x) : side * x);
        double turn = x / pitch;
        double rough =
            4e-6
                * (Math.sin(2 * Math.PI * turn)
                    + profile[(int) Math.floorMod((long) Math.floor(40 * turn), 4096L)]);
        double depth = Math.max(0, y - GAP + rough);
        double normal = hold * hold * depth;
        acts |= depth > 0 && tilt > 0.9 * GAP;
        double a = w * w * (tilt - y) - 0.4 * w * v - normal;
        v += a * Motion.STEP;
        y += v * Motion.STEP;
        double slide = (x - motion.displacement[n - 1]) * Motion.RATE;
        double drag = (0.2 + 0.15 * Math.exp(-Math.abs(slide) / 0.02)) * Math.signum(slide);
        force[n] = normal * (drag + 0.1);
      }
      return new Emission(Place.CONE, structure.sound(force), acts);
    }
  }

  /**
   * A part that rests on its seat and lifts off when it is shaken or pushed hard enough.
   *
   * @param lifts acceleration at which it does, m/s²
   */
  record LoosePart(Seat seat, double lifts, double ring, long seed) implements Defect {
    /** How much harder a hand holds it. */
    private static final double HAND = 10;

    /** Share of the hands laid on a wall that lie on a plate in it. */
    private static final double MET = 0.75;

    /** Of a plate that the pressure pushes, kg/m². */
    private static final double PLATE = 5;

    /** Where it rests. */
    enum Seat {
      CONE,
      PANEL,
      /** A plate in a wall, for terminals or an amplifier, which the pressure in the box lifts. */
      PLATE
    }

    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      Random r = new Random(seed);
      double share = Loudspeaker.in(r, 0.6, 1);
      double[] force = strikes(base(motion, share), lifts, ring);
      boolean acts = most(force) > 0;
      boolean onCone = seat == Seat.CONE;
      Structure structure = onCone ? Structure.cone(r) : Structure.panel(r);
      return new Emission(onCone ? Place.CONE : Place.WALL, structure.sound(force), acts);
    }

    private double[] base(Motion motion, double share) {
      return switch (seat) {
        case CONE -> motion.acceleration;
        case PLATE -> pushed(motion);
        case PANEL -> {
          double[] one = Motion.bend(motion.panel[0]);
          double[] two = Motion.bend(motion.panel[1]);
          double[] out = new double[one.length];
          for (int n = 0; n < out.length; n++) {
            out[n] = share * one[n] + (1 - share) * two[n];
          }
          yield out;
        }
      };
    }

    /** Acceleration that the pressure gives a plate, inward. */
    static double[] pushed(Motion motion) {
      double[] out = new double[motion.size()];
      for (int n = 0; n < out.length; n++) {
        out[n] = -motion.pressure[n] / PLATE;
      }
      return out;
    }

    /** While a hand lies on the wall; it may lie beside a plate. */
    LoosePart held() {
      boolean met = seat == Seat.PLATE && new Random(seed * 31 + 5).nextDouble() < MET;
      return met ? new LoosePart(seat, HAND * lifts, ring, seed) : this;
    }

    /** Force for each kg over its rest; all zero where it never lifts off. */
    static double[] strikes(double[] base, double lifts, double ring) {
      double stiff = stiffness(ring, lifts);
      double w = 2 * Math.PI * ring;
      double z = -1.5 * lifts / (w * w);
      double v = 0;
      double[] force = new double[base.length];
      boolean acts = false;
      for (int n = 0; n < force.length; n++) {
        double push = contact(stiff, -z, -v);
        acts |= z > 0;
        double a = push - lifts - base[n];
        v += a * Motion.STEP;
        z += v * Motion.STEP;
        force[n] = push - lifts;
      }
      return acts ? force : new double[force.length];
    }

    static LoosePart draw(Random r, Seat seat, double reached) {
      return new LoosePart(
          seat, reached * Loudspeaker.in(r, 0.3, 0.9), Loudspeaker.in(r, 1500, 4500), r.nextLong());
    }
  }

  /**
   * A trim or grille on the front, shaken by the cone's sound, that lifts off its seat.
   *
   * @param own frequency at which it swings, Hz
   * @param lifts acceleration that lifts it, m/s²
   * @param ring of its contact, Hz
   */
  record LooseTrim(double own, double lifts, double ring, long seed) implements Defect {
    private static final double QUALITY = 8;

    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      double[] force = LoosePart.strikes(shaken(motion, own), lifts, ring);
      double[] sound = Structure.panel(new Random(seed)).sound(force);
      return new Emission(Place.FRONT, sound, most(force) > 0);
    }

    private static double[] shaken(Motion motion, double own) {
      double[] out = new double[motion.size()];
      double[] state = new double[2];
      for (int n = 0; n < out.length; n++) {
        out[n] = Turbulence.band(motion.acceleration[n], own, QUALITY, state);
      }
      return out;
    }

    static LooseTrim draw(Random r, Motion motion) {
      double own = Loudspeaker.over(r, 70, 500);
      return new LooseTrim(
          own,
          most(shaken(motion, own)) * Loudspeaker.in(r, 0.3, 0.9),
          Loudspeaker.in(r, 1500, 4500),
          r.nextLong());
    }
  }

  /** A joint of the cabinet that closes a small gap when its panels move. */
  record PanelBuzz(double gap, double own, long seed) implements Defect {
    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      Random r = new Random(seed);
      double share = Loudspeaker.in(r, -1, 1);
      double w = 2 * Math.PI * own;
      double stiff = stiffness(Loudspeaker.in(r, 1500, 4000), gap * w * w);
      double z = 0;
      double v = 0;
      boolean acts = false;
      double[] force = new double[motion.size()];
      for (int n = 1; n < force.length; n++) {
        double apart = motion.panel[0][n] - share * motion.panel[1][n];
        double before = motion.panel[0][n - 1] - share * motion.panel[1][n - 1];
        double push = contact(stiff, apart - gap - z, (apart - before) * Motion.RATE - v);
        acts |= push > 0;
        double a = push - 0.06 * w * v - w * w * z;
        v += a * Motion.STEP;
        z += v * Motion.STEP;
        force[n] = push;
      }
      return new Emission(Place.WALL, Structure.panel(r).sound(force), acts);
    }

    static PanelBuzz draw(Random r, double reached) {
      return new PanelBuzz(
          reached * Loudspeaker.in(r, 0.25, 0.85), Loudspeaker.in(r, 500, 1500), r.nextLong());
    }
  }

  /**
   * A wire or a cap that hangs on the cone and strikes it, or its seat, on one side.
   *
   * @param own frequency at which it swings, Hz
   * @param side on which it strikes
   * @param gap m
   */
  record Swinging(double own, double damping, int side, double gap, long seed) implements Defect {
    /** Displacement of what swings and the force of its blows, one number a step. */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Course(double farthest, double[] force) {}

    private Course course(Motion motion, double stiff) {
      double w = 2 * Math.PI * own;
      double z = 0;
      double v = 0;
      double farthest = 0;
      double[] force = new double[motion.size()];
      for (int n = 0; n < force.length; n++) {
        double push = contact(stiff, side * z - gap, side * v);
        double a = -motion.acceleration[n] - 2 * damping * w * v - w * w * z - side * push;
        v += a * Motion.STEP;
        z += v * Motion.STEP;
        farthest = Math.max(farthest, Math.abs(z));
        force[n] = side * push;
      }
      return new Course(farthest, force);
    }

    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      Random r = new Random(seed);
      double w = 2 * Math.PI * own;
      double[] force =
          course(motion, stiffness(Loudspeaker.in(r, 1200, 3500), gap * w * w)).force();
      return new Emission(Place.CONE, Structure.cone(r).sound(force), most(force) > 0);
    }

    /** A lead wire: slow and well damped. */
    static Swinging wire(Random r, Motion motion) {
      return draw(
          r, motion, Loudspeaker.in(r, 28, 65), Loudspeaker.in(r, 0.04, 0.12), r.nextDouble());
    }

    /** A cap on a soft flap. */
    static Swinging cap(Random r, Motion motion) {
      return draw(
          r, motion, Loudspeaker.in(r, 140, 480), Loudspeaker.in(r, 0.02, 0.08), r.nextDouble());
    }

    private static Swinging draw(
        Random r, Motion motion, double own, double damping, double tightness) {
      // how far it would swing with nothing in its way
      double free =
          new Swinging(own, damping, 1, Double.POSITIVE_INFINITY, 0).course(motion, 0).farthest();
      double gap = free * (0.25 + 0.6 * tightness);
      return new Swinging(own, damping, r.nextBoolean() ? 1 : -1, gap, r.nextLong());
    }
  }

  /** A small hole through which the box blows: noise that grows as a power of the jet's speed. */
  record AirLeak(double length, double power, double inward, double peak, long seed)
      implements Defect {
    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      double[] envelope = new double[motion.size()];
      double v = 0;
      for (int n = 0; n < envelope.length; n++) {
        double drop = motion.pressure[n] - 0.5 * Loudspeaker.DENSITY / 0.37 * Math.abs(v) * v;
        v += drop / (Loudspeaker.DENSITY * length) * Motion.STEP;
        envelope[n] = Math.pow(Math.abs(v), power) * (v < 0 ? inward : 1);
      }
      boolean acts = most(envelope) > 0;
      return new Emission(Place.LEAK, Turbulence.of(envelope, peak, 0, seed), acts);
    }

    static AirLeak draw(Random r) {
      return new AirLeak(
          Loudspeaker.in(r, 0.008, 0.022),
          Loudspeaker.in(r, 2.8, 3.2),
          Loudspeaker.in(r, 0.25, 0.6),
          Loudspeaker.in(r, 400, 1500),
          r.nextLong());
    }
  }

  /**
   * Noise of the air in the port, above a speed.
   *
   * @param threshold m/s
   */
  record PortNoise(double threshold, double power, long seed) implements Defect {
    @Override
    public Emission of(Motion motion, Loudspeaker unit) {
      double area = unit.box().portArea();
      double[] envelope = new double[motion.size()];
      for (int n = 0; n < envelope.length; n++) {
        double v = Math.abs(motion.portFlow[n]) / area;
        envelope[n] = v > threshold ? Math.pow(v / threshold, power) : 0;
      }
      double pipe =
          Loudspeaker.SOUND_SPEED / (2 * (unit.box().portLength() + 0.8 * Math.sqrt(area)));
      boolean acts = most(envelope) > 0;
      return new Emission(
          Place.PORT, Turbulence.of(envelope, 600 + 0.4 * pipe, Math.min(3000, pipe), seed), acts);
    }

    static PortNoise draw(Random r, double reached) {
      return new PortNoise(
          reached * Loudspeaker.in(r, 0.3, 0.8), Loudspeaker.in(r, 3, 4), r.nextLong());
    }
  }
}
