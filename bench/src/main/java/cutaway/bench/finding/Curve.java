package cutaway.bench.finding;

import java.util.List;
import java.util.Optional;

/**
 * Values against a common axis, with uncertainty where it is known.
 *
 * @param id stable, dotted
 * @param name in plain words
 * @param axisUnit unit of the axis: Hz or s
 * @param unit unit of the values
 * @param axis positions on the axis
 * @param values one for each position
 * @param sd standard uncertainty of each value, absent where it is not known
 */
public record Curve(
    String id,
    String name,
    String axisUnit,
    String unit,
    List<Double> axis,
    List<Double> values,
    Optional<List<Double>> sd) {
  /** Copies its lists. */
  public Curve {
    axis = List.copyOf(axis);
    values = List.copyOf(values);
    sd = sd.map(List::copyOf);
  }

  /** A curve from arrays. */
  public static Curve of(
      String id, String name, String axisUnit, String unit, double[] axis, double[] values) {
    return new Curve(id, name, axisUnit, unit, list(axis), list(values), Optional.empty());
  }

  /** A curve with uncertainty from arrays: values, then standard uncertainties. */
  public static Curve banded(
      String id, String name, String axisUnit, String unit, double[] axis, double[][] band) {
    return new Curve(
        id, name, axisUnit, unit, list(axis), list(band[0]), Optional.of(list(band[1])));
  }

  private static List<Double> list(double[] values) {
    return java.util.Arrays.stream(values).boxed().toList();
  }
}
