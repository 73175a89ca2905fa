package cutaway.acoustics.board;

import java.util.List;

/**
 * Materials that boxes are met in. Wood Handbook: Forest Products Laboratory, Wood Handbook,
 * FPL-GTR-190 (2010), chapter 12, table 12-1, from memory; what a source does not name is from
 * memory.
 */
public final class MaterialTable {
  private static final List<Material> ALL =
      List.of(
          material(
              "mdf",
              700,
              850,
              2.5,
              4.2,
              1,
              0.3,
              0.015,
              0.03,
              true,
              "Wood Handbook table 12-1: specific gravity 0.7 to 0.9 and 3.59 GPa; the spread about that modulus and loss from memory; ANSI A208.2 grades lie within (from memory)"),
          material(
              "hdf",
              880,
              1000,
              3.1,
              5.52,
              1,
              0.3,
              0.012,
              0.025,
              true,
              "Wood Handbook table 12-1 (hardboard): specific gravity 0.9 to 1.0 and 3.10 to 5.52 GPa; loss from memory"),
          material(
              "low_density_fibreboard",
              450,
              620,
              1.0,
              2.2,
              1,
              0.3,
              0.02,
              0.045,
              true,
              "from memory; the low-density grade of ANSI A208.2 has at least some 1.4 GPa"),
          material(
              "particleboard",
              600,
              800,
              2.76,
              4.14,
              1,
              0.28,
              0.015,
              0.03,
              true,
              "Wood Handbook table 12-1: specific gravity 0.6 to 0.8 and 2.76 to 4.14 GPa; loss from memory; ANSI A208.1 grades lie within (from memory)"),
          material(
              "birch_plywood", 640, 720, 6.0, 10.0, 1.4, 0.3, 0.012, 0.025, true, "from memory"),
          material(
              "softwood_plywood",
              400,
              600,
              3.5,
              6.0,
              3,
              0.3,
              0.012,
              0.03,
              true,
              "Wood Handbook table 12-1: specific gravity 0.4 to 0.6 and 6.96 to 8.55 GPa along the face grain; across and loss from memory"),
          material(
              "solid_pine",
              380,
              590,
              2.4,
              4.3,
              16,
              0.3,
              0.008,
              0.02,
              true,
              "Wood Handbook table 12-1: specific gravity 0.38 to 0.59 and 10.07 to 13.65 GPa along the grain; across and loss from memory"),
          material(
              "solid_oak",
              620,
              740,
              2.9,
              4.5,
              12,
              0.35,
              0.008,
              0.02,
              false,
              "Wood Handbook table 12-1 (white oak): specific gravity 0.68 and 12.27 GPa along the grain; the rest from memory"),
          material(
              "oriented_strandboard",
              550,
              750,
              3.2,
              4.8,
              2.5,
              0.3,
              0.012,
              0.03,
              false,
              "Wood Handbook table 12-1: specific gravity 0.5 to 0.8 and 4.41 to 6.28 GPa along; the rest from memory"),
          material("abs", 1020, 1080, 2.0, 2.7, 1, 0.37, 0.02, 0.05, true, "from memory"),
          material("polystyrene", 1030, 1070, 1.8, 3.2, 1, 0.35, 0.015, 0.04, false, "from memory"),
          material(
              "polypropylene_talc",
              1030,
              1230,
              1.8,
              3.6,
              1,
              0.38,
              0.03,
              0.07,
              true,
              "from memory (20 to 40 percent talc)"),
          material(
              "aluminium",
              2670,
              2690,
              69.0,
              71.0,
              1,
              0.33,
              0.004,
              0.012,
              true,
              "from memory (5052 sheet; the loss is that of a built box)"),
          material(
              "steel",
              7800,
              7870,
              195,
              212,
              1,
              0.29,
              0.002,
              0.01,
              false,
              "from memory (the loss is that of a built box)"));

  private MaterialTable() {}

  /** Density in kg/m³, modulus in GPa. */
  private static Material material(
      String name,
      double lightest,
      double heaviest,
      double softest,
      double stiffest,
      double grain,
      double poisson,
      double leastLoss,
      double mostLoss,
      boolean usual,
      String source) {
    return new Material(
        name,
        new Range(lightest, heaviest),
        new Range(1e9 * softest, 1e9 * stiffest),
        grain,
        poisson,
        new Range(leastLoss, mostLoss),
        usual,
        source);
  }

  /** All of them. */
  public static List<Material> all() {
    return ALL;
  }

  /** Those that boxes are usually made of. */
  public static List<Material> usual() {
    return ALL.stream().filter(Material::usual).toList();
  }
}
