package cutaway.acoustics.cabinet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.UnaryOperator;

/**
 * Quadrilaterals made of triangles that meet edge to edge, so that they do too.
 *
 * @param quads corners of each anticlockwise
 * @param halvings how often each side of a triangle that is still a side was cut in half
 */
record FourSided(List<Outline.Quad> quads, int halvings) {
  /** Copies its list. */
  FourSided {
    quads = List.copyOf(quads);
  }

  /** Joins neighbours, the best pairs first; where a triangle is left over, all are parted. */
  static FourSided of(List<List<Point>> triangles) {
    return of(triangles, p -> p);
  }

  /**
   * The same of triangles given by places near their own, by which pairs are chosen.
   *
   * @param own where a corner really lies
   */
  static FourSided of(List<List<Point>> triangles, UnaryOperator<Point> own) {
    List<List<Point>> left = new ArrayList<>(triangles);
    List<Outline.Quad> out = new ArrayList<>();
    for (Pair pair : pairs(left)) {
      if (left.contains(pair.first()) && left.contains(pair.second())) {
        left.remove(pair.first());
        left.remove(pair.second());
        out.add(new Outline.Quad(pair.joined().corners().stream().map(own).toList()));
      }
    }
    if (left.isEmpty()) {
      return new FourSided(out, 0);
    }
    List<Outline.Quad> parted = new ArrayList<>();
    out.forEach(q -> parted.addAll(quarters(q)));
    left.forEach(t -> parted.addAll(thirds(t.stream().map(own).toList())));
    return new FourSided(parted, 1);
  }

  /** Each in four. */
  FourSided finer() {
    return new FourSided(quads.stream().flatMap(q -> quarters(q).stream()).toList(), halvings + 1);
  }

  /** The longest side, m. */
  double longest() {
    double out = 0;
    for (Outline.Quad quad : quads) {
      for (int i = 0; i < 4; i++) {
        out = Math.max(out, quad.corners().get(i).minus(quad.corners().get((i + 1) % 4)).length());
      }
    }
    return out;
  }

  private record Pair(List<Point> first, List<Point> second, Outline.Quad joined) {}

  private static List<Pair> pairs(List<List<Point>> triangles) {
    List<Pair> out = new ArrayList<>();
    for (int i = 0; i < triangles.size(); i++) {
      for (int k = i + 1; k < triangles.size(); k++) {
        List<Point> a = triangles.get(i);
        List<Point> b = triangles.get(k);
        List<Point> shared = a.stream().filter(b::contains).toList();
        if (shared.size() == 2) {
          Outline.Quad quad = joined(a, b, shared);
          if (quad.quality() > 0.25) {
            out.add(new Pair(a, b, quad));
          }
        }
      }
    }
    out.sort(Comparator.comparingDouble(p -> -p.joined().quality()));
    return out;
  }

  /** The corner of a that b lacks, then round. */
  private static Outline.Quad joined(List<Point> a, List<Point> b, List<Point> shared) {
    int alone = 0;
    while (shared.contains(a.get(alone))) {
      alone++;
    }
    Point far = b.stream().filter(p -> !shared.contains(p)).findFirst().orElseThrow();
    return new Outline.Quad(
        List.of(a.get(alone), a.get((alone + 1) % 3), far, a.get((alone + 2) % 3)));
  }

  static List<Outline.Quad> quarters(Outline.Quad q) {
    List<Outline.Quad> out = new ArrayList<>();
    List<Point> p = q.corners();
    Point middle = q.at(0, 0);
    for (int i = 0; i < 4; i++) {
      out.add(
          new Outline.Quad(
              List.of(
                  p.get(i),
                  p.get(i).towards(p.get((i + 1) % 4), 0.5),
                  middle,
                  p.get((i + 3) % 4).towards(p.get(i), 0.5))));
    }
    return out;
  }

  private static List<Outline.Quad> thirds(List<Point> t) {
    List<Outline.Quad> out = new ArrayList<>();
    Point middle = t.get(0).plus(t.get(1)).plus(t.get(2)).times(1.0 / 3);
    for (int i = 0; i < 3; i++) {
      out.add(
          new Outline.Quad(
              List.of(
                  t.get(i),
                  t.get(i).towards(t.get((i + 1) % 3), 0.5),
                  middle,
                  t.get((i + 2) % 3).towards(t.get(i), 0.5))));
    }
    return out;
  }
}
