package cutaway.acoustics.cabinet;

/**
 * What a wall is made of, as a plate that shears.
 *
 * @param thickness h, m
 * @param density ρ, kg/m³
 * @param along E₁, Young's modulus along the grain, Pa
 * @param across E₂, across the grain, Pa
 * @param poisson ν₁₂
 * @param inPlaneShear G₁₂, Pa
 * @param shearAlong G₁₃, through the thickness along the grain, Pa
 * @param shearAcross G₂₃, through the thickness across the grain, Pa
 * @param grain angle of the grain from the x axis, rad
 */
public record Board(
    double thickness,
    double density,
    double along,
    double across,
    double poisson,
    double inPlaneShear,
    double shearAlong,
    double shearAcross,
    double grain) {
  /** Shear factor of a homogeneous plate (E. Reissner 1945, from memory). */
  private static final double SHEAR = 5.0 / 6;

  /** Refuses what no board is. */
  public Board {
    boolean positive =
        thickness > 0
            && density > 0
            && along > 0
            && across > 0
            && inPlaneShear > 0
            && shearAlong > 0
            && shearAcross > 0;
    if (!positive || !(poisson * poisson * across / along < 1)) {
      throw new IllegalArgumentException(
          "no board has these constants: thickness "
              + thickness
              + " m, density "
              + density
              + " kg/m³, moduli "
              + along
              + " and "
              + across
              + " Pa, Poisson's ratio "
              + poisson);
    }
  }

  /**
   * The same in every direction; Young's modulus in Pa. The shear factor that suits a plate which
   * swings is 5/(6 − ν) (N. G. Stephen, J. Sound Vib. 202 (1997) 539, from memory): its shear
   * through the thickness is stated so much higher.
   */
  public static Board isotropic(double thickness, double density, double young, double poisson) {
    double shear = young / (2 * (1 + poisson));
    double through = shear * 6 / (6 - poisson);
    return new Board(thickness, density, young, young, poisson, shear, through, through, 0);
  }

  /** Mass of a square metre, kg/m². */
  public double surfaceMass() {
    return density * thickness;
  }

  /** Rotary inertia of a square metre, kg. */
  double rotaryInertia() {
    return density * thickness * thickness * thickness / 12;
  }

  /**
   * Stiffness against curvatures and shear, 5 × 5 row-major: κ_x, κ_y, κ_xy, γ_x, γ_y; N·m and N/m.
   */
  double[] stiffness() {
    double bend = thickness * thickness * thickness / 12;
    double scale = bend / (1 - poisson * poisson * across / along);
    double q11 = along * scale;
    double q22 = across * scale;
    double q12 = poisson * across * scale;
    double q66 = inPlaneShear * bend;
    double c = Math.cos(grain);
    double s = Math.sin(grain);
    double cc = c * c;
    double ss = s * s;
    double cs = c * s;
    double[] d = new double[25];
    // the usual turn of a plane stress stiffness
    d[0] = q11 * cc * cc + 2 * (q12 + 2 * q66) * cc * ss + q22 * ss * ss;
    d[6] = q11 * ss * ss + 2 * (q12 + 2 * q66) * cc * ss + q22 * cc * cc;
    d[1] = (q11 + q22 - 4 * q66) * cc * ss + q12 * (cc * cc + ss * ss);
    d[12] = (q11 + q22 - 2 * q12 - 2 * q66) * cc * ss + q66 * (cc * cc + ss * ss);
    d[2] = ((q11 - q12 - 2 * q66) * cc + (q12 - q22 + 2 * q66) * ss) * cs;
    d[7] = ((q11 - q12 - 2 * q66) * ss + (q12 - q22 + 2 * q66) * cc) * cs;
    double k = SHEAR * thickness;
    d[18] = k * (shearAlong * cc + shearAcross * ss);
    d[24] = k * (shearAlong * ss + shearAcross * cc);
    d[19] = k * (shearAlong - shearAcross) * cs;
    d[5] = d[1];
    d[10] = d[2];
    d[11] = d[7];
    d[23] = d[19];
    return d;
  }

  /** The same with stretching of the middle plane: ε_x, ε_y, ε_xy after those; 8 × 8. */
  double[] stiffnessWithStretch() {
    double[] plate = stiffness();
    double[] out = new double[64];
    double stretch = 12 / (thickness * thickness);
    for (int r = 0; r < 5; r++) {
      for (int c = 0; c < 5; c++) {
        out[8 * r + c] = plate[5 * r + c];
        if (r < 3 && c < 3) {
          out[8 * (5 + r) + 5 + c] = stretch * plate[5 * r + c];
        }
      }
    }
    return out;
  }
}
