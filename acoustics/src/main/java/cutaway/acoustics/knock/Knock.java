package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * A recording of taps on a wall, and the modes found in their ringing.
 *
 * @param taps all that were found
 * @param used which of them were looked at, in order
 * @param rings modes, lowest first
 */
public record Knock(List<Tap> taps, List<Integer> used, List<Ring> rings) {
  /**
   * From high to low, each for as long as its modes ring. They overlap: a mode that dies soon is
   * seen better at the higher rate, where the filter lets its decay begin sooner.
   */
  private static final List<Band> BANDS =
      List.of(
          new Band(1200, 6500, 0.0042, 0.035),
          new Band(300, 2200, 0.0045, 0.10),
          new Band(30, 700, 0.0045, 0.30));

  /** Corner below which there is rumble, Hz. */
  private static final double RUMBLE = 25;

  /** Two bands' modes this near, as a share of the frequency, are one. */
  private static final double SAME = 0.005;

  /** The same as a share of the half-power width. */
  private static final double SAME_WIDTH = 0.3;

  /** Share of the rate up to which a recording is good. */
  private static final double GOOD = 0.45;

  /** Copies its lists. */
  public Knock {
    taps = List.copyOf(taps);
    used = List.copyOf(used);
    rings = List.copyOf(rings);
  }

  /**
   * Looks through a recording.
   *
   * @param samples of one channel, full scale 1
   * @param rate Hz
   */
  public static Knock of(double[] samples, double rate) {
    List<Tap> taps = Taps.in(samples, rate);
    List<Integer> used =
        IntStream.range(0, taps.size()).filter(i -> !taps.get(i).doubled()).boxed().toList();
    if (used.isEmpty()) {
      return new Knock(taps, used, List.of());
    }
    double[] quiet = withoutRumble(samples, rate);
    List<Tap> good = used.stream().map(taps::get).toList();
    int silence = taps.get(0).onset();
    List<List<Ring>> found =
        BANDS.parallelStream()
            .map(
                band ->
                    band.high() < GOOD * rate
                        ? BandSearch.rings(new BandDecays(quiet, rate, good, silence, band), band)
                        : List.<Ring>of())
            .toList();
    return new Knock(taps, used, merged(found));
  }

  /**
   * Each mode once. Of two bands that have it the higher one is believed if it holds the whole
   * decay; otherwise, as of two in one band, the one that knows the loss better.
   *
   * @param found modes of each band
   */
  private static List<Ring> merged(List<List<Ring>> found) {
    List<Ring> rings = new ArrayList<>();
    Set<Ring> whole = new HashSet<>();
    for (int b = 0; b < found.size(); b++) {
      int ofHigher = rings.size();
      for (Ring ring : found.get(b)) {
        if (BANDS.get(b).holds(ring)) {
          whole.add(ring);
        }
        int same = same(rings, ring);
        if (same < 0) {
          rings.add(ring);
        } else if (!(same < ofHigher && whole.contains(rings.get(same)))
            && ring.lossUncertainty() < rings.get(same).lossUncertainty()) {
          rings.set(same, ring);
        }
      }
    }
    rings.sort(Comparator.comparingDouble(Ring::frequency));
    return rings;
  }

  /** Place of a mode that is this one, −1 where there is none. */
  private static int same(List<Ring> rings, Ring ring) {
    double near = Math.max(SAME_WIDTH * ring.loss(), SAME) * ring.frequency();
    return IntStream.range(0, rings.size())
        .filter(i -> Math.abs(rings.get(i).frequency() - ring.frequency()) < near)
        .findFirst()
        .orElse(-1);
  }

  /** Second-order high-pass, forwards only: what it adds dies within a period of its corner. */
  private static double[] withoutRumble(double[] x, double rate) {
    double w = Math.tan(Math.PI * RUMBLE / rate);
    double a0 = 1 + Math.sqrt(2) * w + w * w;
    double a1 = 2 * (w * w - 1) / a0;
    double a2 = (1 - Math.sqrt(2) * w + w * w) / a0;
    double[] out = new double[x.length];
    double x1 = x[0];
    double x2 = x[0];
    double y1 = 0;
    double y2 = 0;
    for (int i = 0; i < x.length; i++) {
      out[i] = (x[i] - 2 * x1 + x2) / a0 - a1 * y1 - a2 * y2;
      x2 = x1;
      x1 = x[i];
      y2 = y1;
      y1 = out[i];
    }
    return out;
  }
}
