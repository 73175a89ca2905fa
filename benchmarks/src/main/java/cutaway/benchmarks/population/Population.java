package cutaway.benchmarks.population;

import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.SteppedTones;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.benchmarks.population.SimulatedTake.Intervention;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;

/** Draws invented units with nothing, one thing or two things wrong with them. */
public final class Population {
  private static final double SOUND = 0.25;
  private static final double TWO = 0.12;
  private static final double NUISANCE_BESIDE = 0.15;
  private static final double NUISANCE_ALONE = 0.6;
  private static final double ELECTRICAL_CHANNELS = 0.6;
  private static final double KNOCKED = 0.4;
  private static final double MUSIC = 0.35;

  private Population() {}

  private record Drawn(SimulatedCase unit, Recorder recorder) {}

  /**
   * From which level on a fault sounds.
   *
   * @param frequency of a steady tone, where it was heard best, Hz
   * @param decibels against what was played
   */
  public record Onset(Fault fault, double frequency, double decibels) {}

  /** The case of a seed, the same each time. */
  public static SimulatedCase draw(long seed) {
    return drawn(seed).unit;
  }

  /** From which level on its driven faults that were heard sound. */
  public static List<Onset> onsets(long seed) {
    Drawn drawn = drawn(seed);
    List<Onset> out = new ArrayList<>();
    for (Fault f : drawn.unit.faults()) {
      OptionalDouble heard =
          drawn.unit.takes().stream()
              .filter(t -> t.intervention() == Intervention.NONE)
              .flatMap(t -> t.margins().stream())
              .filter(m -> m.fault() == f && m.acts() && m.frequency() > 0)
              .max(Comparator.comparingDouble(SimulatedTake.Margin::decibels))
              .map(m -> OptionalDouble.of(m.frequency()))
              .orElse(OptionalDouble.empty());
      if (f.kind() == Fault.Kind.DRIVEN && heard.isPresent()) {
        double at = heard.getAsDouble();
        out.add(new Onset(f, at, drawn.recorder.onset(f, at)));
      }
    }
    return out;
  }

  private static Drawn drawn(long seed) {
    Random r = new Random(seed * 7919 + 17);
    Loudspeaker unit = Loudspeaker.draw(r);
    Set<Fault> faults = faults(r, unit);
    Set<Nuisance> nuisances = EnumSet.noneOf(Nuisance.class);
    if (r.nextDouble() < (faults.isEmpty() ? NUISANCE_ALONE : NUISANCE_BESIDE)) {
      nuisances.add(any(r, Nuisance.values()));
    }
    boolean powered =
        faults.stream().anyMatch(f -> f.kind() != Fault.Kind.DRIVEN) || r.nextDouble() < 0.4;
    double mains = r.nextBoolean() ? 50 : 60;
    Recorder recorder =
        new Recorder(
            unit, faults, nuisances, mains, r.nextDouble() < ELECTRICAL_CHANNELS, r.nextLong());
    SimulatedCase out =
        new SimulatedCase(
            seed,
            unit.vented(),
            powered,
            unit.cone().resonance(),
            unit.vented() ? unit.box().tuning() : 0,
            rings(new Random(seed * 6007 + 29), unit),
            mains,
            faults,
            recorder.throughInput(),
            nuisances,
            takes(seed, r, unit, faults, recorder));
    return new Drawn(out, recorder);
  }

  /**
   * Rings of the wall that may buzz, where it was knocked, within a percent, and of other walls.
   */
  private static List<Double> rings(Random r, Loudspeaker unit) {
    List<Double> out = new ArrayList<>();
    if (r.nextDouble() < KNOCKED) {
      for (Loudspeaker.Panel p : unit.panels()) {
        out.add(p.frequency() * (1 + 0.01 * r.nextGaussian()));
      }
      int others = r.nextInt(4);
      for (int i = 0; i < others; i++) {
        out.add(Loudspeaker.over(r, 100, 700));
      }
    }
    return out;
  }

  private static <T> T any(Random r, T[] all) {
    return List.of(all).get(r.nextInt(all.length));
  }

