package cutaway.acoustics.meter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.Published;
import java.util.Arrays;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ProgrammeLoudnessTest {
  /** Tones of 1 kHz one after another, each so many seconds at so many dB full scale. */
  private static double[] tones(double rate, double[]... secondsAndLevels) {
    int n = 0;
    for (double[] s : secondsAndLevels) {
      n += (int) Math.rint(s[0] * rate);
    }
    double[] x = new double[n];
    int at = 0;
    for (double[] s : secondsAndLevels) {
      double amplitude = Math.pow(10, s[1] / 20);
      for (int end = at + (int) Math.rint(s[0] * rate); at < end; at++) {
        x[at] = amplitude * Math.sin(2 * Math.PI * 1000 * at / rate);
      }
    }
    return x;
  }

  private static double[][] both(double[] x) {
    return new double[][] {x, x};
  }

  /** EBU Tech 3341, signals 1 to 5, as quoted in secondary copies. */
  @Test
  void integratesTheListedSignals() {
    for (Map<String, String> row : Published.rows("09_ebu3341_signals.csv")) {
      if (!"looked-up".equals(row.get("status"))) {
        continue;
      }
      double[][] segments =
          Arrays.stream(row.getOrDefault("segments", row.getOrDefault("signal", "")).split(";"))
              .map(String::strip)
              .filter(s -> s.matches("[0-9.]+:-?[0-9.]+"))
              .map(s -> Arrays.stream(s.split(":")).mapToDouble(Double::parseDouble).toArray())
              .toArray(double[][]::new);
      assertThat(segments).as(row.toString()).isNotEmpty();
      double want = Double.parseDouble(row.getOrDefault("expected_integrated_LUFS", ""));
      assertThat(ProgrammeLoudness.of(both(tones(48000, segments)), 48000).integrated())
          .as(row.get("case"))
          .isCloseTo(want, within(0.1));
    }
  }

  /** The recommendation's own figure: a tone of 997 Hz at full scale in one front channel. */
  @ParameterizedTest
  @ValueSource(doubles = {44100, 48000, 96000, 192000})
  void aFullToneReadsAsListedAtAnyRate(double rate) {
    double[] x = new double[(int) (4 * rate)];
    for (int i = 0; i < x.length; i++) {
      x[i] = Math.sin(2 * Math.PI * 997 * i / rate);
    }
    assertThat(ProgrammeLoudness.of(new double[][] {x}, rate).integrated())
        .isCloseTo(-3.01, within(0.01));
  }

  /** Gain of both sections at 48 kHz (computed from the listed coefficients). */
  @Test
  void weightsAsComputed() {
    for (Map<String, String> row : Published.rows("09_bs1770.csv")) {
      String id = row.getOrDefault("id", "");
      if (!id.startsWith("K.f")) {
        continue;
      }
      double f = Double.parseDouble(id.substring(3));
      double[] x = new double[8 * 48000];
      for (int i = 0; i < x.length; i++) {
        x[i] = Math.sin(2 * Math.PI * f * i / 48000);
      }
      double read = ProgrammeLoudness.of(new double[][] {x}, 48000).shortTerm();
      assertThat(read + 0.691 + 10 * Math.log10(2))
          .as(id)
          .isCloseTo(Double.parseDouble(row.getOrDefault("value", "")), within(0.01));
    }
  }

  /** EBU Tech 3341, signals 9 and 12 (from memory): steady readings of a regular alternation. */
  @Test
  void momentaryAndShortTermStandStill() {
    double[][] three = new double[10][];
    double[][] tenths = new double[40][];
    for (int i = 0; i < 5; i++) {
      three[2 * i] = new double[] {1.34, -20};
      three[2 * i + 1] = new double[] {1.66, -30};
    }
    for (int i = 0; i < 20; i++) {
      tenths[2 * i] = new double[] {0.18, -20};
      tenths[2 * i + 1] = new double[] {0.22, -30};
    }
    assertThat(ProgrammeLoudness.of(both(tones(48000, three)), 48000).shortTerm())
        .isCloseTo(-23, within(0.1));
    assertThat(ProgrammeLoudness.of(both(tones(48000, tenths)), 48000).momentary())
        .isCloseTo(-23, within(0.1));
  }

  /** EBU Tech 3341, signals 15 to 18 (from memory): peaks that fall between samples. */
  @ParameterizedTest
  @CsvSource({"4, 0", "4, 45", "6, 60", "8, 67.5"})
  void findsPeaksBetweenSamples(double part, double degrees) {
    double[] x = new double[48000];
    for (int i = 0; i < x.length; i++) {
      double fade = Math.min(1, Math.min(i, x.length - 1 - i) / 480.0);
      x[i] = fade * 0.5 * Math.sin(2 * Math.PI * i / part + Math.toRadians(degrees));
    }
    assertThat(ProgrammeLoudness.of(both(x), 48000).truePeak()).isBetween(-6.4, -5.8);
  }

  /** EBU Tech 3342, its first two signals (from memory). */
  @Test
  void rangeOfTwoSteps() {
    double[][] wide = {{20, -20}, {20, -30}};
    double[][] narrow = {{20, -20}, {20, -15}};
    assertThat(ProgrammeLoudness.of(both(tones(48000, wide)), 48000).range())
        .isCloseTo(10, within(1.0));
    assertThat(ProgrammeLoudness.of(both(tones(48000, narrow)), 48000).range())
        .isCloseTo(5, within(1.0));
  }

  @Test
  void readsTheSameInPiecesAsWhole() {
    double[] x = tones(44100, new double[] {1.7, -20}, new double[] {2.9, -33});
    ProgrammeLoudness pieces = new ProgrammeLoudness(1, 44100);
    for (int at = 0; at < x.length; at += 777) {
      double[] piece = Arrays.copyOfRange(x, at, Math.min(x.length, at + 777));
      pieces.add(new double[][] {piece}, piece.length);
    }
    assertThat(pieces.read()).isEqualTo(ProgrammeLoudness.of(new double[][] {x}, 44100));
  }

  @Test
  void silenceHasNoLoudness() {
    assertThat(ProgrammeLoudness.of(new double[][] {new double[96000]}, 48000).integrated())
        .isEqualTo(Double.NEGATIVE_INFINITY);
    assertThat(ProgrammeLoudness.of(new double[][] {new double[10]}, 48000).momentary())
        .isEqualTo(Double.NEGATIVE_INFINITY);
  }
}
