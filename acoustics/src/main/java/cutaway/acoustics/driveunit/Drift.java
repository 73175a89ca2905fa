package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import cutaway.acoustics.estimate.SingularInformationException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How the suspension's stiffness wandered between takes that should be alike.
 *
 * <p>A suspension is not the same from take to take: it warms, creeps and remembers. Where takes in
 * free air disagree on the resonance by more than their own uncertainties allow, every take is
 * given a resonance of its own, spread about the common one as those takes are, so that no result
 * claims to know better what the takes do not agree on.
 *
 * @param takes ids of the takes in free air, or all in a sealed box, that could be read alone
 * @param resonances their resonances alone, Hz, those in the box where there is one
 * @param spread standard deviation of the logarithm of the resonance from take to take
 */
public record Drift(List<String> takes, List<Estimate> resonances, double spread) {
  private static final double CONFLICT = 3.5;

  /** No suspension wanders further from one take to the next: that is another drive unit. */
  private static final double FURTHEST = 0.2;

  /** Keeps the lists as they are. */
  public Drift {
    takes = List.copyOf(takes);
    resonances = List.copyOf(resonances);
  }

  /** What takes in free air show; absent where there are not two or they agree. */
  static Optional<Drift> of(List<Take> bench, Readings readings) {
    List<Take> free = bench.stream().filter(t -> t.mounting() instanceof Mounting.FreeAir).toList();
    List<Take> alike = free.isEmpty() && boxedAlone(bench) ? bench : free;
    if (alike.size() < 2) {
      return Optional.empty();
    }
    List<String> ids = new ArrayList<>();
    List<Estimate> found = new ArrayList<>();
    for (Take take : alike) {
      resonance(take, readings)
          .ifPresent(
              f -> {
                ids.add(take.id());
                found.add(f);
              });
    }
    return disagree(found) && !strangers(found)
        ? Optional.of(new Drift(ids, found, spread(found)))
        : Optional.empty();
  }

  private static Optional<Estimate> resonance(Take take, Readings readings) {
    try {
      Readings air = Readings.of(readings.air());
      JointFit fit = JointFit.of(List.of(take), air);
      return fit.averagedIfShown(f -> f.box(0).fc().or(() -> Optional.of(f.fs())));
    } catch (SingularInformationException | IllegalArgumentException alone) {
      return Optional.empty();
    }
  }

  private static boolean boxedAlone(List<Take> bench) {
    return bench.stream()
        .allMatch(t -> t.mounting() instanceof Mounting.Boxed b && !b.load().ownFrequency());
  }

  private static boolean disagree(List<Estimate> found) {
    for (Estimate a : found) {
      for (Estimate b : found) {
        if (a.disagreement(b) > CONFLICT) {
          return true;
        }
      }
    }
    return false;
  }

  private static boolean strangers(List<Estimate> found) {
    double low = found.stream().mapToDouble(Estimate::value).min().orElseThrow();
    double high = found.stream().mapToDouble(Estimate::value).max().orElseThrow();
    return Math.log(high / low) > FURTHEST;
  }

  private static double spread(List<Estimate> found) {
    double mean = found.stream().mapToDouble(f -> Math.log(f.value())).average().orElseThrow();
    double square = 0;
    for (Estimate f : found) {
      square += Math.pow(Math.log(f.value()) - mean, 2);
    }
    return Math.sqrt(square / (found.size() - 1));
  }
}
