package cutaway.acoustics.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.signal.Interpolation;
import cutaway.acoustics.stimulus.MusicClip;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MusicResidueTest {
  private static final double RATE = 48000;
  private static final double LATE = 0.31;
  private static final double NOTE = 0.5;
  private static final UnitFacts UNIT = new UnitFacts(Optional.of(40.0), Optional.empty());

  /** Plucked bass and soft hiss, half a second a note. */
  private static double[] tune(long seed) {
    Random r = new Random(seed);
    double[] out = new double[(int) (7 * RATE)];
    for (int n = 0; n < 12; n++) {
      double f = 45 * Math.pow(2, r.nextInt(12) / 12.0);
      double a = 0.3 + 0.4 * r.nextDouble();
      int from = (int) ((0.4 + n * NOTE) * RATE);
      for (int i = 0; i < NOTE * RATE; i++) {
        double t = i / RATE;
        double x = 0.02 * r.nextGaussian() * Math.exp(-20 * t);
        for (int k = 1; k <= 12; k++) {
          x += a / k * Math.exp(-2 * t - 0.3 * k * t) * Math.sin(2 * Math.PI * k * f * t);
        }
        out[from + i] += 0.5 * x * Math.min(1, (NOTE - t) / 0.02);
      }
    }
    return out;
  }

  /** By another clock, through a path with late reflections, beside noise. */
  private static double[] heard(double[] tune, double drift, double gain, long seed) {
    int n = (int) ((7.8 + LATE) * RATE);
    double[] x = Interpolation.at(tune, -LATE * RATE / (1 + drift), 1 / (1 + drift), n);
    Random r = new Random(seed);
    double[] out = new double[n];
    double[] reflected = {1, -0.4, 0.3, -0.2, 0.1};
    int[] later = {0, 90 + r.nextInt(90), 400 + r.nextInt(200), 900, 2000 + r.nextInt(900)};
    double smooth = 0;
    for (int i = 0; i < n; i++) {
      double sum = 0;
      for (int k = 0; k < later.length; k++) {
        sum += i >= later[k] ? reflected[k] * x[i - later[k]] : 0;
      }
      smooth += 0.3 * (sum - smooth);
      out[i] = gain * smooth + 1e-4 * r.nextGaussian();
    }
    return out;
  }

  /** A ring of 3 kHz just after each note has begun, ten milliseconds long. */
  private static void strikes(double[] to, double drift, double loud) {
    for (int n = 0; n < 12; n++) {
      int from = (int) (((0.4 + n * NOTE + 0.06) * (1 + drift) + LATE) * RATE);
      for (int i = 0; i < 0.06 * RATE; i++) {
        double t = i / RATE;
        to[from + i] += loud * Math.exp(-t / 0.01) * Math.sin(2 * Math.PI * 3000 * t);
      }
    }
  }

  private static NoiseTake take(MusicClip clip, Map<Sensor, double[]> channels) {
    return new NoiseTake(Optional.of(clip), Intervention.NONE, RATE, channels);
  }

  private static Map<Sensor, double[]> channels(double[] tune, double drift) {
    Map<Sensor, double[]> out = new EnumMap<>(Sensor.class);
    out.put(Sensor.CONE, heard(tune, drift, 1, 1));
    out.put(Sensor.WALL, heard(tune, drift, 0.2, 2));
    return out;
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 1.2e-4, -1.9e-4})
  void musicIsTakenOutWhateverTheClocks(double drift) {
    double[] tune = tune(1);
    NoiseTake take = take(new MusicClip(tune, RATE), channels(tune, drift));
    MusicResidue residue = MusicResidue.of(take).orElseThrow();
    assertThat(residue.drift()).isCloseTo(drift, within(5e-7));
    // the mean of the path is some way behind what comes first
    assertThat(residue.begins()).isCloseTo(0.4 * (1 + drift) + LATE, within(0.01));
    assertThat(TakeClues.of(take, UNIT, Optional.empty()).clue(Family.MUSIC, Clue.MARGIN))
        .hasValueSatisfying(m -> assertThat(m).isLessThan(Clue.HEARD));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 1.5e-4})
  void strikesAreFoundWhereAndWhenTheyFall(double drift) {
    double[] tune = tune(2);
    Map<Sensor, double[]> channels = channels(tune, drift);
    strikes(of(channels, Sensor.WALL), drift, 0.004);
    TakeClues clues =
        TakeClues.of(take(new MusicClip(tune, RATE), channels), UNIT, Optional.empty());
    Spot spot = clues.spot().orElseThrow();
    assertThat(spot.sensor()).isEqualTo(Sensor.WALL);
    assertThat(spot.band()).isBetween(2100.0, 4300.0);
    assertThat(spot.margin()).isGreaterThan(12);
    assertThat(spot.ofMusic()).isTrue();
    // 0.06 s into a note, by a window of 0.06 s
    double into = spot.since() - NOTE * Math.floor(spot.since() / NOTE);
    assertThat(into).isBetween(0.02, 0.11);
    assertThat(clues.clue(Family.MUSIC, Clue.AT_WALL))
        .hasValueSatisfying(a -> assertThat(a).isGreaterThan(6));
    assertThat(clues.places().get(0).audible()).isPresent();
    NoiseClip clip = NoiseClip.of(take(new MusicClip(tune, RATE), channels), 2.5).orElseThrow();
    assertThat(power(clip.leftOver())).isLessThan(0.01 * power(clip.recording()));
  }

  private static double[] of(Map<Sensor, double[]> channels, Sensor sensor) {
    return channels.getOrDefault(sensor, new double[0]);
  }

  private static double power(double[] x) {
    double out = 0;
    for (double v : x) {
      out += v * v;
    }
    return out;
  }

  /** One tick of a clock is not enough, 43 dB SPL at its peak. */
  @Test
  void oneTickIsNoStrike() {
    double[] tune = tune(3);
    Map<Sensor, double[]> channels = channels(tune, 0);
    double[] cone = of(channels, Sensor.CONE);
    for (int i = 0; i < 200; i++) {
      cone[(int) (3 * RATE) + i] += 0.003 * Math.exp(-i / 50.0) * Math.sin(0.4 * i);
    }
    assertThat(
            TakeClues.of(take(new MusicClip(tune, RATE), channels), UNIT, Optional.empty()).spot())
        .isEmpty();
  }

  @Test
  void aHandOnTheWallThatStopsItIsSeen() {
    double[] tune = tune(2);
    Map<Sensor, double[]> open = channels(tune, 0);
    strikes(of(open, Sensor.WALL), 0, 0.004);
    TakeSeries series = new TakeSeries(UNIT);
    series.read(take(new MusicClip(tune, RATE), open));
    NoiseTake pressed =
        new NoiseTake(
            Optional.of(new MusicClip(tune.clone(), RATE)),
            Intervention.HAND_ON_WALL,
            RATE,
            channels(tune, 0));
    assertThat(series.read(pressed).clue(Family.LEFT, Clue.LEFT))
        .hasValueSatisfying(l -> assertThat(l).isLessThan(0.3));
  }

  /** A room that rings for a second is no noise of the unit. */
  @Test
  void aListenersMicrophoneIsLeftOut() {
    double[] tune = tune(1);
    Map<Sensor, double[]> channels = channels(tune, 0);
    double[] far = of(channels, Sensor.WALL).clone();
    for (int i = 7000; i < far.length; i++) {
      far[i] += 0.7 * far[i - 7000];
    }
    channels.put(Sensor.LISTENER, far);
    TakeClues clues =
        TakeClues.of(take(new MusicClip(tune, RATE), channels), UNIT, Optional.empty());
    assertThat(clues.evidence()).isNotEmpty();
    assertThat(clues.spot()).isEmpty();
  }

  @Test
  void otherMusicIsNotTakenForIt() {
    NoiseTake take = take(new MusicClip(tune(5), RATE), channels(tune(4), 0));
    assertThat(TakeClues.of(take, UNIT, Optional.empty()).evidence()).isEmpty();
  }

  /** Noise of a known power beside a voltage that follows; a fifth of it is taken for a path. */
  @Test
  void whatTheVoltageAddsIsMeasured() {
    double[] tune = tune(6);
    Map<Sensor, double[]> channels = channels(tune, 0);
    double[] voltage = Interpolation.at(tune, -LATE * RATE, 1, of(channels, Sensor.CONE).length);
    double added = Math.sqrt(1e-3 * power(tune) / tune.length);
    Random r = new Random(9);
    for (int i = 0; i < voltage.length; i++) {
      voltage[i] += added * r.nextGaussian();
    }
    channels.put(Sensor.VOLTAGE, voltage);
    assertThat(
            TakeClues.of(take(new MusicClip(tune, RATE), channels), UNIT, Optional.empty())
                .clue(Family.VOLTAGE, Clue.UNFOLLOWED))
        .hasValueSatisfying(u -> assertThat(u).isCloseTo(-31, within(0.5)));
  }
}
