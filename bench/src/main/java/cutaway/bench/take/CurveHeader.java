package cutaway.bench.take;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** Names above the columns, where there are any. */
record CurveHeader(List<String> names) {
  static CurveHeader find(
      List<String> lines, int firstRow, Pattern separator, boolean decimalComma) {
    for (int i = firstRow - 2; i >= 0 && i >= firstRow - 6; i--) {
      String line = lines.get(i).replaceFirst("^\\s*(#|\\*|;|!|//|%)+\\s*", "");
      List<String> names = split(line, separator, decimalComma);
      boolean letters = names.stream().anyMatch(n -> n.matches(".*\\p{L}.*"));
      if (names.size() >= 2 && letters && CurveColumns.role(names.get(0)).equals("frequency")) {
        return new CurveHeader(names);
      }
    }
    return new CurveHeader(List.of());
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
