package cutaway.acoustics.board;

import java.util.List;
import java.util.Optional;

/**
 * All that is known of a board that nobody could see.
 *
 * @param candidates materials, each as likely beforehand
 * @param thickness m, all as likely beforehand
 * @param knocked walls of it
 * @param weighing of all of it, where the box and its parts were weighed
 * @param seenThickness m, with its standard uncertainty, where an edge was seen
 * @param seenDensity kg/m³, with its standard uncertainty, where a piece was weighed and measured
 * @param fixity how its edges hold it, as its tones mean it, all as likely on a logarithmic scale
 * @param modelError relative standard uncertainty of a computed frequency
 */
public record BoardEvidence(
    List<Material> candidates,
    Range thickness,
    List<KnockedWall> knocked,
    Optional<Weighing> weighing,
    Optional<Reading> seenThickness,
    Optional<Reading> seenDensity,
    Range fixity,
    double modelError) {
  /** Refuses evidence of nothing. */
  public BoardEvidence {
    if (candidates.isEmpty() || knocked.isEmpty()) {
      throw new IllegalArgumentException(
          candidates.size() + " materials and " + knocked.size() + " knocked walls");
    }
  }

  /**
   * A value and its standard uncertainty.
   *
   * @param value in SI
   * @param uncertainty the same unit
   */
  public record Reading(double value, double uncertainty) {
    double logLikelihood(double of) {
      double off = (of - value) / uncertainty;
      return -off * off / 2;
    }
  }
}
