package cutaway.acoustics.knock;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Against taps synthesised from solids' and shells' modes (knock/README.md). */
class KnockTest {
  private static double[] samples(String name) throws Exception {
    return Taps24.read("/knock/" + name + "/taps.wav");
  }

  private static List<String> names() {
    return List.of(
        "b5_s01_panel_clean",
        "b5_s02_panel_damped",
        "b5_s03_panel_mic",
        "b5_s04_plywood_double_tap",
        "b5_s05_elastic_clipped",
        "b5_s06_box_side",
        "b5_s07_box_back_mic",
        "b5_s08_box_side_noisy");
  }

  @ParameterizedTest
  @MethodSource("names")
  void findsEveryModeThatStandsClear(String name) throws Exception {
    JsonNode truth = truth(name);
    Knock knock = Knock.of(samples(name), 48000);
    int onset = 0;
    for (JsonNode t : truth.get("tap_onsets_s")) {
      assertThat(knock.taps().get(onset++).onset() / 48000.0)
          .isCloseTo(t.asDouble(), within(0.001));
    }
    assertThat(knock.taps()).hasSize(onset);
    assertThat(knock.taps().stream().filter(Tap::isClipped).count())
        .isEqualTo(truth.get("clipped_taps").size());
    JsonNode second = truth.get("double_tap_index");
    if (!second.isNull()) {
      assertThat(knock.taps().get(second.asInt() - 1).doubled()).isTrue();
      assertThat(knock.taps().get(second.asInt()).doubled()).isTrue();
      assertThat(knock.used()).hasSize(onset - 2);
    }
    for (JsonNode mode : truth.get("modes")) {
      if (mode.get("clearly_separable").asBoolean()) {
        double f = mode.get("frequency_hz").asDouble();
        Ring ring = nearest(knock, f);
        assertThat(ring.frequency()).isCloseTo(f, within(0.0025 * f));
        double loss = mode.get("loss_factor").asDouble();
        assertThat(ring.loss()).as("loss at %.0f Hz", f).isCloseTo(loss, within(0.15 * loss));
      }
    }
  }

  /** Nothing is made up that is stronger than the weakest that is there. */
  @ParameterizedTest
  @MethodSource("names")
  void inventsNothingStrong(String name) throws Exception {
    double weakestTrue = 0;
    double strongestInvented = Double.NEGATIVE_INFINITY;
    for (Ring ring : Knock.of(samples(name), 48000).rings()) {
      boolean there = false;
      for (JsonNode mode : truth(name).get("modes")) {
        double off = Math.abs(mode.get("frequency_hz").asDouble() / ring.frequency() - 1);
        // or a pair seen as one
        there |= off < Math.max(0.005, ring.loss());
      }
      weakestTrue = there ? Math.min(weakestTrue, ring.level()) : weakestTrue;
      strongestInvented = there ? strongestInvented : Math.max(strongestInvented, ring.level());
    }
    assertThat(strongestInvented).isLessThanOrEqualTo(weakestTrue);
  }

  /** Uncertainties that hold: of all clear modes nine in ten lie within two. */
  @Test
  void saysHowSureItIs() throws Exception {
    int within = 0;
    int all = 0;
    for (String name : names()) {
      Knock knock = Knock.of(samples(name), 48000);
      for (JsonNode mode : truth(name).get("modes")) {
        if (mode.get("clearly_separable").asBoolean()) {
          double f = mode.get("frequency_hz").asDouble();
          Ring ring = nearest(knock, f);
          double off = Math.abs(ring.frequency() - f) / ring.frequencyUncertainty();
          double lossOff =
              Math.abs(ring.loss() - mode.get("loss_factor").asDouble()) / ring.lossUncertainty();
          within += (off < 2 ? 1 : 0) + (lossOff < 2 ? 1 : 0);
          all += 2;
        }
      }
    }
    assertThat(within).isGreaterThan((int) (0.9 * all));
  }

