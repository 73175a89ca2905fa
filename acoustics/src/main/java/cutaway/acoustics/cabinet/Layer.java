package cutaway.acoustics.cabinet;

import cutaway.acoustics.cabinet.Enclosure.Facet;
import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleFunction;
import java.util.stream.IntStream;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * Lining along the walls of a room of any shape, as points to integrate over.
 *
 * @param points inside the lining
 * @param volumes what each stands for, m³
 */
record Layer(List<Point> points, List<Double> volumes) {
  /**
   * Gauss points along a stretch over its half-phase: e^{2ikx}, the quickest product of two waves,
   * takes kl/2 of them and a few more, and what fades in the lining two of those.
   */
  private static final int MORE = 4;

  /** Steps in which other linings are looked for along a wall, and halvings of the one found. */
  private static final int STEPS = 50;

  private static final int HALVINGS = 25;

  /** Looks along each side of what a point stands for, to see where another lining has it. */
  private static final int LOOKS = 6;

  /** This share of a stretch lies between its end and what is just inside. */
  private static final double INSIDE = 1e-4;

  /** m. */
  private static final double NEAR_EDGE = 1e-9;

  /**
   * Samples it.
   *
   * @param room the room
   * @param thickness on each wall, m, 0 for none; where two meet it counts once
   * @param wavenumber of the quickest wave whose products are integrated, rad/m
   */
  static Layer of(Enclosure room, double[] thickness, double wavenumber) {
    Layer out = new Layer(new ArrayList<>(), new ArrayList<>());
    List<Face> faces =
        IntStream.range(0, thickness.length).mapToObj(w -> Face.of(room, w)).toList();
    for (int wall = 0; wall < thickness.length; wall++) {
      if (thickness[wall] > 0) {
        for (Outline.Quad quad : faces.get(wall).outline().graded()) {
          out.fill(new Slab(faces, thickness, wall, quad), wavenumber);
        }
      }
    }
    return out;
  }

  private void fill(Slab slab, double wavenumber) {
    double[] half = new double[2];
    for (int axis = 0; axis < 2; axis++) {
      half[axis] =
          wavenumber * Math.max(slab.quad().length(axis), slab.quad().length(axis + 2)) / 2;
    }
    List<Stretch> across = Stretch.between(slab.breaks(xi -> slab.place(xi, 0, 0.5)), half[0]);
    List<Stretch> along = Stretch.between(slab.breaks(eta -> slab.place(0, eta, 0.5)), half[1]);
    double through = wavenumber * slab.thickness()[slab.wall()] / 2;
    List<Stretch> deep = Stretch.of(0, 1, points(through));
    for (Stretch eta : along) {
      for (Stretch xi : across) {
        for (Stretch depth : deep) {
          add(slab, xi, eta, depth);
        }
      }
    }
  }

  private static int points(double halfPhase) {
    return (int) Math.ceil(halfPhase) + MORE;
  }

  /** Adds a point for a block of a slab, or for what other linings leave of it. */
  private void add(Slab slab, Stretch xi, Stretch eta, Stretch depth) {
    double volume = slab.volume(xi, eta, depth);
    if (slab.isWhole(xi, eta, depth)) {
      points.add(slab.place(xi.middle(), eta.middle(), depth.middle()));
      volumes.add(volume);
      return;
    }
    Point sum = new Point(0, 0, 0);
    int left = 0;
    for (int look = 0; look < LOOKS * LOOKS * LOOKS; look++) {
      Point p =
          slab.place(
              xi.look(look % LOOKS),
              eta.look(look / LOOKS % LOOKS),
              depth.look(look / LOOKS / LOOKS));
      if (!slab.isTaken(p)) {
        sum = sum.plus(p);
        left++;
      }
    }
    if (left > 0) {
      points.add(sum.times(1.0 / left));
      volumes.add(volume * left / (LOOKS * LOOKS * LOOKS));
    }
  }

