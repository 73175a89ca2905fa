package cutaway.bench.sheet;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.util.List;
import org.yaml.snakeyaml.DumperOptions;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;

/** Changes one value of a sheet's text and leaves every other character as it is. */
public final class SheetEditor {
  private SheetEditor() {}

  /**
   * The text with one value set; keys that are missing are added at the end of their group.
   *
   * @param key dotted: box.port.length
   * @param value plain text, quoted where YAML needs it
   * @throws ProblemException where the result would be no valid sheet
   */
  public static String set(String text, String file, String key, String value) {
    SheetTree.parse(text, file);
    Node root = SheetTree.compose(text);
    String changed = change(text, file, root, List.of(key.split("\\.", -1)), quoted(value));
    SheetReader.read(changed, file);
    return changed;
  }

  private static String change(
      String text,
      String file,
      @org.jspecify.annotations.Nullable Node node,
      List<String> path,
      String value) {
    if (!(node instanceof MappingNode mapping)) {
      throw new ProblemException(
          Problem.of(file, "'" + path.get(0) + "' stands in no group", "name a key of a group"));
    }
    for (NodeTuple tuple : mapping.getValue()) {
      if (tuple.getKeyNode() instanceof ScalarNode name && name.getValue().equals(path.get(0))) {
        Node at = tuple.getValueNode();
        if (path.size() > 1 && at instanceof MappingNode) {
          return change(text, file, at, path.subList(1, path.size()), value);
        }
        if (at instanceof ScalarNode scalar && isBlock(scalar)) {
          throw new ProblemException(
              Problem.of(
                  file,
                  "'" + path.get(0) + "' is a text of several lines",
                  "change it in an editor"));
        }
        if (path.size() > 1 || !(at instanceof ScalarNode)) {
          throw new ProblemException(
              Problem.of(file, "'" + path.get(0) + "' is no single value", "name one value"));
        }
        int from = index(text, at.getStartMark().getIndex());
        int to = index(text, at.getEndMark().getIndex());
        String space = from > 0 && text.charAt(from - 1) == ':' ? " " : "";
        return text.substring(0, from) + space + value + text.substring(to);
      }
    }
    return added(text, mapping, path, value);
  }

  private static boolean isBlock(ScalarNode scalar) {
    return scalar.getScalarStyle() == DumperOptions.ScalarStyle.LITERAL
        || scalar.getScalarStyle() == DumperOptions.ScalarStyle.FOLDED;
  }

  /** Marks count code points, text counts chars. */
  private static int index(String text, int codePoints) {
    return text.offsetByCodePoints(0, codePoints);
  }

  private static String added(String text, MappingNode mapping, List<String> path, String value) {
    StringBuilder flow = new StringBuilder(value);
    for (int i = path.size() - 1; i > 0; i--) {
      flow.insert(0, "{ " + path.get(i) + ": ").append(" }");
    }
    String entry = path.get(0) + ": " + flow;
    int end = index(text, mapping.getEndMark().getIndex());
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
    int after = index(text, last.getValueNode().getEndMark().getIndex());
    int column = mapping.getStartMark().getColumn();
    int line = text.indexOf('\n', Math.max(0, after - 1));
    boolean atLineStart = after > 0 && text.charAt(after - 1) == '\n';
    int insert = atLineStart ? after : line < 0 ? text.length() : line + 1;
    String newline = insert > 0 && text.charAt(insert - 1) != '\n' ? "\n" : "";
    return text.substring(0, insert)
        + newline
        + " ".repeat(column)
        + entry
        + "\n"
        + text.substring(insert);
  }

  private static String quoted(String value) {
    boolean plain =
        value.matches("[\\p{L}\\p{N}][^:#,\\[\\]{}\"'\\n]*") && value.strip().equals(value);
    return plain ? value : "\"" + value.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
  }
}
