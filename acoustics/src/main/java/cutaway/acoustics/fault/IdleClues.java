package cutaway.acoustics.fault;

import cutaway.acoustics.meter.FrequencyWeighting;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;

/** Reads the clues off a take in which nothing is played. */
final class IdleClues {
  /** What is not clear counts as this, dB over the reference. */
  private static final double NOT_HEARD = 0;

  /** A level of which a share can be told, dB. */
  private static final double LEAST = 10;

  /** The reference of levels of voltage, V. */
  private static final double MICROVOLT = 1e-6;

  /** Octaves in which hiss is heard, Hz. */
  private static final int[] HISSING = {4000, 8000};

  private final NoiseTake take;
  private final List<Evidence> out;

  IdleClues(NoiseTake take, List<Evidence> out) {
    this.take = take;
    this.out = out;
  }

  /** Returns what is heard at the cone; absent where no microphone is there. */
  Optional<AtRest> read(Optional<TakeClues> before) {
    List<Sensor> sensors = List.copyOf(take.channels().keySet());
    if (!sensors.contains(Sensor.CONE)) {
      return Optional.empty();
    }
    List<MainsComb> combs =
        MainsComb.of(List.copyOf(take.channels().values()), take.rate(), OptionalDouble.empty());
    boolean believed = combs.stream().anyMatch(MainsComb::isBelieved);
    mains(sensors, combs, believed, before);
    OptionalDouble mains =
        believed ? OptionalDouble.of(combs.get(0).frequency()) : OptionalDouble.empty();
    Optional<StrayTone> tone = stray(mains, before);
    OctaveBands bands = bands(Sensor.CONE, octaves());
    hiss(bands, before);
    add(Family.UNSTEADY, Map.of(Clue.UNSTEADY, unsteady(bands)));
    Optional<MainsComb> hum =
        Optional.of(combs.get(sensors.indexOf(Sensor.CONE)))
            .filter(c -> believed && c.clear(1, MainsComb.ORDERS) > 0);
    return Optional.of(
        new AtRest(hum, tone, RestSpectrum.of(take.channel(Sensor.CONE), take.rate())));
  }

  private void add(Family family, Map<Clue, Double> values) {
    out.add(new Evidence(family, take.intervention(), values));
  }

  /** The combs at cone, wall and in the voltage. */
  private void mains(
      List<Sensor> sensors, List<MainsComb> combs, boolean believed, Optional<TakeClues> before) {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    MainsComb cone = combs.get(sensors.indexOf(Sensor.CONE));
    double of = believed ? 1 : 0;
    double atCone = of * cone.power(1, 1);
    clues.put(Clue.MAINS_FIRST, heard(atCone - of * cone.power(2, 1)));
    clues.put(Clue.MAINS_ODD, heard(of * cone.power(3, 2)));
    clues.put(Clue.MAINS_EVEN, heard(of * cone.power(2, 2)));
    clues.put(Clue.MAINS_HIGH, of * cone.clear(13, MainsComb.ORDERS));
    if (sensors.contains(Sensor.WALL)) {
      MainsComb wall = combs.get(sensors.indexOf(Sensor.WALL));
      double atWall = of * wall.power(1, 1);
      if (atCone + atWall > 0) {
        clues.put(Clue.MAINS_AT_WALL, heard(atWall) - heard(atCone));
        clues.put(
            Clue.MAINS_EVEN_AT_WALL,
            heard(of * wall.power(2, 2))
                - heard(of * cone.power(2, 2))
                - heard(of * wall.power(1, 2))
                + heard(of * cone.power(1, 2)));
      }
    }
    if (sensors.contains(Sensor.VOLTAGE)) {
      double power = of * combs.get(sensors.indexOf(Sensor.VOLTAGE)).power(1, 1);
      clues.put(Clue.MAINS_VOLTAGE, over(Math.sqrt(power), MICROVOLT));
    }
    add(Family.MAINS, clues);
    left(before, Family.MAINS, clues, IdleClues::mainsLevel)
        .ifPresent(l -> add(Family.MAINS_LEFT, Map.of(Clue.MAINS_LEFT, l)));
  }

  /** Of first, odd and even orders together, dB SPL. */
  private static double mainsLevel(Map<Clue, Double> clues) {
    double sum = 0;
    for (Clue c : new Clue[] {Clue.MAINS_FIRST, Clue.MAINS_ODD, Clue.MAINS_EVEN}) {
      double level = clues.getOrDefault(c, NOT_HEARD);
      sum += level > NOT_HEARD ? Math.pow(10, level / 10) : 0;
    }
    return sum > 1 ? 10 * Math.log10(sum) : NOT_HEARD;
  }