  /** What a Gauss point stands for: as long as its weight, next to its neighbours'. */
  private record Stretch(double low, double middle, double high) {
    static List<Stretch> of(double from, double to, int points) {
      GaussIntegrator gauss = new GaussIntegratorFactory().legendre(points, from, to);
      List<Stretch> out = new ArrayList<>();
      double low = from;
      for (int i = 0; i < points; i++) {
        double high = low + gauss.getWeight(i);
        out.add(new Stretch(low, gauss.getPoint(i), high));
        low = high;
      }
      return out;
    }

    /** From −1 to 1 with breaks. */
    static List<Stretch> between(List<Double> breaks, double halfPhase) {
      List<Stretch> out = new ArrayList<>();
      double from = -1;
      for (double to : breaks) {
        out.addAll(of(from, to, points((to - from) / 2 * halfPhase)));
        from = to;
      }
      return out;
    }

    double length() {
      return high - low;
    }

    /** Just inside one of its ends. */
    double near(boolean first) {
      return middle + (1 - INSIDE) * ((first ? low : high) - middle);
    }

    double look(int number) {
      return low + (number + 0.5) / LOOKS * length();
    }
  }

  /** The lining of a wall as far as one quadrilateral of it goes. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Slab(List<Face> faces, double[] thickness, int wall, Outline.Quad quad) {
    /** At a place of the quadrilateral and a share of the thickness behind the face. */
    Point place(double xi, double eta, double depth) {
      Plane plane = faces.get(wall).plane();
      return plane.space(quad.at(xi, eta)).minus(plane.normal().times(thickness[wall] * depth));
    }

    double volume(Stretch xi, Stretch eta, Stretch depth) {
      double[] s = quad.slopes(xi.middle(), eta.middle());
      return (s[0] * s[3] - s[1] * s[2])
          * xi.length()
          * eta.length()
          * depth.length()
          * thickness[wall];
    }

    /** Where along a line of the slab another lining begins or ends, and the line's end. */
    List<Double> breaks(DoubleFunction<Point> line) {
      List<Double> out = new ArrayList<>();
      for (int step = 0; step < STEPS; step++) {
        double low = Math.max(NEAR_EDGE - 1, 2.0 * step / STEPS - 1);
        double high = Math.min(1 - NEAR_EDGE, 2.0 * (step + 1) / STEPS - 1);
        boolean before = isTaken(line.apply(low));
        if (isTaken(line.apply(high)) != before) {
          for (int halving = 0; halving < HALVINGS; halving++) {
            double middle = (low + high) / 2;
            boolean same = isTaken(line.apply(middle)) == before;
            low = same ? middle : low;
            high = same ? high : middle;
          }
          out.add(high);
        }
      }
      out.add(1.0);
      return out;
    }

    /** Whether no other lining has a corner of a block. */
    boolean isWhole(Stretch xi, Stretch eta, Stretch depth) {
      for (int corner = 0; corner < 8; corner++) {
        double a = xi.near(corner % 2 == 0);
        double b = eta.near(corner / 2 % 2 == 0);
        if (isTaken(place(a, b, depth.near(corner < 4)))) {
          return false;
        }
      }
      return true;
    }

    /** Whether a point lies in the lining of an earlier wall. */
    boolean isTaken(Point p) {
      for (int other = 0; other < wall; other++) {
        if (thickness[other] > 0 && faces.get(other).isWithin(thickness[other], p)) {
          return true;
        }
      }
      return false;
    }
  }

  /** A wall's inner face. */
  record Face(Plane plane, Outline outline) {
    static Face of(Enclosure room, int wall) {
      Facet facet = room.walls().get(wall);
      Plane plane = room.plane(facet);
      return new Face(
          plane,
          new Outline(
              facet.corners().stream().map(i -> plane.local(room.corners().get(i))).toList()));
    }

    /** Whether a point lies less deep behind it, m. */
    boolean isWithin(double depth, Point p) {
      // most often told without a look at the outline
      return -plane.local(p).z() < depth && depth(p) < depth;
    }

    /** How deep behind it a point lies, m; endless where it lies behind none of it. */
    double depth(Point p) {
      Point local = plane.local(p);
      boolean behind =
          local.z() <= 0 && outline.covers(new Point(local.x(), local.y(), 0), NEAR_EDGE);
      return behind ? -local.z() : Double.POSITIVE_INFINITY;
    }
  }
}
