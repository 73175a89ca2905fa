package cutaway.bench.noise;

import cutaway.acoustics.fault.Clue;
import cutaway.acoustics.fault.Family;
import cutaway.acoustics.fault.Intervention;
import cutaway.acoustics.fault.NoiseTake;
import cutaway.acoustics.fault.Sensor;
import cutaway.acoustics.fault.Spot;
import cutaway.acoustics.fault.TakeClues;
import cutaway.acoustics.stimulus.ExponentialSweep;
import cutaway.acoustics.stimulus.SteadyTone;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.acoustics.suspect.Belief;
import cutaway.acoustics.suspect.Odds;
import cutaway.acoustics.suspect.Suspect;
import cutaway.bench.finding.NextTest;
import cutaway.bench.sheet.SoundTake;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Tests that may be made next, with what each is expected to tell. Minutes are judgement, cautions
 * common practice, no source.
 */
final class NoiseTests {
  /** What a tester calls a signal of no tones. */
  static final String MUSIC = "the music";

  private static final String QUIETLY = "Begin quietly, ears away from cone and port.";
  private static final String MAINS =
      "Mains and charged capacitors lie open in an amplifier: unplug it, wait, and leave inner work"
          + " to qualified people.";

  private static final Set<Family> AT_REST =
      Set.of(Family.MAINS_LEFT, Family.STRAY_LEFT, Family.HISS_LEFT);

  private static final Set<Suspect> AT_REST_SUSPECTS =
      Set.of(
          Suspect.HUM_PICKED_UP,
          Suspect.HUM_RECTIFIER,
          Suspect.HUM_GROUND_LOOP,
          Suspect.TRANSFORMER,
          Suspect.HISS,
          Suspect.STRAY_TONE);

  /** A suspect likelier than this is worth a test. */
  private static final double MAY_BE = 0.1;

  /** Something to compare with, dB over its background or over 0 dB SPL. */
  private static final double HEARD = 10;

  private final Belief belief;
  private final boolean vented;
  private final List<Done> done;
  private final List<NextTest> out = new ArrayList<>();

  /** Takes that could tell nothing come before all else. */
  private final List<NextTest> first = new ArrayList<>();

  /**
   * A take that was made.
   *
   * @param usable whether it tells more than its own flaws
   */
  record Done(SoundTake sound, NoiseTake take, TakeClues clues, boolean usable) {
    /** The same without samples, which a later take does not need. */
    static Done of(SoundTake sound, NoiseTake take, TakeClues clues, boolean usable) {
      NoiseTake light = new NoiseTake(take.signal(), take.intervention(), take.rate(), empty(take));
      return new Done(sound, light, clues, usable);
    }

    private static Map<Sensor, double[]> empty(NoiseTake take) {
      Map<Sensor, double[]> none = new EnumMap<>(Sensor.class);
      take.channels().keySet().forEach(s -> none.put(s, new double[0]));
      return none;
    }

    /** Whether it can be compared with one before; one that cannot is to be made again. */
    boolean tells() {
      return usable && clues.notCompared().isEmpty();
    }

    boolean untouched() {
      return take.intervention() == Intervention.NONE;
    }
  }

  private NoiseTests(Belief belief, boolean vented, List<Done> done) {
    this.belief = belief;
    this.vented = vented;
    this.done = done;
  }

  /** Those that are feasible, the worthiest first. */
  static List<NextTest> of(Belief belief, boolean vented, List<Done> done) {
    NoiseTests tests = new NoiseTests(belief, vented, done);
    tests.again();
    tests.driven();
    tests.rest();
    tests.more();
    tests.out.sort(Comparator.comparingDouble(NextTest::worth).reversed());
    tests.out.addAll(0, tests.first);
    return List.copyOf(tests.out);
  }

  /** The take in which something stands out most, to be repeated. */
  private Optional<Done> loudest() {
    return done.stream()
        .filter(d -> d.untouched() && d.clues.spot().isPresent())
        .max(
            Comparator.comparing((Done d) -> d.take.signal().orElseThrow() instanceof SteadyTone)
                .thenComparing(d -> d.clues.spot().map(Spot::margin).orElse(0.0)));
  }

