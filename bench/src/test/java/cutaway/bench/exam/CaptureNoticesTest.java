package cutaway.bench.exam;

import static org.assertj.core.api.Assertions.assertThat;

import cutaway.acoustics.signal.Capture;
import cutaway.acoustics.signal.SoundSource;
import cutaway.bench.finding.Notice;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class CaptureNoticesTest {
  private static final double RATE = 48000;

  /** A sweep from 10 Hz to 15 kHz, each channel cut off at a height of its own. */
  private static List<String> told(double firstLimit, double secondLimit) {
    double[] first = new double[(int) (6 * RATE)];
    double[] second = new double[first.length];
    double l = 5 / Math.log(1500);
    for (int i = 0; i < first.length; i++) {
      double t = Math.max(0, Math.min(5, i / RATE - 0.3));
      double x = 0.5 * Math.sin(2 * Math.PI * 10 * l * (Math.exp(t / l) - 1));
      double on = t < 5 ? x : 0;
      first[i] = Math.max(-firstLimit, Math.min(firstLimit, on));
      second[i] = Math.max(-secondLimit, Math.min(secondLimit, 0.8 * first[i]));
    }
    SoundSource source = SoundSource.of(RATE, first, second);
    List<Notice> out = new ArrayList<>();
    CaptureNotices.tell(Capture.of(source, new double[] {50}, 20, 10000), "takes.a", RATE, out);
    return out.stream().map(Notice::message).toList();
  }

  @Test
  void peaksFlattenedBelowFullScaleAreTold() {
    assertThat(told(1, 1)).noneMatch(m -> m.contains("flattened"));
    assertThat(told(1, 0.38))
        .anyMatch(
            m -> m.matches("channel 2's peaks are flattened .* Hz: its input was .*left out.*"));
    assertThat(told(0.45, 1))
        .anyMatch(m -> m.matches("both channels' peaks are flattened .* the amplifier was .*"));
  }
}
