package cutaway.bench.exam;

import cutaway.acoustics.cabinet.Board;

/** Board of which nothing is told: as of particleboard and light fibreboard (judgement). */
final class PlainBoard {
  /** In kg/m³. */
  static final double DENSITY = 700;

  /** In Pa. */
  static final double MODULUS = 3e9;

  private static final double POISSON = 0.3;

  private PlainBoard() {}

  static Board of(double thickness) {
    return Board.isotropic(thickness, DENSITY, MODULUS, POISSON);
  }
}
