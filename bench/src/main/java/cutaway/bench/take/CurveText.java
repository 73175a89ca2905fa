package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Columns of numbers in any of the dialects that measuring programs and spreadsheets write. */
final class CurveText {
  private static final Pattern COMMENT = Pattern.compile("^\\s*(#|\\*|;|!|//|%|\"\\s*[A-Za-z])");

  private final String name;
  private final ReadAs as;
  private final List<String> lines;

  private CurveText(String text, String name, ReadAs as) {
    this.name = name;
    this.as = as;
    this.lines = text.lines().toList();
  }

  static CurveFile.Rows read(String text, String name, ReadAs as) {
    return new CurveText(text, name, as).read();
  }

  /** How fields are separated and decimals written. */
  private enum Dialect {
    TAB("\t", false, "tabs"),
    TAB_COMMA("\t", true, "tabs, decimal comma"),
    SEMICOLON(";", false, "semicolons"),
    SEMICOLON_COMMA(";", true, "semicolons, decimal comma"),
    COMMA(",", false, "commas"),
    SPACE("\\s+", false, "spaces"),
    SPACE_COMMA("\\s+", true, "spaces, decimal comma");

    private final Pattern separator;
    private final boolean decimalComma;
    private final String words;

    Dialect(String separator, boolean decimalComma, String words) {
      this.separator = Pattern.compile(separator);
      this.decimalComma = decimalComma;
      this.words = words;
    }

    /** The numbers of a line, or null where it is none. */
    double @Nullable [] numbers(String line) {
      String[] fields = separator.split(line.strip(), -1);
      int n = fields.length;
      while (n > 0 && fields[n - 1].isBlank()) {
        n--;
      }
      if (n < 2) {
        return null;
      }
      double[] out = new double[n];
      for (int i = 0; i < n; i++) {
        Double value = number(fields[i]);
        if (value == null) {
          return null;
        }
        out[i] = value;
      }
      return out;
    }

    private @Nullable Double number(String field) {
      String s = field.strip().replace("\"", "");
      if (decimalComma) {
        if (s.indexOf('.') >= 0) {
          return null;
        }
        s = s.replace(',', '.');
      }
      if (s.isEmpty() || !("+-.0123456789".indexOf(s.charAt(0)) >= 0 || isNotFinite(s))) {
        return null;
      }
      if (isNotFinite(s)) {
        return Double.NaN;
      }
      char last = s.charAt(s.length() - 1);
      if (last == 'd' || last == 'f' || last == 'D' || last == 'F') {
        return null;
      }
      try {
        return Double.valueOf(s);
      } catch (NumberFormatException e) {
        return null;
      }
    }

    private static boolean isNotFinite(String s) {
      String t = s.toLowerCase(Locale.ROOT).replaceFirst("^[-+]", "");
      return t.equals("nan") || t.equals("inf") || t.equals("infinity") || t.equals("1.#inf");
    }
  }

  private record Parsed(int line, List<Double> numbers) {}

  private CurveFile.Rows read() {
    Dialect best = Dialect.SPACE;
    List<Parsed> parsed = List.of();
    for (Dialect dialect : Dialect.values()) {
      List<Parsed> candidate = parse(dialect);
      if (score(candidate) > score(parsed)) {
        best = dialect;
        parsed = candidate;
      }
    }
    if (parsed.isEmpty()) {
      throw new ProblemException(
          Problem.of(
              name,
              "has no row of two or more numbers",
              "export frequency with magnitude and phase, or with real and imaginary part"));
    }
    int width = usualWidth(parsed);
    Header header = Header.find(lines, parsed.get(0).line(), best.separator, best.decimalComma);
    Columns columns = Columns.of(header, parsed, width, as, name);
    String understood = best.words + "; " + columns.words();
    CurveFile.Rows rows = new CurveFile.Rows(understood, columns.phaseKnown());
    int next = 0;
    for (int i = parsed.get(0).line(); i <= lines.size(); i++) {
      boolean here = next < parsed.size() && parsed.get(next).line() == i;
      String line = lines.get(i - 1);
      if (here && parsed.get(next).numbers().size() >= columns.needed()) {
        columns.add(rows, i, parsed.get(next).numbers());
      } else if (here || !(line.isBlank() || COMMENT.matcher(line).find())) {
        rows.bad(i, "'" + line.strip().substring(0, Math.min(40, line.strip().length())) + "'");
      }
      next += here ? 1 : 0;
    }
    return rows;
  }

