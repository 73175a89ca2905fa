package cutaway.bench.take;

import cutaway.acoustics.driveunit.ImpedanceCurve;
import cutaway.bench.finding.Notice;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * An impedance curve in a text file.
 *
 * @param curve the impedance, ascending, without bad rows
 * @param understood what the file was taken to hold, to be contradicted in the sheet
 * @param notices rows left out, repeated or out of order
 */
public record CurveFile(ImpedanceCurve curve, String understood, List<Notice> notices) {
  private static final long LARGEST = 64L << 20;
  private static final double LOWEST_HERTZ = 1e-2;
  private static final double HIGHEST_HERTZ = 1e7;
  private static final double LOWEST_OHM = 1e-9;
  private static final double HIGHEST_OHM = 1e9;
  private static final double OUTLANDISH = 1e4;

  /**
   * Reads a file.
   *
   * @param path where it lies
   * @param name what to call it in messages
   * @param about id for its notices
   * @throws ProblemException where it cannot be read as a curve
   */
  public static CurveFile read(Path path, String name, String about, ReadAs as) {
    byte[] bytes = bytes(path, name);
    return of(bytes, name, about, as);
  }

  private static byte[] bytes(Path path, String name) {
    try {
      long size = Files.size(path);
      if (size > LARGEST) {
        throw new ProblemException(
            Problem.of(
                name,
                "is " + (size >> 20) + " MiB large, more than any curve needs",
                "name a curve of at most " + (LARGEST >> 20) + " MiB"));
      }
      return Files.readAllBytes(path);
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(name, "cannot be read (" + e.getMessage() + ")", "check the file"));
    }
  }

  /** Reads the content of a file. */
  public static CurveFile of(byte[] bytes, String name, String about, ReadAs as) {
    if (bytes.length == 0) {
      throw new ProblemException(Problem.of(name, "is empty", "export the curve again"));
    }
    refuseSound(bytes, name);
    TextDecoder.Decoded decoded = TextDecoder.decode(bytes, name);
    boolean touchstone =
        name.toLowerCase(Locale.ROOT).endsWith(".s1p")
            || name.toLowerCase(Locale.ROOT).endsWith(".z1p")
            || name.toLowerCase(Locale.ROOT).endsWith(".ts");
    Rows rows =
        touchstone
            ? Touchstone.read(decoded.text(), name)
            : CurveText.read(decoded.text(), name, as);
    return rows.curve(name, about, decoded.encoding());
  }

  private static void refuseSound(byte[] bytes, String name) {
    if (bytes.length > 12) {
      String head = new String(bytes, 0, 4, java.nio.charset.StandardCharsets.ISO_8859_1);
      if (List.of("RIFF", "RF64", "fLaC", "OggS").contains(head)) {
        throw new ProblemException(
            Problem.of(
                name,
                "is a sound recording by its content, not a curve",
                "give it the ending .wav or .flac and 'what: two-channel sweep'"));
      }
    }
  }

  /** Rows as read, before they are put in order. */
  static final class Rows {
    private final List<Row> list = new ArrayList<>();
    private final List<Notice> notices = new ArrayList<>();
    private final String understood;
    private final boolean phaseKnown;
    private int bad;
    private int firstBad;
    private String badExample = "";

    Rows(String understood, boolean phaseKnown) {
      this.understood = understood;
      this.phaseKnown = phaseKnown;
    }

    private record Row(int line, double f, double re, double im) {}

    /** Adds a row, or counts it as bad where a number cannot be part of an impedance. */
    void add(int line, double f, double re, double im) {
      double magnitude = phaseKnown ? Math.hypot(re, im) : re;
      if (f > LOWEST_HERTZ
          && f < HIGHEST_HERTZ
          && magnitude > LOWEST_OHM
          && magnitude < HIGHEST_OHM) {
        list.add(new Row(line, f, re, im));
      } else {
        bad(
            line,
            figure(f) + " Hz, " + figure(re) + (phaseKnown ? " + j " + figure(im) : "") + " Ω");
      }
    }

    void bad(int line, String what) {
      if (bad++ == 0) {
        firstBad = line;
        badExample = what;
      }
    }

    CurveFile curve(String name, String about, String encoding) {
      leaveOutOutlandish();
      List<Row> merged = merged(sorted(about), about);
      int n = merged.size();
      if (n < 2 || bad > list.size()) {
        throw new ProblemException(
            new Problem(
                name,
                firstBad,
                0,
                "has " + n + " usable rows and " + bad + " that are not",
                bad > 0
                    ? "the first bad one reads " + badExample
                    : "a curve needs a frequency and a value in each row"));
      }
      if (bad > 0) {
        notices.add(
            0,
            Notice.caution(
                about,
                String.format(
                    Locale.ROOT,
                    "%d rows left out, the first at line %d: %s",
                    bad,
                    firstBad,
                    badExample),
                "export the curve again, or take the rows out of a copy"));
      }
      double[] f = new double[n];
      double[] re = new double[n];
      double[] im = new double[n];
      for (int i = 0; i < n; i++) {
        f[i] = merged.get(i).f();
        re[i] = merged.get(i).re();
        im[i] = merged.get(i).im();
      }
      ImpedanceCurve curve =
          phaseKnown ? ImpedanceCurve.of(f, re, im) : ImpedanceCurve.ofMagnitude(f, re);
      String summary =
          String.format(
              Locale.ROOT,
              "%s; %s; %d points from %s to %s Hz",
              encoding,
              understood,
              n,
              figure(f[0]),
              figure(f[n - 1]));
      return new CurveFile(curve, summary, List.copyOf(notices));
    }

    /** Takes out magnitudes that are ten thousand times off the middle one. */
    private void leaveOutOutlandish() {
      List<Double> sizes = list.stream().map(r -> Math.hypot(r.re(), r.im())).sorted().toList();
      if (sizes.size() < 3) {
        return;
      }
      double middle = sizes.get(sizes.size() / 2);
      list.removeIf(
          row -> {
            double size = Math.hypot(row.re(), row.im());
            boolean outlandish = size > OUTLANDISH * middle || size < middle / OUTLANDISH;
            if (outlandish) {
              bad(row.line(), figure(row.f()) + " Hz, " + figure(size) + " Ω");
            }
            return outlandish;
          });
    }

    /** Five significant digits without idle zeros. */
    static String figure(double x) {
      if (!Double.isFinite(x)) {
        return Double.isNaN(x) ? "no number" : "infinite";
      }
      return new BigDecimal(x).round(new MathContext(5)).stripTrailingZeros().toPlainString();
    }

    private List<Row> sorted(String about) {
      int down = 0;
      for (int i = 1; i < list.size(); i++) {
        down += list.get(i).f() < list.get(i - 1).f() ? 1 : 0;
      }
      if (down > 0 && down < list.size() - 1 - list.size() / 20) {
        notices.add(
            Notice.note(
                about,
                down + (down == 1 ? " row stands" : " rows stand") + " out of order; sorted",
                "nothing to do"));
      }
      List<Row> out = new ArrayList<>(list);
      out.sort(java.util.Comparator.comparingDouble(Row::f));
      return out;
    }

    private List<Row> merged(List<Row> sorted, String about) {
      List<Row> out = new ArrayList<>();
      int duplicates = 0;
      int contradicting = 0;
      int i = 0;
      while (i < sorted.size()) {
        int j = i;
        double re = 0;
        double im = 0;
        while (j < sorted.size() && sorted.get(j).f() == sorted.get(i).f()) {
          re += sorted.get(j).re();
          im += sorted.get(j).im();
          double apart =
              Math.hypot(
                  sorted.get(j).re() - sorted.get(i).re(), sorted.get(j).im() - sorted.get(i).im());
          if (apart > 0.1 * Math.hypot(sorted.get(i).re(), sorted.get(i).im())) {
            contradicting = sorted.get(j).line();
          }
          j++;
        }
        duplicates += j - i - 1;
        Row first = sorted.get(i);
        re /= j - i;
        im /= j - i;
        if (Math.hypot(re, im) * OUTLANDISH > Math.hypot(first.re(), first.im())) {
          out.add(new Row(first.line(), first.f(), re, im));
        } else {
          bad(first.line(), figure(first.f()) + " Hz, rows that cancel each other");
        }
        i = j;
      }
      if (contradicting > 0) {
        notices.add(
            Notice.caution(
                about,
                "line " + contradicting + " repeats a frequency with another impedance; averaged",
                "check how the curve was exported"));
      }
      if (duplicates > 0) {
        notices.add(
            Notice.note(
                about,
                duplicates + " rows repeat a frequency and were averaged with it",
                "check how the curve was exported"));
      }
      return out;
    }
  }
}
