package cutaway.bench.sheet;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.StringReader;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.composer.Composer;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;
import org.yaml.snakeyaml.nodes.Tag;
import org.yaml.snakeyaml.parser.ParserImpl;
import org.yaml.snakeyaml.reader.StreamReader;
import org.yaml.snakeyaml.resolver.Resolver;

/** A sheet's YAML as plain data, with the place of every value. */
final class SheetTree {
  private static final int LARGEST = 2 << 20;
  private static final int DEEPEST = 24;

  private final String file;
  private final JsonNode root;
  private final Map<String, Mark> marks = new HashMap<>();
  private final Map<String, Mark> keyMarks = new HashMap<>();

  private SheetTree(String file, Node node) {
    this.file = file;
    this.root = convert(node, "", 0);
  }

  /** Parses text; throws a {@link ProblemException} with line and column where it is no sheet. */
  static SheetTree parse(String text, String file) {
    if (text.length() > LARGEST) {
      throw new ProblemException(
          Problem.of(
              file, "is " + (text.length() >> 20) + " MiB large", "a sheet is a page of text"));
    }
    try {
      Node node = compose(text);
      if (node == null) {
        throw new ProblemException(
            Problem.of(file, "is empty", "'cutaway new' writes a sheet to begin with"));
      }
      return new SheetTree(file, node);
    } catch (MarkedYAMLException e) {
      Mark mark = e.getProblemMark();
      throw new ProblemException(
          new Problem(
              file,
              mark == null ? 0 : mark.getLine() + 1,
              mark == null ? 0 : mark.getColumn() + 1,
              plain(e.getProblem()),
              remedy(e.getProblem())));
    } catch (YAMLException e) {
      throw new ProblemException(
          Problem.of(file, plain(e.getMessage()), "write plain YAML with few levels"));
    } catch (StackOverflowError e) {
      throw new ProblemException(
          Problem.of(file, "is nested too deeply", "a sheet needs at most five levels"));
    }
  }

  static @Nullable Node compose(String text) {
    LoaderOptions options = new LoaderOptions();
    options.setNestingDepthLimit(DEEPEST);
    options.setCodePointLimit(LARGEST);
    options.setMaxAliasesForCollections(0);
    ParserImpl parser = new ParserImpl(new StreamReader(new StringReader(text)), options);
    return new Composer(parser, new Resolver(), options).getSingleNode();
  }

  private static String plain(@Nullable String problem) {
    return problem == null ? "cannot be read as YAML" : problem.strip().replace('\n', ' ');
  }

  private static String remedy(@Nullable String problem) {
    return problem != null && problem.contains("TAB")
        ? "indent with spaces, YAML takes no tabs"
        : "check indentation, colons and quotes there";
  }

  private JsonNode convert(Node node, String path, int depth) {
    marks.put(path, node.getStartMark());
    if (node.getAnchor() != null || depth > DEEPEST) {
      throw at(
          node.getStartMark(),
          depth > DEEPEST ? "is nested too deeply" : "uses an anchor",
          "write the values out");
    }
    if (node instanceof MappingNode mapping) {
      return object(mapping, path, depth);
    }
    if (node instanceof SequenceNode sequence) {
      ArrayNode array = JsonNodeFactory.instance.arrayNode();
      for (int i = 0; i < sequence.getValue().size(); i++) {
        array.add(convert(sequence.getValue().get(i), path + "/" + i, depth + 1));
      }
      return array;
    }
    ScalarNode text = (ScalarNode) node;
    if (text.getValue().chars().anyMatch(c -> (c < 32 && c != '\n' && c != '\t') || c == 127)) {
      throw at(node.getStartMark(), "holds a control character", "write plain text");
    }
    return scalar(text);
  }

  private ObjectNode object(MappingNode mapping, String path, int depth) {
    ObjectNode object = JsonNodeFactory.instance.objectNode();
    Set<String> seen = new HashSet<>();
    for (NodeTuple tuple : mapping.getValue()) {
      if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
        throw at(tuple.getKeyNode().getStartMark(), "has a key that is no word", "use a word");
      }
      String name = key.getValue();
      if (!seen.add(name)) {
        throw at(key.getStartMark(), "has the key '" + name + "' twice", "keep one of them");
      }
      String child = path + "/" + name;
      keyMarks.put(child, key.getStartMark());
      object.set(name, convert(tuple.getValueNode(), child, depth + 1));
    }
    return object;
  }

  private static JsonNode scalar(ScalarNode node) {
    JsonNodeFactory f = JsonNodeFactory.instance;
    String v = node.getValue();
    if (node.getTag().equals(Tag.NULL)) {
      return f.nullNode();
    }
    if (node.getTag().equals(Tag.BOOL)) {
      return f.booleanNode(
          List.of("true", "yes", "on").contains(v.toLowerCase(java.util.Locale.ROOT)));
    }
    try {
      if (node.getTag().equals(Tag.INT)) {
        return f.numberNode(Long.parseLong(v.replace("_", "")));
      }
      if (node.getTag().equals(Tag.FLOAT)) {
        return f.numberNode(Double.parseDouble(v.replace("_", "")));
      }
    } catch (NumberFormatException e) {
      return f.textNode(v);
    }
    return f.textNode(v);
  }

  private ProblemException at(Mark mark, String what, String remedy) {
    return new ProblemException(
        new Problem(file, mark.getLine() + 1, mark.getColumn() + 1, what, remedy));
  }

  JsonNode root() {
    return root;
  }

  String file() {
    return file;
  }

  /** What people call the value at a JSON pointer: takes.free-air.file, claims.2.value. */
  String name(String pointer) {
    StringBuilder out = new StringBuilder();
    JsonNode at = root;
    for (String step : pointer.substring(1).split("/", -1)) {
      String name = step;
      if (at.isArray()) {
        int i = Integer.parseInt(step);
        name = at.path(i).path("id").asText(Integer.toString(i + 1));
      }
      out.append(out.isEmpty() ? "" : ".").append(name);
      at = at.isArray() ? at.path(Integer.parseInt(step)) : at.path(step);
    }
    return out.toString();
  }

  /** A problem at the value with this JSON pointer, or at its key. */
  Problem problem(String pointer, boolean atKey, String what, String remedy) {
    Mark mark = atKey ? keyMarks.get(pointer) : marks.get(pointer);
    return mark == null
        ? Problem.of(file, what, remedy)
        : new Problem(file, mark.getLine() + 1, mark.getColumn() + 1, what, remedy);
  }
}
