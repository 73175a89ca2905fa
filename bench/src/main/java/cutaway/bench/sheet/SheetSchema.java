package cutaway.bench.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import cutaway.bench.measure.Kind;
import cutaway.bench.problem.Problem;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/** Checks a sheet's shape against the JSON Schema that ships with Cutaway. */
final class SheetSchema {
  /** Where the schema lies on the class path. */
  static final String RESOURCE = "/cutaway/bench/sheet/dossier.schema.json";

  private static final JsonNode SCHEMA = load();

  private SheetSchema() {}

  private static JsonNode load() {
    try (InputStream in = SheetSchema.class.getResourceAsStream(RESOURCE)) {
      return new ObjectMapper().readTree(Objects.requireNonNull(in));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** One of several ways to write a value. */
  private static final String CHOICE = "oneOf";

  /** Everything the schema objects to, in the order of the sheet. */
  static List<Problem> check(SheetTree tree) {
    JsonSchema schema =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(SCHEMA);
    Set<ValidationMessage> messages = schema.validate(tree.root());
    Set<String> choices =
        messages.stream()
            .filter(m -> m.getType().equals(CHOICE))
            .map(SheetSchema::pointer)
            .collect(Collectors.toSet());
    Set<Problem> found = new LinkedHashSet<>();
    for (ValidationMessage message : messages) {
      String at = pointer(message);
      boolean choice = message.getType().equals(CHOICE);
      // of a choice, what is wrong further in says more; each of its ways by itself says nothing
      boolean told = messages.stream().anyMatch(m -> pointer(m).startsWith(at + "/"));
      if (choice ? !told : !choices.contains(at)) {
        found.add(problem(tree, message));
      }
    }
    List<Problem> out = new ArrayList<>(found);
    out.sort(java.util.Comparator.comparingInt(Problem::line).thenComparingInt(Problem::column));
    return out;
  }

  private static Problem problem(SheetTree tree, ValidationMessage message) {
    String pointer = pointer(message);
    JsonNode schema = schemaAt(pointer);
    String place = pointer.isEmpty() ? "the sheet" : "'" + tree.name(pointer) + "'";
    return switch (message.getType()) {
      case "additionalProperties" -> unknownKey(tree, pointer, schema, message.getProperty());
      case "required" ->
          tree.problem(
              pointer,
              false,
              place + " lacks '" + message.getProperty() + "'",
              hint(schema.path("properties").path(message.getProperty())));
      case "type" -> wrongType(tree, pointer, place, schema);
      case CHOICE -> wrongType(tree, pointer, place, schema.path(CHOICE).path(0));
      case "enum" ->
          tree.problem(
              pointer,
              false,
              place + " is '" + tree.root().at(pointer).asText() + "'",
              "write one of " + listed(schema.path("enum")));
      case "const" ->
          tree.problem(
              pointer, false, place + " is not " + schema.path("const"), "write cutaway: 1");
      case "pattern" ->
          tree.problem(
              pointer,
              false,
              place + " is '" + tree.root().at(pointer).asText() + "'",
              schema.path("description").asText("see docs/sheet.md"));
      default -> tree.problem(pointer, false, place + ": " + plain(message), "see docs/sheet.md");
    };
  }

  private static String plain(ValidationMessage message) {
    String text = message.getMessage();
    int colon = text.indexOf(": ");
    return colon < 0 ? text : text.substring(colon + 2);
  }

  private static Problem unknownKey(SheetTree tree, String pointer, JsonNode schema, String key) {
    List<String> known = new ArrayList<>();
    schema.path("properties").fieldNames().forEachRemaining(known::add);
    String remedy =
        Nearness.nearest(key, known)
            .map(near -> "did you mean '" + near + "'?")
            .orElse("known here: " + String.join(", ", known));
    return tree.problem(pointer + "/" + key, true, "the key '" + key + "' is not known", remedy);
  }

  private static Problem wrongType(SheetTree tree, String pointer, String place, JsonNode schema) {
    JsonNode value = tree.root().at(pointer);
    if (schema.has("x-quantity")) {
      Kind kind = Kind.valueOf(schema.path("x-quantity").asText());
      String what =
          value.isNumber() ? "is the plain number " + value.asText() : "is not " + kind.words();
      return tree.problem(
          pointer,
          false,
          place + " " + what,
          "write "
              + kind.words()
              + " like '"
              + schema.path("examples").path(0).asText(kind.example())
              + "'");
    }
    if (value.isNumber() && schema.path("type").asText().equals("string")) {
      return tree.problem(
          pointer, false, place + " is the plain number " + value.asText(), "write it in quotes");
    }
    return tree.problem(
        pointer,
        false,
        place + " should be " + typeWords(schema.path("type").asText()),
        schema.path("description").asText("see docs/sheet.md"));
  }

  private static String typeWords(String type) {
    return switch (type) {
      case "object" -> "a group of keys";
      case "array" -> "a list";
      case "integer" -> "a whole number";
      case "number" -> "a number";
      default -> "text";
    };
  }

  private static String hint(JsonNode schema) {
    String example = schema.path("examples").path(0).asText("");
    String description = schema.path("description").asText("");
    return example.isEmpty() ? description : "add it, like '" + example + "'";
  }

  private static String listed(JsonNode values) {
    List<String> out = new ArrayList<>();
    values.forEach(v -> out.add(v.asText()));
    return String.join(", ", out);
  }

  private static String pointer(ValidationMessage message) {
    StringBuilder out = new StringBuilder();
    var path = message.getInstanceLocation();
    for (int i = 0; i < path.getNameCount(); i++) {
      out.append('/').append(path.getElement(i));
    }
    return out.toString();
  }

  private static JsonNode within(JsonNode schema, String step) {
    JsonNode next = schema.path("properties").path(step);
    if (next.isMissingNode()) {
      next = schema.path("items");
    }
    for (JsonNode way : schema.path(CHOICE)) {
      next = next.isMissingNode() ? within(way, step) : next;
    }
    return next;
  }

  /** The part of the schema that speaks of a value. */
  static JsonNode schemaAt(String pointer) {
    JsonNode at = SCHEMA;
    if (!pointer.isEmpty()) {
      for (String step : pointer.substring(1).split("/", -1)) {
        at = within(at, step);
      }
    }
    return at;
  }
}