  /** A take whose recording was at fault is made anew, if none of its signal was. */
  private void again() {
    for (Done d : done) {
      boolean made =
          done.stream()
              .anyMatch(
                  o ->
                      o.usable
                          && o.take.intervention() == d.take.intervention()
                          && o.take.signal().equals(d.take.signal()));
      if (!d.usable && !made) {
        List<Family> families =
            d.take.signal().map(NoiseTests::family).orElse(List.of(Family.MAINS, Family.HISS));
        first.add(
            new NextTest(
                "Mend the recording of " + d.sound.id() + " and record it again.",
                belief.expectedBits(d.take.intervention(), families),
                2,
                QUIETLY));
      }
    }
  }

  private static List<Family> family(TestSignal signal) {
    return List.of(
        signal.tones().isEmpty()
            ? Family.MUSIC
            : signal instanceof ExponentialSweep ? Family.SWEPT : Family.STANDING);
  }

  private void driven() {
    Optional<Done> reference = loudest();
    if (reference.isEmpty()) {
      return;
    }
    Done ref = reference.get();
    String again = "repeat " + words(ref.take.signal().orElseThrow()) + ".";
    String wall = ref.sound.wall().map(w -> "the " + w + " wall").orElse("one wall after another");
    compare(
        ref,
        Intervention.HAND_ON_WALL,
        3,
        "Press " + wall + " with a flat hand and " + again,
        QUIETLY);
    if (vented) {
      compare(
          ref,
          Intervention.PORT_BLOCKED,
          3,
          "Stop the port with a cloth and " + again,
          QUIETLY + " Without its port the cone moves further about the tuning.");
    }
    compare(ref, Intervention.TRIM_OFF, 4, "Take grille and trim rings off and " + again, QUIETLY);
    compare(
        ref,
        Intervention.OUT_OF_BOX,
        25,
        "Take the drive unit out of the box, hold it by its frame, and " + again,
        QUIETLY
            + " Out of the box the cone moves further: turn down by 6 dB first. Unplug before"
            + " opening.");
    compare(
        ref,
        Intervention.OTHER_AMPLIFIER,
        15,
        "Feed the drive unit from another amplifier and " + again,
        MAINS);
  }

  private void compare(Done ref, Intervention how, int minutes, String what, String caution) {
    boolean made =
        done.stream()
            .anyMatch(
                d ->
                    d.take.intervention() == how
                        && d.take.signal().equals(ref.take.signal())
                        && d.tells());
    if (!made) {
      add(what, how, List.of(Family.LEFT), minutes, caution);
    }
  }

  private void rest() {
    List<Done> resting = done.stream().filter(d -> d.take.signal().isEmpty()).toList();
    if (resting.isEmpty()) {
      add(
          "Record five seconds with the unit switched on and nothing playing.",
          Intervention.NONE,
          List.of(Family.MAINS, Family.STRAY, Family.HISS, Family.UNSTEADY),
          2,
          "Turn the volume down before plugging or unplugging anything.");
      return;
    }
    if (suspected() || resting.stream().anyMatch(d -> d.untouched() && somethingHeard(d.clues))) {
      atRest(
          resting,
          Intervention.INPUTS_SHORTED,
          4,
          "Put shorting plugs on the inputs and record the rest again.",
          "Short inputs only, never an output. Turn the volume down before plugging.");
      atRest(
          resting,
          Intervention.OTHER_AMPLIFIER,
          15,
          "Feed the drive unit from another amplifier and record the rest again.",
          MAINS);
      atRest(
          resting,
          Intervention.CABLE_MOVED,
          3,
          "Move the signal cable away from mains leads and record the rest again.",
          "Turn the volume down before plugging.");
    }
  }

  /** Whether something that sounds at rest may be the matter. */
  private boolean suspected() {
    Odds odds = belief.odds();
    return AT_REST_SUSPECTS.stream().anyMatch(s -> odds.of(s) > MAY_BE);
  }

