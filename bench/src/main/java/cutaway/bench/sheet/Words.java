package cutaway.bench.sheet;

import java.util.Locale;

/** The sheet's words for the values of an enum: lower case, spaces for underscores. */
public final class Words {
  private Words() {}

  /** The word for a value. */
  public static String of(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** The value a word stands for, or another where it stands for none (which the schema tells). */
  static <E extends Enum<E>> E read(String word, E otherwise) {
    for (E value : otherwise.getDeclaringClass().getEnumConstants()) {
      if (of(value).equals(word)) {
        return value;
      }
    }
    return otherwise;
  }
}
