package cutaway.acoustics.knock;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/** The modes of one band: poles that come back order after order, cleared of doubles and noise. */
final class BandSearch {
  private static final double LEAST_LOSS = 0.003;
  private static final double MOST_LOSS = 0.15;

  /** A ring this far below all that rings, or less certain than this, is left out. */
  private static final double FAINTEST = -30;

  private static final double LEAST_OVER_NOISE = 10;
  private static final double UNCERTAIN_FREQUENCY = 0.008;
  private static final double UNCERTAIN_LOSS = 0.45;

  /** Poles nearer than this share of the narrower half-power width may be one mode. */
  private static final double RIVALS = 0.5;

  private BandSearch() {}

  /** The modes of a band. */
  static List<Ring> rings(BandDecays decays, Band band) {
    if (decays.size() == 0) {
      return List.of();
    }
    BandFit fit = cleared(decays, Tracks.stable(Poles.of(decays.all()), decays.rate()));
    if (fit == null) {
      return List.of();
    }
    List<Ring> rings = new ArrayList<>(IntStream.range(0, fit.size()).mapToObj(fit::ring).toList());
    if (rings.stream().anyMatch(ring -> isWorthMore(ring, band))) {
      BandFit refined = fit.refined();
      for (int pole = 0; pole < fit.size(); pole++) {
        if (isWorthMore(rings.get(pole), band) && refined.counts(pole)) {
          rings.set(pole, refined.ring(pole));
        }
      }
    }
    return rings.stream()
        .filter(ring -> isWithin(ring, band) && isSure(ring) && isHeard(ring))
        .toList();
  }

  /**
   * Without what is noise, and without all but one where the orders took one mode for several. Two
   * poles almost alike make each other uncertain; the one without which the fit loses least goes.
   * Two that the decays tell apart stay, however near. Null where nothing is left.
   */
  private static @Nullable BandFit cleared(BandDecays decays, List<StablePole> stable) {
    List<StablePole> kept = stable;
    while (!kept.isEmpty()) {
      BandFit fit = BandFit.of(decays, kept);
      Set<Integer> gone = rivals(fit);
      if (gone.isEmpty()) {
        IntStream.range(0, fit.size()).filter(pole -> !fit.counts(pole)).forEach(gone::add);
      }
      if (gone.isEmpty()) {
        return fit;
      }
      List<StablePole> before = kept;
      kept =
          IntStream.range(0, before.size())
              .filter(pole -> !gone.contains(pole))
              .mapToObj(before::get)
              .toList();
    }
    return null;
  }

  /** Of each group of poles that make each other uncertain, the one that is missed least. */
  private static Set<Integer> rivals(BandFit fit) {
    List<Integer> byFrequency =
        IntStream.range(0, fit.size())
            .boxed()
            .sorted(Comparator.comparingDouble(fit::frequency))
            .toList();
    Set<Integer> out = new TreeSet<>();
    Set<Integer> group = new TreeSet<>();
    for (int i = 0; i + 1 < byFrequency.size(); i++) {
      int a = byFrequency.get(i);
      int b = byFrequency.get(i + 1);
      if (areRivals(fit, a, b)) {
        group.add(a);
        group.add(b);
      } else if (!group.isEmpty()) {
        out.add(leastMissed(fit, group));
        group.clear();
      }
    }
    if (!group.isEmpty()) {
      out.add(leastMissed(fit, group));
    }
    return out;
  }

  private static int leastMissed(BandFit fit, Set<Integer> group) {
    return group.stream().min(Comparator.comparingDouble(fit::extraSquares)).orElseThrow();
  }

  private static boolean areRivals(BandFit fit, int a, int b) {
    double width = Math.min(fit.loss(a) * fit.frequency(a), fit.loss(b) * fit.frequency(b));
    return Math.abs(fit.frequency(a) - fit.frequency(b)) < RIVALS * width
        && !(isSettled(fit, a) && isSettled(fit, b));
  }

  private static boolean isSettled(BandFit fit, int pole) {
    return fit.counts(pole) && isSure(fit.ring(pole));
  }

  private static boolean isSure(Ring ring) {
    return ring.frequencyUncertainty() < UNCERTAIN_FREQUENCY * ring.frequency()
        && ring.lossUncertainty() < UNCERTAIN_LOSS * ring.loss();
  }

  private static boolean isHeard(Ring ring) {
    return ring.level() > FAINTEST && ring.overNoise() > LEAST_OVER_NOISE;
  }

  private static boolean isWithin(Ring ring, Band band) {
    return ring.frequency() >= band.low()
        && ring.frequency() <= band.high()
        && ring.loss() > LEAST_LOSS
        && ring.loss() < MOST_LOSS;
  }

  /** Whether a mode that is not sure yet is worth moving all poles for. */
  private static boolean isWorthMore(Ring ring, Band band) {
    return isWithin(ring, band) && isHeard(ring) && !isSure(ring);
  }
}
