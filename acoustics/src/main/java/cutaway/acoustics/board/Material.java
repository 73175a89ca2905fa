package cutaway.acoustics.board;

import java.util.Optional;

/**
 * What boards are made of, as ranges that are met with.
 *
 * @param name how a sheet calls it
 * @param density kg/m³
 * @param modulus Young's modulus in bending, Pa; of grained boards the geometric mean of both ways
 * @param grain ratio of the modulus along the grain to that across, 1 for none
 * @param poisson Poisson's ratio
 * @param loss loss factor
 * @param usual whether boxes are usually made of it
 * @param source where the ranges are from
 */
public record Material(
    String name,
    Range density,
    Range modulus,
    double grain,
    double poisson,
    Range loss,
    boolean usual,
    String source) {
  /** The name in plain words. */
  public String words() {
    return name.replace('_', ' ');
  }

  /** The material of a name in the table. */
  public static Optional<Material> named(String name) {
    return MaterialTable.all().stream().filter(m -> m.name().equals(name)).findFirst();
  }
}
