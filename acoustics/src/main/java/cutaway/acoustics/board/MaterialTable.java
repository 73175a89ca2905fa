package cutaway.acoustics.board;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;

/** The materials of materials.csv. */
public final class MaterialTable {
  private static final List<Material> ALL = read();

  private MaterialTable() {}

  /** All of them, in the table's order. */
  public static List<Material> all() {
    return ALL;
  }

  /** Those that boxes are usually made of. */
  public static List<Material> usual() {
    return ALL.stream().filter(Material::usual).toList();
  }

  private static List<Material> read() {
    try (InputStream in =
            Objects.requireNonNull(MaterialTable.class.getResourceAsStream("materials.csv"));
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return lines
          .lines()
          .filter(l -> !l.startsWith("#") && !l.startsWith("name"))
          .map(MaterialTable::row)
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Material row(String line) {
    String[] c = line.split(",", 12);
    return new Material(
        c[0],
        new Range(number(c[1]), number(c[2])),
        new Range(1e9 * number(c[3]), 1e9 * number(c[4])),
        number(c[5]),
        number(c[6]),
        new Range(number(c[7]), number(c[8])),
        c[9].equals("yes"),
        c[11]);
  }

  private static double number(String text) {
    return Double.parseDouble(text);
  }
}
