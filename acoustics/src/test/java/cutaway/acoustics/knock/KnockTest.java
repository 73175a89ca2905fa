package cutaway.acoustics.knock;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.InputStream;
import java.util.Objects;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against taps synthesised from solids' and shells' modes (knock/README.md). */
class KnockTest {
  static double[] samples(String name) throws Exception {
    try (InputStream in =
        Objects.requireNonNull(
            KnockTest.class.getResourceAsStream("/knock/" + name + "/taps.wav"))) {
      byte[] b = in.readAllBytes();
      int data = 12;
      while (b[data] != 'd' || b[data + 1] != 'a' || b[data + 2] != 't') {
        data += 2;
      }
      int count = (b.length - data - 8) / 3;
      double[] out = new double[count];
      for (int i = 0; i < count; i++) {
        int at = data + 8 + 3 * i;
        int value = (b[at] & 0xff) | (b[at + 1] & 0xff) << 8 | b[at + 2] << 16;
        out[i] = value / 8388608.0;
      }
      return out;
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "b5_s01_panel_clean",
        "b5_s02_panel_damped",
        "b5_s03_panel_mic",
        "b5_s04_plywood_double_tap",
        "b5_s05_elastic_clipped",
        "b5_s06_box_side",
        "b5_s07_box_back_mic",
        "b5_s08_box_side_noisy"
      })
  void finds(String name) throws Exception {
    JsonNode truth =
        new ObjectMapper()
            .readTree(KnockTest.class.getResourceAsStream("/knock/" + name + "/truth.json"));
    double[] x = samples(name);
    long start = System.nanoTime();
    Knock knock = Knock.of(x, 48000);
    System.out.println(name + " " + (System.nanoTime() - start) / 1e9 + " s");
    System.out.println("  onsets " + truth.get("tap_onsets_s"));
    for (Tap tap : knock.taps()) {
      System.out.print(
          "  " + tap.onset() / 48000.0 + (tap.doubled() ? "d" : "") + (tap.isClipped() ? "c" : ""));
    }
    System.out.println();
    for (JsonNode m : truth.get("modes")) {
      double f = m.get("frequency_hz").asDouble();
      double loss = m.get("loss_factor").asDouble();
      Ring best = null;
      for (Ring r : knock.rings()) {
        if (best == null || Math.abs(r.frequency() - f) < Math.abs(best.frequency() - f)) {
          best = r;
        }
      }
      String found = "-";
      if (best != null && Math.abs(best.frequency() / f - 1) < 0.01) {
        found =
            String.format(
                "%8.2f %+.4f(%.4f) loss %.4f %+.3f(%.3f) level %.1f over %.1f",
                best.frequency(),
                best.frequency() / f - 1,
                best.frequencyUncertainty() / f,
                best.loss(),
                best.loss() / loss - 1,
                best.lossUncertainty() / loss,
                best.level(),
                best.overNoise());
      }
      System.out.printf(
          "%s%s %8.1f %.4f %6.1f %5.1f  | %s%n",
          m.get("visible").asBoolean() ? "v" : " ",
          m.get("clearly_separable").asBoolean() ? "S" : " ",
          f,
          loss,
          m.get("level_re_total_db").asDouble(),
          m.get("snr_in_band_db").asDouble(),
          found);
    }
    for (Ring r : knock.rings()) {
      boolean known = false;
      for (JsonNode m : truth.get("modes")) {
        known |= Math.abs(m.get("frequency_hz").asDouble() / r.frequency() - 1) < 0.01;
      }
      if (!known) {
        System.out.println("INVENTED " + r);
      }
    }
    assertThat(name).isNotEmpty();
  }
}
