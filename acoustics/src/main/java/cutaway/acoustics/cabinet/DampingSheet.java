package cutaway.acoustics.cabinet;

import org.hipparchus.complex.Complex;

/**
 * A damping sheet glued to a board: a layer that loses energy as it stretches, or as it shears
 * between the board and a stiff foil.
 *
 * <p>The bending stiffness of the three layers is that of D. Ross, E. E. Ungar and E. M. Kerwin
 * (1959, from memory); with no foil it is H. Oberst's (Acustica 2 (1952), from memory).
 *
 * <p>One frequency stands for all of a board's modes.
 *
 * @param modulus Young's modulus of the layer, Pa
 * @param shear its shear modulus, Pa
 * @param loss its loss factor
 * @param density its density, kg/m³
 * @param foil thickness of the foil on it, m, 0 for none
 * @param foilModulus Young's modulus of the foil, Pa
 * @param foilDensity density of the foil, kg/m³
 */
public record DampingSheet(
    double modulus,
    double shear,
    double loss,
    double density,
    double foil,
    double foilModulus,
    double foilDensity) {
  /** Sheets by name; constants as met with at room temperature (from memory, low trust). */
  public enum Kind {
    /** Filled bitumen, stiff. */
    BITUMEN_SHEET,
    /** Butyl under a tenth of a millimetre of aluminium. */
    BUTYL_AND_FOIL;

    /** Its constants. */
    public DampingSheet sheet() {
      return switch (this) {
        case BITUMEN_SHEET -> new DampingSheet(1.0e9, 0.35e9, 0.3, 1800, 0, 0, 0);
        case BUTYL_AND_FOIL -> new DampingSheet(1.5e6, 0.5e6, 0.7, 1500, 1e-4, 70e9, 2700);
      };
    }
  }

  /**
   * Bending stiffness of a board with the sheet over that without, complex: its angle is the loss
   * factor.
   *
   * @param board the board
   * @param boardLoss its loss factor
   * @param thickness of the layer, m
   * @param frequency Hz
   */
  public Complex stiffening(Board board, double boardLoss, double thickness, double frequency) {
    double h1 = board.thickness();
    double h2 = thickness;
    double h3 = foil;
    double plain = Math.sqrt(board.along() * board.across());
    Complex e1 = new Complex(plain, plain * boardLoss);
    Complex e2 = new Complex(modulus, modulus * loss);
    Complex g2 = new Complex(shear, shear * loss);
    Complex own = e1.multiply(h1 * h1 * h1 / 12);
    double h21 = (h1 + h2) / 2;
    double h31 = (h1 + h3) / 2 + h2;
    Complex k1 = e1.multiply(h1);
    Complex k2 = e2.multiply(h2);
    double k3 = foilModulus * h3;
    Complex bending = own;
    // the wavenumber changes with the stiffness: a few passes settle it
    for (int pass = 0; pass < 20; pass++) {
      double omega = 2 * Math.PI * frequency;
      double mass = board.surfaceMass() + density * h2 + foilDensity * h3;
      double p2 = omega * Math.sqrt(mass / bending.getReal());
      if (foil == 0) {
        Complex d = k2.multiply(h21).divide(k1.add(k2));
        return own.add(e2.multiply(h2 * h2 * h2 / 12))
            .add(k1.multiply(d.multiply(d)))
            .add(k2.multiply(d.subtract(h21).pow(2)))
            .divide(own.getReal());
      }
      Complex g = g2.divide(k3 * h2 * p2);
      Complex d =
          k2.multiply(h21 - h31 / 2)
              .add(g.multiply(k2.multiply(h21).add(k3 * h31)))
              .divide(k1.add(k2.divide(2)).add(g.multiply(k1.add(k2).add(k3))));
      Complex away = d.negate().add(h31);
      Complex coupled = g.add(1);
      Complex next =
          own.add(e2.multiply(h2 * h2 * h2 / 12))
              .add(foilModulus * h3 * h3 * h3 / 12)
              .subtract(e2.multiply(h2 * h2 / 12).multiply(away).divide(coupled))
              .add(k1.multiply(d.multiply(d)))
              .add(k2.multiply(d.negate().add(h21).pow(2)))
              .add(away.multiply(away).multiply(k3))
              .subtract(
                  k2.divide(2)
                      .multiply(d.negate().add(h21))
                      .add(away.multiply(k3))
                      .multiply(away)
                      .divide(coupled));
      bending = next;
    }
    return bending.divide(own.getReal());
  }

  /** The board with the sheet's mass and stiffness. */
  public Board on(Board board, double thickness, double frequency) {
    double stiffer = stiffening(board, 0, thickness, frequency).getReal();
    double heavier = 1 + mass(thickness) / board.surfaceMass();
    return new Board(
        board.thickness(),
        board.density() * heavier,
        board.along() * stiffer,
        board.across() * stiffer,
        board.poisson(),
        board.inPlaneShear() * stiffer,
        board.shearAlong(),
        board.shearAcross(),
        board.grain());
  }

  /** Loss factor of the board with the sheet. */
  public double loss(Board board, double boardLoss, double thickness, double frequency) {
    Complex k = stiffening(board, boardLoss, thickness, frequency);
    return k.getImaginary() / k.getReal();
  }

  /** Mass of a square metre, kg/m². */
  public double mass(double thickness) {
    return density * thickness + foilDensity * foil;
  }
}
