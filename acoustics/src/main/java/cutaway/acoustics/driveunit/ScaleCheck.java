package cutaway.acoustics.driveunit;

import cutaway.acoustics.estimate.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Whether the readings that tell the moving mass agree with one another.
 *
 * <p>Each reading alone, joined with the impedance curves, gives a moving mass. Two or more must
 * give the same. Where they do not, a reading whose removal makes the rest agree is guilty; with
 * only two, or where no single one explains it, the pair that disagrees most is named and each
 * reading's uncertainty widened to its disagreement, so that the result covers both.
 */
public final class ScaleCheck {
  private static final double CONFLICT = 3.5;

  private final List<ScaleReading> readings;
  private final double[] logMass;
  private final double[][] covariance;

  /**
   * One reading's opinion.
   *
   * @param about what was read
   * @param movingMass the moving mass it alone gives, kg
   */
  public record Opinion(String about, Estimate movingMass) {}

  /**
   * Two readings that disagree.
   *
   * @param first what was read
   * @param second what was read
   * @param sigmas by how many standard deviations
   * @param ratio moving mass by the first over that by the second
   */
  public record Conflict(String first, String second, double sigmas, double ratio) {}

  private ScaleCheck(List<ScaleReading> readings, double[] logMass, double[][] covariance) {
    this.readings = readings;
    this.logMass = logMass;
    this.covariance = covariance;
  }

  /** Collects every reading's opinion from a fit that used none of them. */
  static ScaleCheck of(Candidate unscaled, List<ScaleReading> scale, Readings readings) {
    int n = scale.size();
    double[] theta = unscaled.solution().theta();
    double[] logMass = new double[n];
    double[][] gradient = new double[n][theta.length];
    double[] own = new double[n];
    for (int i = 0; i < n; i++) {
      ScaleReading reading = scale.get(i);
      Layout layout = unscaled.model().layout();
      double relative = reading.reading().relativeSd();
      logMass[i] = Math.log(reading.reading().value());
      if (reading instanceof ScaleReading.Mass mass) {
        gradient[i][layout.take(mass.take()).addedMass()] = -1;
      } else if (reading instanceof ScaleReading.Volume volume) {
        Estimate stiffness = readings.air().stiffness();
        relative = Math.hypot(relative, stiffness.relativeSd());
        logMass[i] = Math.log(stiffness.value()) - logMass[i] - 2 * Math.log(2 * Math.PI);
        gradient[i][layout.take(volume.take()).stiffness()] = -1;
        gradient[i][Layout.FS] = -2;
        gradient[i][layout.area] = 2;
      }
      for (int j = 0; j < theta.length; j++) {
        logMass[i] += gradient[i][j] * theta[j];
      }
      own[i] = relative * relative;
    }
    var c = unscaled.solution().covariance();
    double[][] covariance = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        covariance[i][j] = c.between(gradient[i], gradient[j]) + (i == j ? own[i] : 0);
      }
    }
    return new ScaleCheck(List.copyOf(scale), logMass, covariance);
  }

  /** Each reading's moving mass. */
  public List<Opinion> opinions() {
    return IntStream.range(0, readings.size())
        .mapToObj(
            i ->
                new Opinion(
                    readings.get(i).about(),
                    Estimate.relative(Math.exp(logMass[i]), Math.sqrt(covariance[i][i]))))
        .toList();
  }

  /** Every pair of readings with its disagreement, whether large or small. */
  public List<Conflict> pairs() {
    List<Conflict> out = new ArrayList<>();
    for (int i = 0; i < readings.size(); i++) {
      for (int j = i + 1; j < readings.size(); j++) {
        out.add(pair(i, j));
      }
    }
    return out;
  }

  private Conflict pair(int i, int j) {
    double variance = covariance[i][i] + covariance[j][j] - 2 * covariance[i][j];
    double difference = logMass[i] - logMass[j];
    return new Conflict(
        readings.get(i).about(),
        readings.get(j).about(),
        Math.abs(difference) / Math.sqrt(Math.max(variance, 1e-20)),
        Math.exp(difference));
  }

  /** The pair that disagrees most, where it disagrees at all. */
  public Optional<Conflict> conflict() {
    return pairs().stream()
        .filter(p -> p.sigmas() > CONFLICT)
        .max((a, b) -> Double.compare(a.sigmas(), b.sigmas()));
  }

  /** The one reading whose removal makes the others agree, where there is just one. */
  public Optional<String> guilty() {
    return guiltyIndex().map(i -> readings.get(i).about());
  }

  private Optional<Integer> guiltyIndex() {
    if (readings.size() < 3 || conflict().isEmpty()) {
      return Optional.empty();
    }
    List<Integer> redeeming =
        IntStream.range(0, readings.size()).filter(this::othersAgree).boxed().toList();
    return redeeming.size() == 1 ? Optional.of(redeeming.get(0)) : Optional.empty();
  }

  private boolean othersAgree(int without) {
    for (int i = 0; i < readings.size(); i++) {
      for (int j = i + 1; j < readings.size(); j++) {
        if (i != without && j != without && pair(i, j).sigmas() > CONFLICT) {
          return false;
        }
      }
    }
    return true;
  }

  /** The readings to go on with: without the guilty one, or widened where they disagree. */
  List<ScaleReading> credible() {
    Optional<Integer> guilty = guiltyIndex();
    if (guilty.isPresent()) {
      List<ScaleReading> rest = new ArrayList<>(readings);
      rest.remove(guilty.get().intValue());
      return rest;
    }
    if (conflict().isEmpty()) {
      return readings;
    }
    return IntStream.range(0, readings.size()).mapToObj(this::widened).toList();
  }

  /**
   * A reading with an uncertainty as large as its greatest disagreement, so that of two readings
   * neither is believed more than the other.
   */
  private ScaleReading widened(int i) {
    double widest = readings.get(i).reading().relativeSd();
    for (int j = 0; j < readings.size(); j++) {
      if (j != i) {
        widest = Math.max(widest, Math.abs(logMass[i] - logMass[j]));
      }
    }
    return readings.get(i).withRelativeSd(widest);
  }
}