  private static boolean somethingHeard(TakeClues clues) {
    double most = 0;
    for (Clue c : List.of(Clue.MAINS_FIRST, Clue.MAINS_ODD, Clue.MAINS_EVEN)) {
      most = Math.max(most, clues.clue(Family.MAINS, c).orElse(0.0));
    }
    most = Math.max(most, clues.clue(Family.STRAY, Clue.STRAY).orElse(0.0));
    return most > HEARD || clues.clue(Family.HISS, Clue.HISS).orElse(0.0) > 1;
  }

  private void atRest(
      List<Done> resting, Intervention how, int minutes, String what, String caution) {
    if (resting.stream().noneMatch(d -> d.take.intervention() == how && d.tells())) {
      add(what, how, List.copyOf(AT_REST), minutes, caution);
    }
  }

  private void more() {
    boolean swept =
        done.stream().anyMatch(d -> d.take.signal().orElse(null) instanceof ExponentialSweep);
    if (!swept) {
      add(
          "Play a sweep from 15 Hz to 2 kHz and record it at cone, port and wall.",
          Intervention.NONE,
          List.of(Family.SWEPT),
          3,
          QUIETLY);
    }
    Optional<Spot> spot =
        done.stream()
            .filter(d -> d.untouched() && d.take.signal().orElse(null) instanceof ExponentialSweep)
            .flatMap(d -> d.clues.spot().stream())
            .max(Comparator.comparingDouble(Spot::margin));
    boolean stood = done.stream().anyMatch(d -> d.take.signal().orElse(null) instanceof SteadyTone);
    if (spot.isPresent() && !stood) {
      add(
          String.format(
              Locale.ROOT,
              "Play a steady tone near %.0f Hz, turn it until the noise is loudest, and record it 10 dB"
                  + " softer and as loud as the sweep.",
              spot.get().frequency()),
          Intervention.NONE,
          List.of(Family.STANDING),
          3,
          QUIETLY + " A tone heats the coil: a few seconds at a time.");
    }
    boolean onePlace =
        done.stream()
            .filter(d -> d.take.signal().isPresent())
            .allMatch(d -> d.take.microphones().stream().filter(Sensor::isNear).count() < 2);
    if (onePlace && done.stream().anyMatch(d -> d.take.signal().isPresent())) {
      add(
          "Record the sweep with microphones at cone, port and wall at once: one alone does not tell"
              + " where it is loudest.",
          Intervention.NONE,
          List.of(Family.SWEPT),
          5,
          QUIETLY);
    }
    boolean voltage = done.stream().anyMatch(d -> d.take.channels().containsKey(Sensor.VOLTAGE));
    if (!voltage && done.stream().anyMatch(d -> d.take.signal().isPresent())) {
      add(
          "Record the voltage at the drive unit beside the microphones, through a divider.",
          Intervention.NONE,
          List.of(Family.VOLTAGE),
          10,
          "Outputs of bridged amplifiers must not meet ground: use a divider that keeps both apart. "
              + MAINS);
    }
  }

  private void add(
      String what, Intervention how, List<Family> families, int minutes, String caution) {
    out.add(new NextTest(what, belief.expectedBits(how, families), minutes, caution));
  }

  /** A signal as a tester would call it. */
  static String words(TestSignal signal) {
    if (signal instanceof ExponentialSweep sweep) {
      return "the sweep from " + hertz(sweep.low()) + " to " + hertz(sweep.high());
    }
    if (signal instanceof SteadyTone tone) {
      return "the steady tone of " + hertz(tone.frequency());
    }
    return signal.tones().isEmpty() ? MUSIC : "the stepped tones";
  }

  /** A frequency to three or four digits, without those that say nothing. */
  static String hertz(double frequency) {
    double rounded = frequency < 100 ? Math.rint(10 * frequency) / 10 : Math.rint(frequency);
    return (rounded == Math.rint(rounded)
            ? String.format(Locale.ROOT, "%.0f", rounded)
            : String.format(Locale.ROOT, "%.1f", rounded))
        + " Hz";
  }
}