  private static Ring nearest(Knock knock, double f) {
    return knock.rings().stream()
        .min(Comparator.comparingDouble(r -> Math.abs(r.frequency() - f)))
        .orElseThrow();
  }

  private static JsonNode truth(String name) throws Exception {
    return new ObjectMapper()
        .readTree(KnockTest.class.getResourceAsStream("/knock/" + name + "/truth.json"));
  }

  @Test
  void silenceNoiseAndMusicHoldNoTaps() {
    Random random = new Random(3);
    double[] silence = new double[96000];
    double[] noise = random.doubles(96000, -0.2, 0.2).toArray();
    double[] music = new double[96000];
    double[] tone = new double[96000];
    for (int i = 0; i < music.length; i++) {
      double t = i / 48000.0;
      double beat = Math.exp(-2 * (t % 0.5));
      music[i] =
          0.3 * beat * Math.sin(2 * Math.PI * 220 * t) + 0.2 * Math.sin(2 * Math.PI * 330 * t);
      tone[i] = 0.5 * Math.sin(2 * Math.PI * 100 * t);
    }
    for (double[] x : List.of(silence, noise, music, tone, new double[0], new double[10])) {
      Knock knock = Knock.of(x, 48000);
      assertThat(knock.taps()).isEmpty();
      assertThat(knock.rings()).isEmpty();
    }
  }

  /** Low modes that beat swell again after a tap, and a wall with little loss rings long. */
  @ParameterizedTest
  @CsvSource({"157, 175, 0.020", "160, 178, 0.012", "313, 640, 0.0098"})
  void takesNoBeatForATap(double low, double high, double loss) {
    double rate = 48000;
    Random random = new Random(8);
    double[] x = new double[(int) (5.5 * rate)];
    for (int i = 0; i < x.length; i++) {
      double t = (i / rate + 0.6) % 1.1;
      for (double f : new double[] {low, high, 900, 1700}) {
        double share = f < 800 ? 1 : 0.3;
        boolean rings = i / rate >= 0.5;
        x[i] +=
            rings
                ? 0.2 * share * Math.exp(-Math.PI * f * loss * t) * Math.sin(2 * Math.PI * f * t)
                : 0;
      }
      x[i] += 2e-3 * random.nextGaussian();
    }
    Knock knock = Knock.of(x, rate);
    assertThat(knock.taps()).hasSize(5).noneMatch(Tap::doubled);
    for (double f : new double[] {low, high}) {
      assertThat(nearest(knock, f).frequency()).isCloseTo(f, within(0.003 * f));
    }
  }

  /** Two decays of known poles in a little noise; at other rates and in eight bits too. */
  @ParameterizedTest
  @CsvSource({"44100, 32768", "48000, 8388608", "192000, 8388608", "48000, 128"})
  void findsKnownDecays(double rate, double steps) {
    Random random = new Random(5);
    double[] x = new double[(int) (3 * rate)];
    double[][] modes = {{212, 0.02}, {431, 0.03}, {1210, 0.015}};
    for (int i = 0; i < x.length; i++) {
      double t = i / rate % 1 - 0.3;
      for (double[] mode : modes) {
        double decay = Math.PI * mode[0] * mode[1];
        x[i] += t < 0 ? 0 : 0.25 * Math.exp(-decay * t) * Math.sin(2 * Math.PI * mode[0] * t);
      }
      x[i] += 1e-3 * random.nextGaussian();
      x[i] = Math.rint(x[i] * steps) / steps;
    }
    Knock knock = Knock.of(x, rate);
    assertThat(knock.taps()).hasSize(3);
    for (double[] mode : modes) {
      Ring ring = nearest(knock, mode[0]);
      assertThat(ring.frequency()).isCloseTo(mode[0], within(0.002 * mode[0]));
      assertThat(ring.loss()).isCloseTo(mode[1], within(0.05 * mode[1]));
    }
  }
}
