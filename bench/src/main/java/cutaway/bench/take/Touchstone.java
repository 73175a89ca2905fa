package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * One-port network data as Touchstone 1.1 and 2.0 write it (EIA/IBIS open standard).
 *
 * <p>In version 1, Z and Y are normalised to the reference resistance; in version 2 they are not.
 */
final class Touchstone {
  private static final Pattern SPACE = Pattern.compile("\\s+");

  private final String name;
  private double frequencyFactor = 1e9;
  private char parameter = 'S';
  private String format = "MA";
  private double reference = 50;
  private boolean version2;
  private boolean optionSeen;

  private Touchstone(String name) {
    this.name = name;
  }

  static CurveFile.Rows read(String text, String name) {
    return new Touchstone(name).read(text);
  }

  private record Datum(int line, double f, double a, double b) {}

  private CurveFile.Rows read(String text) {
    List<Datum> data = new ArrayList<>();
    List<String> lines = text.lines().toList();
    CurveFile.Rows broken = new CurveFile.Rows("", true);
    List<Integer> bad = new ArrayList<>();
    boolean referenceNext = false;
    for (int i = 0; i < lines.size(); i++) {
      int mark = lines.get(i).indexOf('!');
      String line = (mark < 0 ? lines.get(i) : lines.get(i).substring(0, mark)).strip();
      if (line.isEmpty()) {
        continue;
      }
      if (line.startsWith("#")) {
        option(line, i + 1);
      } else if (line.startsWith("[")) {
        String key = line.toLowerCase(Locale.ROOT);
        referenceNext = keyword(key, line, i + 1);
        if (key.startsWith("[end]") || key.startsWith("[noise data]")) {
          break;
        }
      } else if (referenceNext) {
        reference = number(line, i + 1);
        referenceNext = false;
      } else {
        String[] fields = SPACE.split(line, -1);
        if (fields.length < 3) {
          bad.add(i + 1);
          continue;
        }
        try {
          data.add(
              new Datum(
                  i + 1,
                  Double.parseDouble(fields[0]),
                  Double.parseDouble(fields[1]),
                  Double.parseDouble(fields[2])));
        } catch (NumberFormatException e) {
          bad.add(i + 1);
        }
      }
    }
    return rows(data, bad, broken);
  }

  private CurveFile.Rows rows(List<Datum> data, List<Integer> bad, CurveFile.Rows empty) {
    if (data.isEmpty()) {
      for (int line : bad) {
        empty.bad(line, "a row without three numbers");
      }
      throw new ProblemException(
          Problem.of(name, "has no row of three numbers", "export a one-port file"));
    }
    String understood =
        String.format(
            Locale.ROOT,
            "Touchstone %s, %c parameters as %s, reference %s Ω%s",
            version2 ? "2" : "1",
            parameter,
            format,
            trim(reference),
            optionSeen ? "" : " (no option line, so its defaults)");
    CurveFile.Rows rows = new CurveFile.Rows(understood, true);
    double[] z = new double[2];
    for (Datum datum : data) {
      impedance(datum.a(), datum.b(), z);
      rows.add(datum.line(), datum.f() * frequencyFactor, z[0], z[1]);
    }
    for (int line : bad) {
      rows.bad(line, "a row without three numbers");
    }
    return rows;
  }

  private static String trim(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  private void option(String line, int number) {
    if (optionSeen) {
      return;
    }
    optionSeen = true;
    String[] written = SPACE.split(line.substring(1).strip(), -1);
    String[] words = SPACE.split(line.substring(1).strip().toUpperCase(Locale.ROOT), -1);
    for (int i = 0; i < words.length; i++) {
      switch (words[i]) {
        case "HZ" -> frequencyFactor = 1;
        case "KHZ" -> frequencyFactor = 1e3;
        case "MHZ" -> frequencyFactor = 1e6;
        case "GHZ" -> frequencyFactor = 1e9;
        case "S", "Z", "Y" -> parameter = words[i].charAt(0);
        case "MA", "DB", "RI" -> format = words[i];
        case "R" -> {
          if (i + 1 < words.length) {
            reference = number(written[++i], number);
          }
        }
        case "" -> {}
        default ->
            throw new ProblemException(
                new Problem(
                    name,
                    number,
                    0,
                    "the option '" + words[i] + "' is not for a loudspeaker's impedance",
                    "use S, Z or Y with MA, DB or RI and R followed by ohms"));
      }
    }
    if (!(reference > 0)) {
      throw new ProblemException(
          new Problem(name, number, 0, "the reference is " + reference + " Ω", "give it in ohms"));
    }
  }

  /** Whether the next line holds the reference. */
  private boolean keyword(String key, String line, int number) {
    if (key.startsWith("[version]")) {
      version2 = key.contains("2");
    } else if (key.startsWith("[number of ports]") && !key.substring(17).strip().equals("1")) {
      throw new ProblemException(
          new Problem(
              name, number, 0, "has " + key.substring(17).strip() + " ports", "export one port"));
    } else if (key.startsWith("[reference]")) {
      String rest = line.substring(11).strip();
      if (rest.isEmpty()) {
        return true;
      }
      reference = number(SPACE.split(rest, -1)[0], number);
    }
    return false;
  }

  private double number(String text, int line) {
    try {
      return Double.parseDouble(text);
    } catch (NumberFormatException e) {
      throw new ProblemException(
          new Problem(name, line, 0, "'" + text + "' is no number", "give ohms as a number"));
    }
  }

  private void impedance(double a, double b, double[] z) {
    double re = a;
    double im = b;
    if (!format.equals("RI")) {
      double magnitude = format.equals("DB") ? Math.pow(10, a / 20) : a;
      re = magnitude * Math.cos(Math.toRadians(b));
      im = magnitude * Math.sin(Math.toRadians(b));
    }
    double scale = version2 ? 1 : reference;
    switch (parameter) {
      case 'Z' -> {
        z[0] = re * scale;
        z[1] = im * scale;
      }
      case 'Y' -> {
        double inv = scale / (re * re + im * im);
        z[0] = re * inv;
        z[1] = -im * inv;
      }
      default -> {
        // R0 (1+S)/(1−S)
        double inv = reference / ((1 - re) * (1 - re) + im * im);
        z[0] = (1 - re * re - im * im) * inv;
        z[1] = 2 * im * inv;
      }
    }
  }
}
