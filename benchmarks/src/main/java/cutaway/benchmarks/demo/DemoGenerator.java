package cutaway.benchmarks.demo;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;

/** Writes the demo's takes to a folder; {@code benchmarks/make-demo.sh} runs it. */
public final class DemoGenerator {
  private static final double RATE = 48000;
  private static final int OVERSAMPLING = 40;
  private static final double SENSE = 4.7;
  private static final double KNOWN = 8.2;

  /** What was stuck on, against what the sheet says of the second: 45 g. */
  private static final double MASS_1 = 0.0300;

  private static final double MASS_2 = 0.0500;
  private static final double TEST_BOX = 0.0305;
  private static final double FULL_SCALE = 8;

  private final Random random = new Random(20260914);
  private final Path folder;

  private DemoGenerator(Path folder) {
    this.folder = folder;
  }

  /** Writes the takes to the folder named. */
  public static void main(String[] args) {
    new DemoGenerator(Path.of(args[0])).run();
  }

  private void run() {
    curve("free-air.csv", InventedLoudspeaker.closed(0, 1e9, SENSE, step()), Style.COMMA);
    curve("with-mass.csv", InventedLoudspeaker.closed(MASS_1, 1e9, SENSE, step()), Style.COMMA);
    curve(
        "with-more-mass.txt", InventedLoudspeaker.closed(MASS_2, 1e9, SENSE, step()), Style.PLAIN);
    curve("test-box.s1p", InventedLoudspeaker.closed(0, TEST_BOX, SENSE, step()), Style.TOUCHSTONE);
    capture("in-box.wav", InventedLoudspeaker.vented(SENSE, step()), 2.6, 0.55);
    resistor("resistor.wav", 1.3, 0.55);
  }

  private static double step() {
    return 1 / (RATE * OVERSAMPLING);
  }

  /** An exponential sweep from 5 Hz to 20 kHz with soft ends, peak 1. */
  private static double sweep(double t, double duration) {
    if (t < 0 || t > duration) {
      return 0;
    }
    double l = duration / Math.log(20000.0 / 5);
    double fade = Math.min(1, Math.min(t / 0.1, (duration - t) / 0.01));
    return 0.5
        * (1 - Math.cos(Math.PI * fade))
        * Math.sin(2 * Math.PI * 5 * l * (Math.exp(t / l) - 1));
  }

  private enum Style {
    COMMA,
    PLAIN,
    TOUCHSTONE
  }

  /** Runs a sweep and sums voltage and current against e^{−jωt} at each frequency. */
  private void curve(String name, LinearSystem system, Style style) {
    double duration = 3;
    int n = (int) (RATE * OVERSAMPLING * (duration + 1.5));
    float[] voltage = new float[n];
    float[] current = new float[n];
    for (int i = 0; i < n; i++) {
      double u = sweep(i * step() - 0.05, duration);
      double[] x = system.advance(u);
      voltage[i] = (float) (u - SENSE * x[0]);
      current[i] = (float) x[0];
    }
    StringBuilder out = new StringBuilder(head(style));
    int points = 150;
    for (int k = 0; k < points; k++) {
      double f = 6 * Math.pow(20000.0 / 6, k / (points - 1.0));
      double[] v = transform(voltage, f);
      double[] i = transform(current, f);
      double square = i[0] * i[0] + i[1] * i[1];
      double re = (v[0] * i[0] + v[1] * i[1]) / square;
      double im = (v[1] * i[0] - v[0] * i[1]) / square;
      double a = 1 + 0.0025 * random.nextGaussian();
      double b = 0.0025 * random.nextGaussian();
      out.append(row(style, f, re * a - im * b, re * b + im * a));
    }
    write(name, out.toString().getBytes(StandardCharsets.UTF_8));
  }

