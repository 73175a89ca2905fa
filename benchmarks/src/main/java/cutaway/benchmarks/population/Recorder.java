package cutaway.benchmarks.population;

import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.benchmarks.population.SimulatedTake.Intervention;
import cutaway.benchmarks.population.SimulatedTake.Margin;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;

/** One invented unit on the bench: what it does, what the microphones make of it, all the noise. */
final class Recorder {
  private static final double IDLE = 5;

  /** How strongly a hand damps a panel. */
  private static final double HAND = 12;

  /** Share of the loose parts of a cabinet that are plates in it. */
  private static final double PLATES = 0.4;

  /** Level over background below which there is nothing, dB. */
  private static final double SILENT = -80;

  private static final Set<Fault> IN_CABINET =
      EnumSet.of(
          Fault.LOOSE_ON_PANEL,
          Fault.PANEL_BUZZ,
          Fault.LOOSE_TRIM,
          Fault.AIR_LEAK,
          Fault.PORT_NOISE);

  /** Share of the units that have an accelerometer on a wall. */
  private static final double SHAKING = 0.3;

  private final Loudspeaker unit;
  private final Set<Fault> faults;
  private final Set<Nuisance> nuisances;
  private final double mains;
  private final boolean electrical;
  private final Random random;
  private final Microphones microphones;
  private final double volts;
  private final RoomNoise room;
  private final Map<Fault, Defect> defects = new EnumMap<>(Fault.class);
  private final Map<Fault, Double> scales = new EnumMap<>(Fault.class);
  private final Map<Fault, Double> wished = new EnumMap<>(Fault.class);
  private final Map<Fault, Double> heard = new EnumMap<>(Fault.class);
  private final Map<Fault, Long> seeds = new EnumMap<>(Fault.class);
  private final boolean throughInput;
  private final Optional<Accelerometer> accelerometer;

  Recorder(
      Loudspeaker unit,
      Set<Fault> faults,
      Set<Nuisance> nuisances,
      double mains,
      boolean electrical,
      long seed) {
    this.unit = unit;
    this.faults = faults;
    this.nuisances = nuisances;
    this.mains = mains;
    this.electrical = electrical;
    this.random = new Random(seed);
    this.microphones = new Microphones(unit, random);
    this.volts =
        unit.voltageFor(
            unit.cone().reach() * Loudspeaker.in(random, 0.4, 0.8), Loudspeaker.in(random, 4, 10));
    this.room = new RoomNoise(random, Loudspeaker.in(random, 24, 34), mains);
    this.throughInput = faults.contains(Fault.HUM_GROUND_LOOP) || random.nextDouble() < 0.2;
    Random own = new Random(seed * 3001 + 5);
    this.accelerometer =
        own.nextDouble() < SHAKING ? Optional.of(new Accelerometer(own)) : Optional.empty();
    for (Fault f : faults) {
      wished.put(f, Loudspeaker.in(random, 2, 40));
      seeds.put(f, random.nextLong());
    }
  }

  /**
   * Where in what is already recorded some fault is heard best, Hz; 0 where none is. A wall swings
   * longest after a sweep has passed its resonance; a tester turns the tone until it is loudest.
   */
  double heardAt() {
    double best = heard.values().stream().mapToDouble(Double::doubleValue).max().orElse(0);
    if (heard.containsKey(Fault.LOOSE_ON_PANEL) || heard.containsKey(Fault.PANEL_BUZZ)) {
      for (Loudspeaker.Panel p : unit.panels()) {
        if (best > p.frequency() && best < 1.15 * p.frequency()) {
          return p.frequency() * Loudspeaker.in(random, 0.995, 1.005);
        }
      }
    }
    return best;
  }

  /**
   * Level at which a defect first acts on a steady tone, dB against what is played; found by
   * halving from 30 dB below to just there.
   */
  double onset(Fault fault, double frequency) {
    double low = -30;
    double high = 0;
    while (high - low > 0.1) {
      double middle = (low + high) / 2;
      double amplitude = Math.pow(10, middle / 20);
      TestSignal tone = new SteadyTone(frequency, List.of(amplitude), 1, 0, 0);
      double[] wanted = new double[(int) (1.05 * Motion.RATE)];
      place(tone.samples(Motion.RATE), volts, 0, wanted);
      Motion motion = Motion.of(unit, wanted, Amplifier.clean(), true, false);
      boolean acts =
          Objects.requireNonNull(defects.get(fault), "no take yet").of(motion, unit).acts();
      low = acts ? low : middle;
      high = acts ? middle : high;
    }
    return (low + high) / 2;
  }

