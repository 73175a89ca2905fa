package cutaway.acoustics;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads a table of published values from the test resources. */
public final class Published {
  private static final Pattern FIELD = Pattern.compile("\"([^\"]*)\"|([^,]*)");

  private Published() {}

  /** Rows as maps from column name to text. */
  public static List<Map<String, String>> rows(String file) {
    List<String> lines = lines(file);
    List<String> names = fields(lines.get(0));
    List<Map<String, String>> rows = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      List<String> values = fields(line);
      Map<String, String> row = new LinkedHashMap<>();
      for (int i = 0; i < names.size(); i++) {
        row.put(names.get(i), i < values.size() ? values.get(i) : "");
      }
      rows.add(row);
    }
    return rows;
  }

  /** A value by id; refuses rows quoted from memory, which decide nothing alone. */
  public static double value(String file, String id) {
    for (Map<String, String> row : rows(file)) {
      if (id.equals(row.get("id"))) {
        if ("memory".equals(row.get("status"))) {
          throw new IllegalArgumentException(id + " is from memory and decides no test");
        }
        return Double.parseDouble(Objects.requireNonNull(row.get("value")));
      }
    }
    throw new IllegalArgumentException("no row " + id + " in " + file);
  }

  /** Lines of a file, without empty ones. */
  public static List<String> lines(String file) {
    try (InputStream in = Published.class.getResourceAsStream("/published/" + file)) {
      String text =
          new String(Objects.requireNonNull(in, file).readAllBytes(), StandardCharsets.UTF_8);
      return text.lines().filter(l -> !l.isBlank()).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> fields(String line) {
    List<String> out = new ArrayList<>();
    Matcher m = FIELD.matcher(line);
    int at = 0;
    while (at <= line.length() && m.find(at)) {
      out.add(m.group(1) != null ? m.group(1) : m.group(2));
      at = m.end() + 1;
    }
    return out;
  }
}
