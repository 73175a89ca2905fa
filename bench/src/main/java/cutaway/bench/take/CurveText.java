package cutaway.bench.take;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
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
    CurveHeader header =
        CurveHeader.find(lines, parsed.get(0).line(), best.separator, best.decimalComma);
    CurveColumns columns =
        CurveColumns.of(header, parsed.stream().map(Parsed::numbers).toList(), width, as, name);
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
}