  private static Set<Fault> faults(Random r, Loudspeaker unit) {
    Set<Fault> out = EnumSet.noneOf(Fault.class);
    if (r.nextDouble() < SOUND) {
      return out;
    }
    int wanted = r.nextDouble() < TWO ? 2 : 1;
    while (out.size() < wanted) {
      Fault f = any(r, Fault.values());
      // two amplifiers cannot be in line here
      boolean second =
          f.kind() == Fault.Kind.AMPLIFIER
              && out.stream().anyMatch(o -> o.kind() == Fault.Kind.AMPLIFIER);
      if (!second && (f != Fault.PORT_NOISE || unit.vented())) {
        out.add(f);
      }
    }
    return out;
  }

  /** What a tester would record, not knowing what is wrong but where it is heard. */
  private static List<SimulatedTake> takes(
      long seed, Random r, Loudspeaker unit, Set<Fault> faults, Recorder rec) {
    List<SimulatedTake> out = new ArrayList<>(signals(r, unit, faults, rec));
    Random music = new Random(seed * 4007 + 11);
    boolean driven = out.stream().anyMatch(t -> t.signal().isPresent());
    if (driven && music.nextDouble() < MUSIC) {
      out.add(rec.record(Optional.of(InventedMusic.draw(music)), Intervention.NONE));
    }
    return out;
  }

  private static List<SimulatedTake> signals(
      Random r, Loudspeaker unit, Set<Fault> faults, Recorder rec) {
    List<SimulatedTake> out = new ArrayList<>();
    boolean idle =
        faults.stream().anyMatch(f -> f.kind() == Fault.Kind.VOLTAGE || f == Fault.TRANSFORMER);
    boolean driven = faults.size() > (idle ? 1 : 0) || !idle || r.nextDouble() < 0.4;
    if (idle || r.nextDouble() < 0.3) {
      out.add(rec.record(Optional.empty(), Intervention.NONE));
      if (r.nextDouble() < 0.6) {
        out.add(rec.record(Optional.empty(), Intervention.INPUTS_SHORTED));
      }
      if (r.nextDouble() < 0.3) {
        out.add(rec.record(Optional.empty(), Intervention.OTHER_AMPLIFIER));
      }
    }
    if (!driven) {
      return out;
    }
    if (r.nextDouble() < 0.15) {
      out.add(rec.record(Optional.of(steps(unit)), Intervention.NONE));
      return out;
    }
    TestSignal sweep = new ExponentialSweep(15, 2000, 5 / Math.log(2000 / 15.0), 0.25, 1);
    out.add(rec.record(Optional.of(sweep), Intervention.NONE));
    double heard = rec.heardAt();
    if (r.nextDouble() < 0.65) {
      double frequency = heard > 0 ? heard : Loudspeaker.over(r, 18, 400);
      TestSignal tone = new SteadyTone(frequency, List.of(Math.pow(10, -0.5), 1.0), 1.6, 0.2, 0.25);
      out.add(rec.record(Optional.of(tone), Intervention.NONE));
      if (r.nextDouble() < 0.6) {
        out.add(rec.record(Optional.of(tone), intervention(r, unit)));
      }
    } else if (r.nextDouble() < 0.4) {
      out.add(rec.record(Optional.of(sweep), intervention(r, unit)));
    }
    return out;
  }

  private static Intervention intervention(Random r, Loudspeaker unit) {
    Intervention i =
        List.of(
                Intervention.HAND_ON_PANEL,
                Intervention.OUT_OF_BOX,
                Intervention.OTHER_AMPLIFIER,
                Intervention.PORT_BLOCKED,
                Intervention.TRIM_OFF)
            .get(r.nextInt(5));
    return i == Intervention.PORT_BLOCKED && !unit.vented() ? Intervention.HAND_ON_PANEL : i;
  }

  private static TestSignal steps(Loudspeaker unit) {
    List<Double> frequencies =
        unit.size() == Loudspeaker.Size.BASS
            ? List.of(16.0, 20.0, 25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0)
            : List.of(25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 125.0, 200.0, 315.0, 400.0, 630.0, 800.0);
    return new SteppedTones(frequencies, 1, 0.25, 1);
  }
}