  boolean throughInput() {
    return throughInput;
  }

  SimulatedTake record(Optional<TestSignal> signal, Intervention done) {
    double delay = Loudspeaker.in(random, 0.004, 0.04);
    double seconds = signal.map(s -> s.duration() + 0.1).orElse(IDLE);
    int n = (int) (seconds * Motion.RATE);
    double[] wanted = new double[n];
    signal.ifPresent(
        s -> place(s.samples(Motion.RATE), volts, (int) (delay * Motion.RATE), wanted));
    Loudspeaker now = done == Intervention.HAND_ON_PANEL ? held() : unit;
    boolean boxed = done != Intervention.OUT_OF_BOX;
    boolean blocked = done == Intervention.PORT_BLOCKED;
    boolean withoutTrim = done == Intervention.TRIM_OFF;
    Motion clean = Motion.of(now, wanted, Amplifier.clean(), boxed, blocked);
    Motion real = clean;
    boolean ownAmplifier = done != Intervention.OTHER_AMPLIFIER;
    if (ownAmplifier && faults.stream().anyMatch(Recorder::isElectrical)) {
      real = Motion.of(now, wanted, amplifier(faults, n, done), boxed, blocked);
    }
    double[][] sound = microphones.hear(real, now, boxed);
    double[][] cleanSound = real == clean ? sound : microphones.hear(clean, now, boxed);
    double[][] noise = room.noise(sound[0].length);
    for (Nuisance x : nuisances) {
      if (x.isSound()) {
        room.hear(x, noise);
      }
    }
    double[][] rest = copy(cleanSound);
    Microphones.add(rest, noise);
    List<Margin> margins = new ArrayList<>();
    // music hides what it is judged against
    boolean tones = signal.map(s -> !s.tones().isEmpty()).orElse(true);
    double[][] total = copy(sound);
    Microphones.add(total, noise);
    Scene scene =
        new Scene(
            real,
            now,
            boxed,
            withoutTrim,
            done == Intervention.HAND_ON_PANEL,
            sound,
            cleanSound,
            rest,
            signal,
            delay);
    Motion shakes = real;
    Optional<double[]> shaking =
        accelerometer.map(a -> a.own(shakes, sound[Microphones.COUNT - 1], boxed));
    for (Fault f : faults) {
      double[][] own =
          isElectrical(f) ? alone(f, scene, wanted, done).added() : moving(f, scene, shaking);
      if (tones) {
        Standing.Best best = Standing.of(own, rest, signal, delay);
        boolean acts = best.decibels() > SILENT;
        margins.add(new Margin(f, acts, best.decibels(), best.frequency()));
        heard.merge(f, best.frequency(), Math::max);
      }
      if (!isElectrical(f)) {
        Microphones.add(total, own);
      }
    }
    for (Nuisance x : nuisances) {
      if (!x.isSound()) {
        room.disturb(x, total, real);
      }
    }
    return new SimulatedTake(
        signal,
        done,
        volts,
        total,
        electrical ? Optional.of(converted(Microphones.decimated(real.voltage))) : Optional.empty(),
        electrical ? Optional.of(converted(Microphones.decimated(real.current))) : Optional.empty(),
        shaking,
        margins);
  }

  private static boolean isElectrical(Fault f) {
    return f.kind() == Fault.Kind.AMPLIFIER || f.kind() == Fault.Kind.VOLTAGE;
  }