  private static double[] transform(float[] x, double f) {
    double turn = 2 * Math.PI * f * step();
    double c = 1;
    double s = 0;
    double dc = Math.cos(turn);
    double ds = Math.sin(turn);
    double re = 0;
    double im = 0;
    for (int i = 0; i < x.length; i++) {
      if (i % 4096 == 0) {
        c = Math.cos(turn * i);
        s = Math.sin(turn * i);
      }
      re += x[i] * c;
      im -= x[i] * s;
      double next = c * dc - s * ds;
      s = s * dc + c * ds;
      c = next;
    }
    return new double[] {re, im};
  }

  private static String head(Style style) {
    return switch (style) {
      case COMMA -> "# invented data\nfrequency (Hz);magnitude (ohm);phase (deg)\n";
      case PLAIN -> "* invented data\n* frequency  real  imaginary\n";
      case TOUCHSTONE -> "! invented data\n# Hz S RI R 8\n";
    };
  }

  private static String row(Style style, double f, double re, double im) {
    if (style == Style.COMMA) {
      return String.format(
              Locale.ROOT,
              "%.4f;%.4f;%.3f%n",
              f,
              Math.hypot(re, im),
              Math.toDegrees(Math.atan2(im, re)))
          .replace('.', ',');
    }
    if (style == Style.PLAIN) {
      return String.format(Locale.ROOT, "%10.4f  %9.5f  %9.5f%n", f, re, im);
    }
    // S = (Z − 8)/(Z + 8)
    double d = (re + 8) * (re + 8) + im * im;
    return String.format(
        Locale.ROOT, "%.4f %.7f %.7f%n", f, (re * re + im * im - 64) / d, 16 * im / d);
  }

  private void capture(String name, LinearSystem system, double duration, double level) {
    int n = (int) (RATE * (duration + 0.9));
    double[] first = new double[n];
    double[] second = new double[n];
    double volts = level * FULL_SCALE;
    for (int i = 0; i < n * OVERSAMPLING; i++) {
      double u = volts * sweep(i * step() - 0.3, duration);
      double current = system.advance(u)[0];
      if (i % OVERSAMPLING == 0) {
        first[i / OVERSAMPLING] = u;
        second[i / OVERSAMPLING] = u - SENSE * current;
      }
    }
    save(name, first, second, 0.006);
  }

  private void resistor(String name, double duration, double level) {
    int n = (int) (RATE * (duration + 0.6));
    double[] first = new double[n];
    double[] second = new double[n];
    for (int i = 0; i < n; i++) {
      first[i] = level * FULL_SCALE * sweep(i / RATE - 0.2, duration);
      second[i] = first[i] * KNOWN / (KNOWN + SENSE);
    }
    save(name, first, second, 0.006);
  }

  /** 16-bit WAV with noise, hum, and a second channel 0.31 dB louder. */
  private void save(String name, double[] first, double[] second, double hum) {
    int n = first.length;
    ByteBuffer out = ByteBuffer.allocate(44 + 4 * n).order(ByteOrder.LITTLE_ENDIAN);
    out.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 4 * n);
    out.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    out.putShort((short) 1).putShort((short) 2).putInt((int) RATE).putInt((int) (RATE * 4));
    out.putShort((short) 4).putShort((short) 16);
    out.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(4 * n);
    double gain = Math.pow(10, 0.31 / 20);
    for (int i = 0; i < n; i++) {
      double t = i / RATE;
      double mains =
          hum * (Math.cos(2 * Math.PI * 50.02 * t) + 0.4 * Math.sin(2 * Math.PI * 150.06 * t));
      out.putShort(sample(first[i] / FULL_SCALE));
      out.putShort(sample(gain * (second[i] + mains) / FULL_SCALE));
    }
    write(name, out.array());
  }

  private short sample(double x) {
    return (short) Math.rint(32767 * x + 0.6 * random.nextGaussian());
  }

  private void write(String name, byte[] bytes) {
    try {
      Files.createDirectories(folder);
      Files.write(folder.resolve(name), bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
