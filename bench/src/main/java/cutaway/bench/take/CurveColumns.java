package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Which column is what. */
record CurveColumns(
    int frequency,
    int first,
    int second,
    boolean cartesian,
    double frequencyFactor,
    double ohms,
    boolean radians,
    String words) {

  static CurveColumns of(
      CurveHeader header, List<List<Double>> parsed, int width, ReadAs as, String name) {
    List<String> roles = new ArrayList<>();
    boolean told = !as.columns().isEmpty();
    for (int i = 0; i < width; i++) {
      if (told) {
        roles.add(i < as.columns().size() ? as.columns().get(i) : "ignore");
      } else {
        roles.add(i < header.names().size() ? role(header.names().get(i)) : "");
      }
    }
    boolean labelled = told || roles.stream().anyMatch(r -> r.equals("frequency"));
    if (!labelled) {
      roles = guess(parsed, width);
    }
    int f = Math.max(0, roles.indexOf("frequency"));
    int re = roles.indexOf("real");
    int im = roles.indexOf("imaginary");
    int magnitude = roles.indexOf("magnitude");
    int phase = roles.indexOf("phase");
    refuseHalf(roles, told, name);
    boolean cartesian = re >= 0 && im >= 0;
    if (!cartesian && magnitude < 0) {
      magnitude = firstOther(roles, f, phase, name);
    }
    boolean unitNamed =
        as.frequencyUnit().isPresent()
            || (f < header.names().size() && header.names().get(f).contains("hz"));
    double factor = unitNamed ? frequencyFactor(header, f, as) : guessedFactor(parsed, f);
    refuseMisfit(header, width, told, name);
    boolean radians = phase >= 0 && radians(header, phase, parsed, as);
    String kind =
        cartesian
            ? "real and imaginary part"
            : phase < 0
                ? "magnitude only"
                : "magnitude and phase in "
                    + (radians ? "radians" : "degrees")
                    + (phaseUnitNamed(header, phase, as) ? "" : " (judged by its values)");
    String how = told ? "as the sheet says: " : labelled ? "by its header: " : "no header, so: ";
    String words =
        how
            + "frequency in "
            + (factor == 1 ? "Hz" : unitNamed ? "kHz" : "kHz (judged by its values)")
            + ", "
            + kind;
    return new CurveColumns(
        f,
        cartesian ? re : magnitude,
        cartesian ? im : phase,
        cartesian,
        factor,
        ohms(header, cartesian ? re : magnitude, name),
        radians,
        words);
  }

  /** Half a complex number is no magnitude, and no column may be two things. */
  private static void refuseHalf(List<String> roles, boolean told, String name) {
    boolean half =
        roles.contains("real") != roles.contains("imaginary") && !roles.contains("magnitude");
    if (half) {
      boolean real = roles.contains("real");
      throw new ProblemException(
          Problem.of(
              name,
              (real ? "has a real part" : "has an imaginary part")
                  + " but no "
                  + (real ? "imaginary" : "real")
                  + " part",
              "export both, or magnitude and phase; or say what the columns are:"
                  + " columns: [frequency, magnitude, phase]"));
    }
    if (told && !roles.contains("frequency")) {
      throw new ProblemException(
          Problem.of(
              name,
              "is said by the sheet to have no column of frequencies",
              "say which one it is: columns: [frequency, magnitude, phase]"));
    }
    for (String role : List.of("frequency", "magnitude", "phase", "real", "imaginary")) {
      if (told && roles.indexOf(role) != roles.lastIndexOf(role)) {
        throw new ProblemException(
            Problem.of(
                name,
                "is said by the sheet to have two columns of " + role,
                "name one of them 'ignore'"));
      }
    }
  }

  /** A header that names fewer columns than the rows have was written in another dialect. */
  private static void refuseMisfit(CurveHeader header, int width, boolean told, String name) {
    if (!told && header.names().size() >= 2 && width >= 2 * header.names().size()) {
      throw new ProblemException(
          Problem.of(
              name,
              "its header names " + header.names().size() + " columns but rows have " + width,
              "commas cannot separate both columns and decimals: export with semicolons or tabs"));
    }
  }

  /** Ohms in one unit of a column by its header: kΩ, mΩ; decibels are no ohms. */
  private static double ohms(CurveHeader header, int column, String name) {
    String h = column < header.names().size() ? header.names().get(column) : "";
    if (h.contains("(db") || h.contains("[db") || h.endsWith(" db")) {
      throw new ProblemException(
          Problem.of(
              name, "gives the impedance in decibels", "export it in ohms, or as Touchstone"));
    }
    boolean kilo = h.contains("kohm") || h.contains("kω");
    boolean milli = h.contains("mohm") || h.contains("mω");
    return kilo ? 1000 : milli ? 0.001 : 1;
  }

  private static int firstOther(List<String> roles, int f, int phase, String name) {
    for (int i = 0; i < roles.size(); i++) {
      if (i != f && i != phase && !roles.get(i).equals("ignore")) {
        return i;
      }
    }
    throw new ProblemException(
        Problem.of(
            name,
            "has no column of magnitudes",
            "say what the columns are: columns: [frequency, magnitude, phase]"));
  }

  /**
   * Two columns are magnitudes; three magnitudes and degrees, unless a magnitude is negative or an
   * angle beyond the right one that no passive thing exceeds.
   */
  private static List<String> guess(List<List<Double>> parsed, int width) {
    if (width < 3) {
      return List.of("frequency", "magnitude");
    }
    boolean cartesian =
        parsed.stream()
            .filter(p -> p.size() > 2)
            .anyMatch(p -> p.get(1) < 0 || Math.abs(p.get(2)) > 95);
    List<String> out =
        new ArrayList<>(
            cartesian
                ? List.of("frequency", "real", "imaginary")
                : List.of("frequency", "magnitude", "phase"));
    while (out.size() < width) {
      out.add("ignore");
    }
    return out;
  }

  /** From a fifth of a hertz or less to fifty is no sweep of a loudspeaker: those are kilohertz. */
  private static double guessedFactor(List<List<Double>> parsed, int f) {
    double low = Double.POSITIVE_INFINITY;
    double high = 0;
    for (List<Double> row : parsed) {
      double x = f < row.size() ? row.get(f) : Double.NaN;
      low = x > 0 ? Math.min(low, x) : low;
      high = x > 0 ? Math.max(high, x) : high;
    }
    return low < 0.2 && high < 50 && high > 100 * low ? 1000 : 1;
  }

  private static double frequencyFactor(CurveHeader header, int f, ReadAs as) {
    Optional<String> unit = as.frequencyUnit();
    if (unit.isPresent()) {
      return unit.get().equals("kHz") ? 1000 : 1;
    }
    return f < header.names().size() && header.names().get(f).contains("khz") ? 1000 : 1;
  }

  private static boolean phaseUnitNamed(CurveHeader header, int phase, ReadAs as) {
    String h = phase < header.names().size() ? header.names().get(phase) : "";
    return as.phaseUnit().isPresent() || h.contains("rad") || degrees(h);
  }

  /** "deg", "°", and the German word for degrees, which holds "rad". */
  private static boolean degrees(String header) {
    return header.contains("deg") || header.contains("°") || header.contains("grad");
  }

  private static boolean radians(
      CurveHeader header, int phase, List<List<Double>> parsed, ReadAs as) {
    Optional<String> unit = as.phaseUnit();
    if (unit.isPresent()) {
      return unit.get().equals("radians");
    }
    if (phase < header.names().size()) {
      String h = header.names().get(phase);
      if (degrees(h)) {
        return false;
      }
      if (h.contains("rad")) {
        return true;
      }
    }
    double largest = 0;
    for (List<Double> row : parsed) {
      if (row.size() > phase && !row.get(phase).isNaN()) {
        largest = Math.max(largest, Math.abs(row.get(phase)));
      }
    }
    // no drive unit stays within two degrees: such numbers are radians
    return largest > 0 && largest <= Math.PI / 2;
  }

  /** "Z imag", "Im(Z)", "imaginary part", "reactance", "Z''", "x". */
  private static final Pattern IMAGINARY =
      Pattern.compile("imag|\\bim\\b|react|\\bx\\b|^z\\s*(''|″)");

  /** "Z real", "Re(Z)", "real part", "resistance", "Z'", "r". */
  private static final Pattern REAL = Pattern.compile("real|\\bre\\b|resist|\\br\\b|^z\\s*('|′)");

  static String role(String header) {
    String h = header.strip();
    if (h.startsWith("freq")
        || h.equals("f")
        || h.startsWith("f ")
        || h.startsWith("f(")
        || h.equals("hz")
        || h.equals("khz")
        || h.startsWith("f/")
        || h.startsWith("f [")) {
      return "frequency";
    }
    if (h.contains("phas")
        || h.contains("deg")
        || h.contains("rad")
        || h.startsWith("arg")
        || h.contains("winkel")
        || h.contains("°")
        || h.startsWith("∠")) {
      return "phase";
    }
    if (IMAGINARY.matcher(h).find()) {
      return "imaginary";
    }
    if (REAL.matcher(h).find()) {
      return "real";
    }
    if (h.contains("mag")
        || h.contains("|z|")
        || h.contains("ohm")
        || h.contains("ω")
        || h.contains("impedance")
        || h.startsWith("z")
        || h.contains("abs")
        || h.contains("betrag")) {
      return "magnitude";
    }
    return "ignore";
  }

  boolean phaseKnown() {
    return cartesian || second >= 0;
  }

  int needed() {
    return 1 + Math.max(frequency, Math.max(first, second));
  }

  void add(CurveFile.Rows rows, int line, List<Double> numbers) {
    double f = numbers.get(frequency) * frequencyFactor;
    double a = numbers.get(first) * ohms;
    if (cartesian) {
      rows.add(line, f, a, numbers.get(second) * ohms);
    } else if (second < 0) {
      rows.add(line, f, a, 0);
    } else if (a > 0) {
      double p = radians ? numbers.get(second) : Math.toRadians(numbers.get(second));
      rows.add(line, f, a * Math.cos(p), a * Math.sin(p));
    } else {
      rows.bad(
          line, CurveFile.Rows.figure(f) + " Hz, magnitude " + CurveFile.Rows.figure(a) + " Ω");
    }
  }
}