  private Optional<StrayTone> stray(OptionalDouble mains, Optional<TakeClues> before) {
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    Optional<StrayTone> cone = stray(Sensor.CONE, mains);
    clues.put(Clue.STRAY, level(cone, FrequencyWeighting.REFERENCE));
    if (take.channels().containsKey(Sensor.VOLTAGE)) {
      clues.put(Clue.STRAY_VOLTAGE, level(stray(Sensor.VOLTAGE, mains), MICROVOLT));
    }
    add(Family.STRAY, clues);
    left(before, Family.STRAY, clues, c -> c.getOrDefault(Clue.STRAY, NOT_HEARD))
        .ifPresent(l -> add(Family.STRAY_LEFT, Map.of(Clue.STRAY_LEFT, l)));
    return cone;
  }

  private Optional<StrayTone> stray(Sensor sensor, OptionalDouble mains) {
    return StrayTone.of(take.channel(sensor), take.rate(), mains).stream().findFirst();
  }

  private static double level(Optional<StrayTone> tone, double reference) {
    return tone.map(t -> over(t.amplitude(), reference)).orElse(NOT_HEARD);
  }

  private void hiss(OctaveBands cone, Optional<TakeClues> before) {
    if (highest().length < HISSING.length) {
      // a recording that does not reach so high says nothing of hiss
      return;
    }
    Map<Clue, Double> clues = new EnumMap<>(Clue.class);
    double level = high(cone) - 20 * Math.log10(FrequencyWeighting.REFERENCE);
    clues.put(Clue.HISS_LEVEL, level);
    if (take.channels().containsKey(Sensor.WALL)) {
      OctaveBands wall = bands(Sensor.WALL, highest());
      clues.put(Clue.HISS, high(cone) - high(wall));
    }
    if (take.channels().containsKey(Sensor.VOLTAGE)) {
      OctaveBands voltage = bands(Sensor.VOLTAGE, highest());
      clues.put(Clue.HISS_VOLTAGE, high(voltage) - 20 * Math.log10(MICROVOLT));
    }
    add(Family.HISS, clues);
    before
        .flatMap(b -> b.clue(Family.HISS, Clue.HISS_LEVEL))
        .ifPresent(b -> add(Family.HISS_LEFT, Map.of(Clue.HISS_CHANGE, b - level)));
  }

  /** Share of a level that is left; absent where there was next to none before. */
  private static Optional<Double> left(
      Optional<TakeClues> before,
      Family family,
      Map<Clue, Double> now,
      ToDoubleFunction<Map<Clue, Double>> level) {
    return before
        .flatMap(b -> b.values(family))
        .map(level::applyAsDouble)
        .filter(was -> was > LEAST)
        .map(was -> level.applyAsDouble(now) / was);
  }

  private static double heard(double power) {
    return over(Math.sqrt(power), FrequencyWeighting.REFERENCE);
  }

  private static double over(double amplitude, double reference) {
    return amplitude > 0 ? Math.max(NOT_HEARD, 20 * Math.log10(amplitude / reference)) : NOT_HEARD;
  }

  private OctaveBands bands(Sensor sensor, int... wanted) {
    return new OctaveBands(take.channel(sensor), take.rate(), wanted);
  }

  /** Bands side by side from 350 Hz up. */
  private int[] octaves() {
    int n = OctaveBands.count(take.rate()) / OctaveBands.PER_OCTAVE;
    return IntStream.rangeClosed(1, n)
        .map(octave -> octave * OctaveBands.PER_OCTAVE)
        .filter(b -> b < OctaveBands.count(take.rate()))
        .toArray();
  }

  /** Those of them from 2.8 to 11 kHz. */
  private int[] highest() {
    return IntStream.of(octaves())
        .filter(b -> IntStream.of(HISSING).anyMatch(h -> OctaveBands.at(h) == b))
        .toArray();
  }

  /** From 2.8 to 11 kHz, dB. */
  private double high(OctaveBands bands) {
    double sum = 0;
    for (int b : highest()) {
      sum += bands.power(b, 0, take.length());
    }
    return 10 * Math.log10(sum + 1e-30);
  }

  /** Loudest of ten against the middle of stretches of 50 ms, from 350 Hz up, dB. */
  private double unsteady(OctaveBands bands) {
    int step = (int) (0.05 * take.rate());
    double[] power = new double[take.length() / step];
    for (int i = 0; i < power.length; i++) {
      for (int b : octaves()) {
        power[i] += bands.power(b, i * step, (i + 1) * step);
      }
    }
    Arrays.sort(power);
    int n = power.length;
    return 10 * Math.log10((power[(int) (0.95 * (n - 1))] + 1e-30) / (power[n / 2] + 1e-30));
  }
}
