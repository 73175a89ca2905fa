package cutaway.acoustics.board;

import cutaway.acoustics.cabinet.Board;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

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

  /** Ratios of moduli above this are solid wood's, below it those of glued plies. */
  private static final double SOLID = 6;

  /**
   * A board of it.
   *
   * @param thickness m
   * @param ofDensity kg/m³
   * @param ofModulus as {@link #modulus} is meant, Pa
   * @param upright whether the grain of the faces runs up the wall, else across it
   */
  public Board board(double thickness, double ofDensity, double ofModulus, boolean upright) {
    if (grain == 1) {
      return Board.isotropic(thickness, ofDensity, ofModulus, poisson);
    }
    boolean solid = grain > SOLID;
    // over the mean modulus, from memory: plies G12 0.08, rolling 0.025; solid 0.07 E_L and 0.01
    // E_L
    double root = Math.sqrt(grain);
    double inPlane = ofModulus * (solid ? 0.07 * root : 0.08);
    double alongThrough = ofModulus * (solid ? 0.07 * root : 0.025);
    double acrossThrough = ofModulus * (solid ? 0.01 * root : 0.025);
    return new Board(
        thickness,
        ofDensity,
        ofModulus * root,
        ofModulus / root,
        poisson,
        inPlane,
        alongThrough,
        acrossThrough,
        upright ? Math.PI / 2 : 0);
  }

  /** One that may be any of some: from the least to the greatest of each. */
  public static Material anyOf(List<Material> some) {
    if (some.size() == 1) {
      return some.get(0);
    }
    return new Material(
        some.stream().map(Material::name).collect(Collectors.joining(" or ")),
        span(some, Material::density),
        span(some, Material::modulus),
        1,
        some.stream().mapToDouble(Material::poisson).average().orElseThrow(),
        span(some, Material::loss),
        some.stream().allMatch(Material::usual),
        some.stream().map(Material::source).distinct().collect(Collectors.joining("; ")));
  }

  private static Range span(List<Material> some, Function<Material, Range> of) {
    return new Range(
        some.stream().mapToDouble(m -> of.apply(m).low()).min().orElseThrow(),
        some.stream().mapToDouble(m -> of.apply(m).high()).max().orElseThrow());
  }

  /** The material of a name in the table. */
  public static Optional<Material> named(String name) {
    return MaterialTable.all().stream().filter(m -> m.name().equals(name)).findFirst();
  }
}
