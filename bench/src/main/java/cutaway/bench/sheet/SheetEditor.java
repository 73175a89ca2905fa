package cutaway.bench.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.DumperOptions;
import org.yaml.snakeyaml.nodes.CollectionNode;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeId;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;
import org.yaml.snakeyaml.nodes.Tag;
import org.yaml.snakeyaml.resolver.Resolver;

/** Changes one value of a sheet's text and leaves every other character as it is. */
public final class SheetEditor {
  private final String text;
  private final String file;
  private final String key;
  private final String value;

  private SheetEditor(String text, String file, String key, String value) {
    this.text = text;
    this.file = file;
    this.key = key;
    this.value = value;
  }

  /**
   * The text with one value set; keys that are missing are added at the end of their group.
   *
   * @param key dotted, an entry of a list by its id or its number: box.port.length,
   *     takes.free-air.from, claims.2.value
   * @param value plain text, quoted where YAML needs it; a list or a group as YAML writes it on one
   *     line: [free, flanged]
   * @throws ProblemException where the result would be no valid sheet
   */
  public static String set(String text, String file, String key, String value) {
    SheetTree.parse(text, file);
    List<String> path = List.of(key.split("\\.", -1));
    SheetEditor editor = new SheetEditor(text, file, key, value);
    if (path.stream().anyMatch(String::isBlank)) {
      throw editor.refused("is no key", "name one like box.port.length");
    }
    Node root = Objects.requireNonNull(SheetTree.compose(text), "a sheet that was parsed");
    String changed = editor.change(root, path, "");
    SheetReader.read(changed, file);
    return changed;
  }

  private ProblemException refused(String what, String remedy) {
    return new ProblemException(Problem.of(file, "'" + key + "' " + what, remedy));
  }

  /** Goes one step down the path; the pointer says where it stands. */
  private String change(Node node, List<String> path, String pointer) {
    if (path.isEmpty()) {
      return replaced(node, pointer);
    }
    List<String> rest = path.subList(1, path.size());
    if (node instanceof SequenceNode list) {
      int at = entry(list, path.get(0));
      return change(list.getValue().get(at), rest, pointer + "/" + at);
    }
    if (!(node instanceof MappingNode mapping)) {
      throw refused("goes deeper than the sheet does", "name a key of a group");
    }
    for (NodeTuple tuple : mapping.getValue()) {
      if (tuple.getKeyNode() instanceof ScalarNode name && name.getValue().equals(path.get(0))) {
        return change(tuple.getValueNode(), rest, pointer + "/" + path.get(0));
      }
    }
    return added(mapping, path, pointer + "/" + String.join("/", path));
  }

  /** An entry of a list by its id, or by its number, the first being 1. */
  private int entry(SequenceNode list, String name) {
    for (int i = 0; i < list.getValue().size(); i++) {
      if (name.equals(id(list.getValue().get(i))) || name.equals(Integer.toString(i + 1))) {
        return i;
      }
    }
    throw refused(
        "names no entry: the list has no '" + name + "'", "name an entry by its id or its number");
  }

  private static @Nullable String id(Node entry) {
    if (entry instanceof MappingNode mapping) {
      for (NodeTuple tuple : mapping.getValue()) {
        if (tuple.getKeyNode() instanceof ScalarNode k
            && k.getValue().equals("id")
            && tuple.getValueNode() instanceof ScalarNode v) {
          return v.getValue();
        }
      }
    }
    return null;
  }

  private String replaced(Node node, String pointer) {
    boolean several =
        node instanceof ScalarNode scalar
            ? scalar.getScalarStyle() == DumperOptions.ScalarStyle.LITERAL
                || scalar.getScalarStyle() == DumperOptions.ScalarStyle.FOLDED
            : node instanceof CollectionNode<?> c
                && c.getFlowStyle() != DumperOptions.FlowStyle.FLOW;
    if (several) {
      throw refused("stands on several lines", "change it in an editor");
    }
    if (node instanceof CollectionNode<?> && !isCollection(pointer)) {
      throw refused("is no single value", "name one value of it");
    }
    int from = index(node.getStartMark().getIndex());
    int to = index(node.getEndMark().getIndex());
    String space = from > 0 && text.charAt(from - 1) == ':' ? " " : "";
    return text.substring(0, from) + space + written(pointer) + text.substring(to);
  }

  /** Marks count code points, text counts chars. */
  private int index(int codePoints) {
    return text.offsetByCodePoints(0, codePoints);
  }

  private String added(MappingNode mapping, List<String> path, String pointer) {
    StringBuilder flow = new StringBuilder(written(pointer));
    for (int i = path.size() - 1; i > 0; i--) {
      flow.insert(0, "{ " + path.get(i) + ": ").append(" }");
    }
    String entry = path.get(0) + ": " + flow;
    int end = index(mapping.getEndMark().getIndex());
    if (mapping.getFlowStyle() == DumperOptions.FlowStyle.FLOW) {
      int brace = text.lastIndexOf('}', end - 1);
      int content = brace;
      while (content > 0 && Character.isWhitespace(text.charAt(content - 1))) {
        content--;
      }
      String comma = text.charAt(content - 1) == '{' ? " " : ", ";
      return text.substring(0, content) + comma + entry + text.substring(content);
    }
    NodeTuple last = mapping.getValue().get(mapping.getValue().size() - 1);
    int after = index(last.getValueNode().getEndMark().getIndex());
    int column = mapping.getStartMark().getColumn();
    int line = text.indexOf('\n', Math.max(0, after - 1));
    boolean atLineStart = after > 0 && text.charAt(after - 1) == '\n';
    int insert = atLineStart ? after : line < 0 ? text.length() : line + 1;
    String newline = text.contains("\r\n") ? "\r\n" : "\n";
    String before = insert > 0 && text.charAt(insert - 1) != '\n' ? newline : "";
    return text.substring(0, insert)
        + before
        + " ".repeat(column)
        + entry
        + newline
        + text.substring(insert);
  }

  private static boolean isCollection(String pointer) {
    String type = SheetSchema.schemaAt(pointer).path("type").asText();
    return type.equals("array") || type.equals("object");
  }

  /** The value as YAML takes it at a place: a text that looks like something else in quotes. */
  private String written(String pointer) {
    if (isCollection(pointer)) {
      return value;
    }
    JsonNode type = SheetSchema.schemaAt(pointer).path("type");
    boolean text = type.isMissingNode() || type.asText().equals("string");
    Tag tag = new Resolver().resolve(NodeId.scalar, value, true);
    boolean plain =
        value.matches("[\\p{L}\\p{N}][^:#,\\[\\]{}\"'\\n]*")
            && value.strip().equals(value)
            && !(text && !tag.equals(Tag.STR));
    return plain ? value : "\"" + value.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
  }
}
