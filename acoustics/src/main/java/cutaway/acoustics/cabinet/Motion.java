package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/**
 * How a point of a wall moves (3) and turns (3), each as a sum over the unknowns.
 *
 * @param parts what one of each unknown does: three of displacement, three of the turn's vector
 */
record Motion(Map<Integer, double[]> parts) {
  /** A point that stands still. */
  static Motion none() {
    return new Motion(Map.of());
  }

  /**
   * A joint with unknowns of its own: three of displacement and turns about some axes.
   *
   * @param axes unit vectors at right angles to each other
   */
  static Motion free(int first, List<Point> axes) {
    Map<Integer, double[]> out = new LinkedHashMap<>();
    for (int i = 0; i < 3; i++) {
      double[] part = new double[6];
      part[i] = 1;
      out.put(first + i, part);
    }
    for (int i = 0; i < axes.size(); i++) {
      Point axis = axes.get(i);
      out.put(first + 3 + i, new double[] {0, 0, 0, axis.x(), axis.y(), axis.z()});
    }
    return new Motion(out);
  }

  /** A sum of motions. */
  static Motion sum(List<Motion> motions, double[] weights) {
    Map<Integer, double[]> out = new LinkedHashMap<>();
    for (int i = 0; i < weights.length; i++) {
      if (Math.abs(weights[i]) < 1e-13) {
        continue;
      }
      for (Map.Entry<Integer, double[]> e : motions.get(i).parts().entrySet()) {
        double[] part = out.computeIfAbsent(e.getKey(), k -> new double[6]);
        for (int c = 0; c < 6; c++) {
          part[c] += weights[i] * e.getValue()[c];
        }
      }
    }
    return new Motion(out);
  }

  /** That of a point fixed stiffly to this one, by a vector off it: u + θ × r. */
  Motion at(Point r) {
    Map<Integer, double[]> out = new LinkedHashMap<>();
    parts.forEach(
        (unknown, p) -> {
          Point turn = new Point(p[3], p[4], p[5]).cross(r);
          out.put(
              unknown,
              new double[] {p[0] + turn.x(), p[1] + turn.y(), p[2] + turn.z(), p[3], p[4], p[5]});
        });
    return new Motion(out);
  }

  /**
   * That of a place on a line that does not shear: it turns about the line as it is, across it as
   * the line itself turns.
   *
   * @param line unit vector along it
   * @param slope how its displacement grows along it, per metre
   */
  Motion onLine(Point line, Motion slope) {
    Map<Integer, double[]> out = new LinkedHashMap<>();
    parts.forEach(
        (unknown, p) -> {
          Point turn = line.times(new Point(p[3], p[4], p[5]).dot(line));
          out.put(unknown, new double[] {p[0], p[1], p[2], turn.x(), turn.y(), turn.z()});
        });
    slope.parts.forEach(
        (unknown, p) -> {
          Point turn = line.cross(new Point(p[0], p[1], p[2]));
          double[] part = out.computeIfAbsent(unknown, k -> new double[6]);
          part[3] += turn.x();
          part[4] += turn.y();
          part[5] += turn.z();
        });
    return new Motion(out);
  }

  /**
   * What an unknown of a node would be that moved so.
   *
   * @param part what one of the unknown does, a unit displacement or a unit turn
   */
  Row as(double[] part) {
    return row(
        p -> {
          double sum = 0;
          for (int c = 0; c < 6; c++) {
            sum += p[c] * part[c];
          }
          return sum;
        });
  }

  /** Displacement along a direction. */
  Row along(Point direction) {
    return row(0, direction);
  }

  /** Turn about a direction. */
  Row about(Point direction) {
    return row(3, direction);
  }

  private Row row(int first, Point d) {
    return row(p -> p[first] * d.x() + p[first + 1] * d.y() + p[first + 2] * d.z());
  }

  private Row row(ToDoubleFunction<double[]> of) {
    List<Integer> unknowns = new ArrayList<>();
    List<Double> factors = new ArrayList<>();
    parts.forEach(
        (unknown, p) -> {
          double factor = of.applyAsDouble(p);
          if (Math.abs(factor) > 1e-13) {
            unknowns.add(unknown);
            factors.add(factor);
          }
        });
    return new Row(
        unknowns.stream().mapToInt(Integer::intValue).toArray(),
        factors.stream().mapToDouble(Double::doubleValue).toArray());
  }

  /**
   * One scalar as a sum over unknowns.
   *
   * @param unknowns their numbers
   * @param factors what one of each adds
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Row(int[] unknowns, double[] factors) {
    /** The same of unknowns with other numbers. */
    Row renumbered(int[] numbers) {
      return new Row(Arrays.stream(unknowns).map(u -> numbers[u]).toArray(), factors);
    }

    /** Whether it is one unknown itself. */
    boolean single() {
      return factors.length == 1 && factors[0] == 1;
    }

    double of(double[] field) {
      double sum = 0;
      for (int i = 0; i < unknowns.length; i++) {
        sum += factors[i] * field[unknowns[i]];
      }
      return sum;
    }

    @Override
    public String toString() {
      return Arrays.toString(unknowns) + Arrays.toString(factors);
    }
  }
}
