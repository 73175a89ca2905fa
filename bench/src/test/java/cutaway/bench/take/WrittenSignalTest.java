package cutaway.bench.take;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import cutaway.acoustics.stimulus.Alignment;
import cutaway.acoustics.stimulus.TestSignal;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.sheet.SheetReader;
import cutaway.bench.take.WrittenSignal.Shape;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class WrittenSignalTest {
  @TempDir Path folder;

  private static WrittenSignal of(Shape shape, String from, String to, String... levels) {
    return new WrittenSignal(
        shape,
        from,
        to,
        List.of("50 Hz", "80 Hz"),
        Optional.empty(),
        "250 ms",
        List.of(levels),
        false);
  }

  /** What is written is what is read back, to the last bit but one. */
  @ParameterizedTest
  @EnumSource(Shape.class)
  void isReadBackFromItsFile(Shape shape) {
    TestSignal signal = of(shape, "15 Hz", "2 kHz", "-6 dB").signal(44100);
    double[] samples = signal.samples(44100);
    Path file = folder.resolve(shape + ".wav");
    SignalFile.write(file, samples, 44100);
    SoundFile back = SoundFile.openAll(file, "x.wav", "x");
    assertThat(back.rate()).isEqualTo(44100);
    assertThat(back.channels()).isEqualTo(1);
    assertThat(back.format()).isEqualTo("WAV, PCM 24 bits");
    double[] read = back.samples(0);
    assertThat(read).hasSize(samples.length);
    for (int i = 0; i < read.length; i += 7) {
      assertThat(read[i]).isCloseTo(samples[i], within(2e-7));
    }
    assertThat(Arrays.stream(read).map(Math::abs).max().orElseThrow())
        .isCloseTo(Math.pow(10, -0.3), within(0.03));
    assertThatThrownBy(() -> SignalFile.write(file, samples, 44100))
        .isInstanceOf(ProblemException.class)
        .hasMessageContaining("already there");
  }

  /** The sweep that was written is found in its own file. */
  @Test
  void isFoundInItsRecording() {
    TestSignal signal = of(Shape.SWEEP, "20 Hz", "1 kHz", "-3 dB").signal(48000);
    Alignment found = Alignment.of(signal, signal.samples(48000), 48000, true).orElseThrow();
    assertThat(found.delay()).isCloseTo(0, within(1e-5));
    assertThat(found.likeness()).isGreaterThan(0.99);
  }

  @Test
  void whatCannotBeIsSaid() {
    assertThatThrownBy(() -> of(Shape.SWEEP, "2 kHz", "15 Hz", "-6 dB").signal(48000))
        .hasMessageContaining("low < high");
    assertThatThrownBy(() -> of(Shape.SWEEP, "15 Hz", "23 kHz", "-6 dB").signal(48000))
        .hasMessageContaining("too high for 48000 samples");
    assertThatThrownBy(() -> of(Shape.SWEEP, "fifteen", "2 kHz", "-6 dB").signal(48000))
        .hasMessageContaining("fifteen");
    assertThatThrownBy(() -> of(Shape.TONE, "15 Hz", "2 kHz", "3 dB").signal(48000))
        .hasMessageContaining("over full scale");
    assertThatThrownBy(() -> of(Shape.STEPS, "15 Hz", "2 kHz", "-6 dB", "0 dB").signal(48000))
        .hasMessageContaining("only a tone");
    assertThat(of(Shape.TONE, "15 Hz", "2 kHz", "-16 dB", "-6 dB").signal(48000).tones())
        .hasSize(2);
  }

  /** The line that is told is read from a sheet as the signal that was written. */
  @ParameterizedTest
  @EnumSource(
      value = Shape.class,
      names = {"SWEEP", "TONE", "STEPS"})
  void itsLineInASheetMeansTheSame(Shape shape) {
    WrittenSignal wish = of(shape, "20 Hz", "1.5 kHz", "-9 dB");
    TestSignal signal = wish.signal(48000);
    String sheet =
        "cutaway: 1\nunit: { name: U }\ntakes:\n  - id: a\n    file: a.wav\n    what: sound\n"
            + "    sensors: [cone]\n    "
            + wish.inSheet(signal, "a.wav").orElseThrow()
            + "\n";
    assertThat(SheetReader.read(sheet, "dossier.yaml").sounds().takes().get(0).played())
        .contains(signal);
  }

  @Test
  void whatIsNoSignalOfATakeHasNoLine() {
    WrittenSignal burst = of(Shape.BURST, "20 Hz", "1 kHz", "-9 dB");
    assertThat(burst.inSheet(burst.signal(48000), "a.wav")).isEmpty();
    WrittenSignal noise = of(Shape.NOISE, "20 Hz", "1 kHz", "-9 dB");
    // shorter than a path is learned from
    assertThat(noise.inSheet(noise.signal(48000), "a.wav")).isEmpty();
  }

  @Test
  void voltsBecomeALevel() {
    assertThat(WrittenSignal.level("1.415 V", "2.83 V")).isEqualTo("-6.02 dB");
    assertThatThrownBy(() -> WrittenSignal.level("4 V", "2.83 V"))
        .hasMessageContaining("not to be had");
  }
}
