package cutaway.bench.dossier;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import java.util.Optional;

/** A solve as JSON, documented in {@code docs/findings.md}. */
public final class SolvedJson {
  private static final ObjectMapper MAPPER =
      JsonMapper.builder()
          .addModule(new Jdk8Module())
          .propertyNamingStrategy(PropertyNamingStrategies.SNAKE_CASE)
          .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
          .build();

  private SolvedJson() {}

  /** Writes. */
  public static String write(Solved solved) {
    try {
      return MAPPER.writerWithDefaultPrettyPrinter().writeValueAsString(solved) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("findings are plain values and can be written", e);
    }
  }

  /** Reads what {@link #compact} wrote of a value; absent where it is anything else. */
  static <T> Optional<T> read(String json, Class<T> type) {
    try {
      return Optional.ofNullable(MAPPER.readValue(json, type));
    } catch (JsonProcessingException | IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /** Any plain value, compact. */
  public static String compact(Object value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a plain value can be written", e);
    }
  }
}