  private List<Parsed> parse(Dialect dialect) {
    List<Parsed> out = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      if (line.isBlank() || line.length() > 4000 || COMMENT.matcher(line).find()) {
        continue;
      }
      double[] numbers = dialect.numbers(line);
      if (numbers != null) {
        out.add(new Parsed(i + 1, Arrays.stream(numbers).boxed().toList()));
      }
    }
    return out;
  }

  /** More rows first; of equals, the dialect that yields columns people write: two to eight. */
  private static double score(List<Parsed> parsed) {
    if (parsed.isEmpty()) {
      return 0;
    }
    int width = usualWidth(parsed);
    return parsed.size() - (width > 8 ? 0.5 : 0);
  }

  private static int usualWidth(List<Parsed> parsed) {
    int[] counts = new int[64];
    for (Parsed row : parsed) {
      counts[Math.min(63, row.numbers().size())]++;
    }
    int best = 0;
    for (int i = 0; i < counts.length; i++) {
      best = counts[i] > counts[best] ? i : best;
    }
    return best;
  }

  /** Names above the columns, where there are any. */
  private record Header(List<String> names) {
    static Header find(List<String> lines, int firstRow, Pattern separator, boolean decimalComma) {
      for (int i = firstRow - 2; i >= 0 && i >= firstRow - 6; i--) {
        String line = lines.get(i).replaceFirst("^\\s*(#|\\*|;|!|//|%)+\\s*", "");
        List<String> names = split(line, separator, decimalComma);
        boolean letters = names.stream().anyMatch(n -> n.matches(".*\\p{L}.*"));
        if (names.size() >= 2 && letters && Columns.role(names.get(0)).equals("frequency")) {
          return new Header(names);
        }
      }
      return new Header(List.of());
    }

    private static List<String> split(String line, Pattern separator, boolean decimalComma) {
      List<String> out = new ArrayList<>();
      boolean spaces = separator.pattern().equals("\\s+");
      Pattern by = spaces ? Pattern.compile("\\t|\\s{2,}|[,;]|(?<=\\))\\s+") : separator;
      for (String field : by.split(line.strip(), -1)) {
        out.add(field.strip().replace("\"", "").toLowerCase(Locale.ROOT));
      }
      if (out.size() < 2 && !decimalComma) {
        out.clear();
        for (String field : Pattern.compile("[\\s,;]+").split(line.strip(), -1)) {
          out.add(field.toLowerCase(Locale.ROOT));
        }
      }
      return out;
    }
  }

  /** Which column is what. */
  private record Columns(
      int frequency,
      int first,
      int second,
      boolean cartesian,
      double frequencyFactor,
      double ohms,
      boolean radians,
      String words) {

    static Columns of(Header header, List<Parsed> parsed, int width, ReadAs as, String name) {
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
      return new Columns(
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
    private static void refuseMisfit(Header header, int width, boolean told, String name) {
      if (!told && header.names().size() >= 2 && width >= 2 * header.names().size()) {
        throw new ProblemException(
            Problem.of(
                name,
                "its header names " + header.names().size() + " columns but rows have " + width,
                "commas cannot separate both columns and decimals: export with semicolons or tabs"));
      }
    }

    /** Ohms in one unit of a column by its header: kΩ, mΩ; decibels are no ohms. */
    private static double ohms(Header header, int column, String name) {
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
     * Two columns are magnitudes; three magnitudes and degrees, unless a magnitude is negative or
     * an angle beyond the right one that no passive thing exceeds.
     */
    private static List<String> guess(List<Parsed> parsed, int width) {
      if (width < 3) {
        return List.of("frequency", "magnitude");
      }
      boolean cartesian =
          parsed.stream()
              .filter(p -> p.numbers().size() > 2)
              .anyMatch(p -> p.numbers().get(1) < 0 || Math.abs(p.numbers().get(2)) > 95);
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

    /**
     * From a fifth of a hertz or less to fifty is no sweep of a loudspeaker: those are kilohertz.
     */
    private static double guessedFactor(List<Parsed> parsed, int f) {
      double low = Double.POSITIVE_INFINITY;
      double high = 0;
      for (Parsed row : parsed) {
        double x = f < row.numbers().size() ? row.numbers().get(f) : Double.NaN;
        low = x > 0 ? Math.min(low, x) : low;
        high = x > 0 ? Math.max(high, x) : high;
      }
      return low < 0.2 && high < 50 && high > 100 * low ? 1000 : 1;
    }

    private static double frequencyFactor(Header header, int f, ReadAs as) {
      Optional<String> unit = as.frequencyUnit();
      if (unit.isPresent()) {
        return unit.get().equals("kHz") ? 1000 : 1;
      }
      return f < header.names().size() && header.names().get(f).contains("khz") ? 1000 : 1;
    }

    private static boolean phaseUnitNamed(Header header, int phase, ReadAs as) {
      String h = phase < header.names().size() ? header.names().get(phase) : "";
      return as.phaseUnit().isPresent() || h.contains("rad") || degrees(h);
    }

    /** "deg", "°", and the German word for degrees, which holds "rad". */
    private static boolean degrees(String header) {
      return header.contains("deg") || header.contains("°") || header.contains("grad");
    }

    private static boolean radians(Header header, int phase, List<Parsed> parsed, ReadAs as) {
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
      for (Parsed row : parsed) {
        if (row.numbers().size() > phase && !row.numbers().get(phase).isNaN()) {
          largest = Math.max(largest, Math.abs(row.numbers().get(phase)));
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
}