  /** What is recorded, without the defects that make sound of their own. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Scene(
      Motion motion,
      Loudspeaker unit,
      boolean boxed,
      boolean withoutTrim,
      boolean held,
      double[][] sound,
      double[][] cleanSound,
      double[][] rest,
      Optional<TestSignal> signal,
      double delay) {
    /** What a faulty amplifier adds to the sound. */
    double[][] added() {
      double[][] out = copy(sound);
      for (int m = 0; m < out.length; m++) {
        for (int i = 0; i < out[m].length; i++) {
          out[m][i] -= cleanSound[m][i];
        }
      }
      return out;
    }
  }

  /** With this electrical fault and no other. */
  private Scene alone(Fault f, Scene scene, double[] wanted, Intervention done) {
    if (faults.stream().filter(Recorder::isElectrical).count() < 2
        || done == Intervention.OTHER_AMPLIFIER) {
      return scene;
    }
    boolean blocked = done == Intervention.PORT_BLOCKED;
    Amplifier amplifier = amplifier(EnumSet.of(f), wanted.length, done);
    Motion motion = Motion.of(scene.unit, wanted, amplifier, scene.boxed, blocked);
    return new Scene(
        motion,
        scene.unit,
        scene.boxed,
        scene.withoutTrim,
        scene.held,
        microphones.hear(motion, scene.unit, scene.boxed),
        scene.cleanSound,
        scene.rest,
        scene.signal,
        scene.delay);
  }

  /** The sound of a defect, as loud as was drawn for where it is first heard. */
  private double[][] moving(Fault f, Scene scene, Optional<double[]> shaking) {
    Emission emission = emission(f, scene);
    if (!emission.acts()) {
      return new double[Microphones.COUNT][scene.sound[0].length];
    }
    double[][] own = microphones.hear(emission.sound(), emission.place());
    if (!scales.containsKey(f)) {
      double over = Standing.of(own, scene.rest, scene.signal, scene.delay).decibels();
      scales.put(f, Math.pow(10, (wished.getOrDefault(f, 0.0) - over) / 20));
    }
    double scale = scales.getOrDefault(f, 1.0);
    shaking.ifPresent(s -> accelerometer.orElseThrow().add(emission, scale, s));
    for (double[] x : own) {
      for (int i = 0; i < x.length; i++) {
        x[i] *= scale;
      }
    }
    return own;
  }

  private static double[][] copy(double[][] x) {
    double[][] out = new double[x.length][];
    for (int m = 0; m < x.length; m++) {
      out[m] = x[m].clone();
    }
    return out;
  }

  private static void place(double[] x, double scale, int from, double[] to) {
    for (int i = 0; i < x.length && from + i < to.length; i++) {
      to[from + i] = scale * x[i];
    }
  }

  private Loudspeaker held() {
    List<Loudspeaker.Panel> panels =
        unit.panels().stream()
            .map(
                p ->
                    new Loudspeaker.Panel(
                        1.3 * p.mass(),
                        1.3 * p.stiffness(),
                        HAND * p.resistance(),
                        p.driven(),
                        p.radiating()))
            .toList();
    return new Loudspeaker(
        unit.size(), unit.vented(), unit.coil(), unit.cone(), unit.box(), panels);
  }

  private Amplifier amplifier(Set<Fault> present, int n, Intervention done) {
    Amplifier out = Amplifier.clean();
    for (Fault f : present) {
      Random r = new Random(seeds.getOrDefault(f, 0L));
      switch (f) {
        case CLIPPING_HARD ->
            out =
                new Amplifier.Rails(
                    volts * Loudspeaker.in(r, 0.6, 0.92),
                    0.4,
                    Loudspeaker.in(r, 3e-3, 10e-3),
                    mains,
                    0);
        case CLIPPING_SOFT ->
            out =
                new Amplifier.Rails(
                    volts * Loudspeaker.in(r, 0.8, 1.3),
                    0.3,
                    Loudspeaker.in(r, 3e-3, 10e-3),
                    mains,
                    Loudspeaker.in(r, 2, 5));
        case SLEWING ->
            out = new Amplifier.Slewing(2 * Math.PI * Loudspeaker.over(r, 200, 1200) * volts);
        case LIMITER_PUMPING -> {
          double upper = volts * Loudspeaker.in(r, 0.5, 0.85);
          double lower = upper * Loudspeaker.in(r, 0.5, 0.75);
          out =
              new Amplifier.Pumping(
                  upper,
                  lower,
                  Loudspeaker.in(r, 0.01, 0.04),
                  Loudspeaker.in(r, 0.05, 0.2),
                  // lower than where it lets go again, or it would not hunt
                  lower / volts * Loudspeaker.in(r, 0.5, 0.9));
        }
        case PROTECTION_MUTE ->
            out =
                new Amplifier.Protection(
                    volts * Loudspeaker.in(r, 0.38, 0.6),
                    Loudspeaker.in(r, 0.1, 0.3),
                    Loudspeaker.in(r, 0.15, 0.5));
        case CONTACT_MUTE ->
            out =
                new Amplifier.LooseContact(
                    Loudspeaker.in(r, 0.4, 1.5), new Random(random.nextLong()));
        default -> {
          if (f.kind() == Fault.Kind.VOLTAGE
              && !(throughInput && done == Intervention.INPUTS_SHORTED)) {
            double rms = Loudspeaker.over(r, 4e-4, 1.2e-2);
            out = new Amplifier.Adding(out, Voltages.of(f, n, mains, rms, r));
          }
        }
      }
    }
    return out;
  }

  private Emission emission(Fault f, Scene scene) {
    int n = scene.motion.size();
    if (f == Fault.TRANSFORMER) {
      // its supply stays on whatever amplifier plays
      Random own = new Random(seeds.getOrDefault(f, 0L));
      return new Emission(
          Emission.Place.WALL, Voltages.comb(n, 2 * mains, own, 6, k -> Math.pow(k, -1.5)), true);
    }
    boolean still = scene.signal.isEmpty();
    if (still || (!scene.boxed && IN_CABINET.contains(f))) {
      return new Emission(Emission.Place.WALL, new double[n], false);
    }
    if (scene.withoutTrim && f == Fault.LOOSE_TRIM) {
      return new Emission(Emission.Place.FRONT, new double[n], false);
    }
    Defect defect = defects.computeIfAbsent(f, k -> defect(k, scene.motion));
    boolean held = scene.held && defect instanceof Defect.LoosePart;
    return (held ? ((Defect.LoosePart) defect).held() : defect).of(scene.motion, scene.unit);
  }

  private Defect defect(Fault f, Motion motion) {
    Random r = new Random(seeds.getOrDefault(f, 0L));
    return switch (f) {
      case COIL_RUB -> Defect.CoilRub.draw(r, most(motion.displacement));
      case LOOSE_ON_CONE ->
          Defect.LoosePart.draw(r, Defect.LoosePart.Seat.CONE, most(motion.acceleration));
      case LOOSE_ON_PANEL -> looseOnPanel(r, motion);
      case PANEL_BUZZ -> Defect.PanelBuzz.draw(r, most(motion.panel[0]));
      case LOOSE_TRIM -> Defect.LooseTrim.draw(r, motion);
      case WIRE_SLAP -> Defect.Swinging.wire(r, motion);
      case LOOSE_CAP -> Defect.Swinging.cap(r, motion);
      case AIR_LEAK -> Defect.AirLeak.draw(r);
      case PORT_NOISE -> Defect.PortNoise.draw(r, most(motion.portFlow) / unit.box().portArea());
      default -> throw new IllegalStateException(f + " is no defect of moving parts");
    };
  }

  private Defect looseOnPanel(Random r, Motion motion) {
    boolean plate =
        new Random(seeds.getOrDefault(Fault.LOOSE_ON_PANEL, 0L) + 1).nextDouble() < PLATES;
    return plate
        ? Defect.LoosePart.draw(
            r, Defect.LoosePart.Seat.PLATE, most(Defect.LoosePart.pushed(motion)))
        : Defect.LoosePart.draw(r, Defect.LoosePart.Seat.PANEL, most(Motion.bend(motion.panel[0])));
  }

  static double most(double[] x) {
    double out = 0;
    for (double v : x) {
      out = Math.max(out, Math.abs(v));
    }
    return out;
  }

  /** As a converter has it. */
  private double[] converted(double[] x) {
    double floor = 3e-6 * most(x) + 2e-5;
    for (int i = 0; i < x.length; i++) {
      x[i] += floor * random.nextGaussian();
    }
    return x;
  }
}
