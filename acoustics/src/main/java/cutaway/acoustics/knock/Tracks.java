package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Follows poles from order to order and keeps those that come back. */
final class Tracks {
  /** Poles of neighbouring orders that agree this well, in frequency and loss, are one. */
  private static final double SAME_FREQUENCY = 0.006;

  private static final double SAME_LOSS = 0.3;

  /** A loss no smaller than this is compared. */
  private static final double SMALL_LOSS = 0.002;

  /** In so many orders a pole must show, and in such a share of those since its first. */
  private static final int LEAST_ORDERS = 4;

  private static final double LEAST_SHARE = 0.5;

  /** Between the quartiles of a normal distribution, in standard deviations. */
  private static final double QUARTILES = 1.349;

  private Tracks() {}

  /** Decay, 1/s, and angular frequency, rad/s, as one order has them. */
  private record Pole(double decay, double omega) {
    static Pole of(double[] z, double rate) {
      return new Pole(-Math.log(Math.hypot(z[0], z[1])) * rate, Math.atan2(z[1], z[0]) * rate);
    }

    double own() {
      return Math.hypot(decay, omega);
    }

    /** How far another is, 1 being just too far to be the same. */
    double from(Pole other) {
      double loss = decay / own();
      double f = Math.abs(own() - other.own()) / own() / SAME_FREQUENCY;
      double off = Math.abs(loss - other.decay / other.own());
      return Math.max(f, off / Math.max(Math.abs(loss), SMALL_LOSS) / SAME_LOSS);
    }
  }

  /** One pole's values, and in which order it first was. */
  private record Track(int born, List<Pole> poles) {
    Pole last() {
      return poles.get(poles.size() - 1);
    }

    boolean comesBack(int orders) {
      return poles.size() >= LEAST_ORDERS && poles.size() >= LEAST_SHARE * (orders - born);
    }

    /** Medians over the later half of the orders, and the spread by the quartiles. */
    StablePole middle() {
      List<Pole> late = poles.subList(poles.size() / 2, poles.size());
      double[] decays = late.stream().mapToDouble(Pole::decay).sorted().toArray();
      double[] omegas = late.stream().mapToDouble(Pole::omega).sorted().toArray();
      int half = late.size() / 2;
      return new StablePole(decays[half], omegas[half], spread(decays), spread(omegas));
    }

    private static double spread(double[] sorted) {
      int n = sorted.length;
      return (sorted[3 * n / 4] - sorted[n / 4]) / QUARTILES;
    }
  }

  /**
   * The poles that come back.
   *
   * @param orders for each order its poles z, real and imaginary part
   * @param rate Hz
   */
  static List<StablePole> stable(List<List<double[]>> orders, double rate) {
    List<Track> tracks = new ArrayList<>();
    for (int order = 0; order < orders.size(); order++) {
      for (double[] z : orders.get(order)) {
        Pole pole = Pole.of(z, rate);
        Track nearest = nearest(tracks, pole);
        if (nearest == null) {
          tracks.add(new Track(order, new ArrayList<>(List.of(pole))));
        } else {
          nearest.poles().add(pole);
        }
      }
    }
    return tracks.stream()
        .filter(track -> track.comesBack(orders.size()))
        .map(Track::middle)
        .filter(pole -> pole.decay() > 0)
        .toList();
  }

  /** The track whose last pole is most like one. */
  private static @Nullable Track nearest(List<Track> tracks, Pole pole) {
    Track best = null;
    double least = 1;
    for (Track track : tracks) {
      double away = pole.from(track.last());
      if (away < least) {
        least = away;
        best = track;
      }
    }
    return best;
  }
}
