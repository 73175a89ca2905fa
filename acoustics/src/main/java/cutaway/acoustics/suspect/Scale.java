package cutaway.acoustics.suspect;

import cutaway.acoustics.fault.Clue;
import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;

/**
 * The steps in which a clue is counted, and the clue it leans on most. Both are judgement: steps
 * are finer where suspects differ, and a clue leans on the one that by its physics fixes its range.
 */
final class Scale {
  private Scale() {}

  private static final Map<Clue, double[]> EDGES = new EnumMap<>(Clue.class);

  static {
    for (Clue clue : Clue.values()) {
      EDGES.put(clue, written(clue));
    }
  }

  /** Upper edges of all steps but the last, in the unit of the clue. */
  private static double[] edges(Clue clue) {
    return Objects.requireNonNull(EDGES.get(clue));
  }

  private static double[] written(Clue clue) {
    return switch (clue) {
      case MARGIN -> new double[] {3, 5, 8, 14, 24, 40};
      case OVER_RESONANCE -> new double[] {-0.3, -0.1, 0.1, 0.3, 0.6, 0.9};
      case OVER_TUNING -> new double[] {-0.3, -0.1, 0.1, 0.3, 0.6};
      case OFF_RING -> new double[] {0.03, 0.08, 0.2, 0.5};
      case EXCURSION -> new double[] {-30, -20, -12, -6, -2};
      case WIDTH -> new double[] {0.2, 0.5, 1, 2, 3.5};
      case AT_CONE, AT_PORT, AT_WALL -> new double[] {-10, -4, -1.5, 1.5, 4, 7, 10};
      case WALL_OVER_PORT -> new double[] {-15, -8, -4, -1.5, 1.5, 4, 8, 15};
      case UNLIKE -> new double[] {2.5, 5, 9, 15};
      case THROUGH_CONE -> new double[] {-10, -4, 0, 4, 8, 14};
      case CONE_LATER -> new double[] {-1.5, -0.7, -0.2, 0.2, 0.7, 1.5};
      case ONCE -> new double[] {0.15, 0.3, 0.5, 0.7, 0.85};
      case TWICE -> new double[] {0.12, 0.25, 0.45, 0.65, 0.8};
      case REPEATS -> new double[] {0.2, 0.35, 0.5, 0.7, 0.85};
      case IN_VOLTAGE -> new double[] {3, 8, 16, 30};
      case SHAKEN -> new double[] {-20, 8};
      case EXCESS -> new double[] {2, 6, 12, 20, 30};
      case PEAKED -> new double[] {-0.1, 0.1, 0.3, 0.6, 1};
      case OUTWARD, AT_TURNS -> new double[] {-0.8, -0.3, 0.3, 0.8};
      case GROWTH -> new double[] {3, 8, 14, 22};
      case COMPRESSION -> new double[] {0.05, 0.3, 1, 3};
      case WAVERING -> new double[] {0.01, 0.15, 0.5, 2, 8};
      case SILENT -> new double[] {0.005, 0.05, 0.2};
      case ODD, EVEN -> new double[] {-75, -60, -50, -40, -30, -20};
      case RISE -> new double[] {-10, 0, 10, 20};
      case UNFOLLOWED -> new double[] {-60, -45, -35, -25, -15};
      case SOUND_WAVERING -> new double[] {0.05, 0.2, 0.6, 1.5, 5};
      case DROP -> new double[] {0.5, 1.5, 3, 6, 15};
      case MAINS_FIRST, MAINS_ODD, MAINS_EVEN -> new double[] {1, 15, 30, 45, 60};
      case MAINS_HIGH -> new double[] {0.5, 3, 8, 16};
      case MAINS_AT_WALL -> new double[] {-12, -6, -2, 2, 6};
      case MAINS_EVEN_AT_WALL -> new double[] {-8, -3, 3, 8, 16};
      case MAINS_VOLTAGE -> new double[] {1, 30, 50, 70};
      case STRAY -> new double[] {1, 15, 25, 35, 45};
      case STRAY_VOLTAGE -> new double[] {1, 30, 50};
      case HISS -> new double[] {-1, 1, 2.5, 5, 9};
      case HISS_LEVEL -> new double[] {25, 35, 45};
      case HISS_VOLTAGE -> new double[] {30, 45, 60};
      case UNSTEADY -> new double[] {1.5, 3, 6, 10};
      case CUT_OFF -> new double[] {0.08, 0.2, 0.4, 0.7};
      case FROZEN -> new double[] {1.2, 1.7, 2.3};
      case LEFT -> new double[] {0.15, 0.35, 0.65, 0.85, 1.15};
      case MAINS_LEFT, STRAY_LEFT -> new double[] {0.15, 0.5, 0.85, 1.1};
      case HISS_CHANGE -> new double[] {-2, 2, 6};
    };
  }

  /** Steps it has. */
  static int steps(Clue clue) {
    return edges(clue).length + 1;
  }

  /** The step in which a value lies, from 0. */
  static int step(Clue clue, double value) {
    int out = 0;
    for (double edge : edges(clue)) {
      out += value >= edge ? 1 : 0;
    }
    return out;
  }

  /** A value that lies in a step. */
  static double middle(Clue clue, int step) {
    double[] edges = edges(clue);
    if (step == 0) {
      return edges[0] - 1e-3;
    }
    return step == edges.length ? edges[step - 1] : (edges[step - 1] + edges[step]) / 2;
  }

  /** The clue of the same family that one leans on. */
  static Optional<Clue> parent(Clue clue) {
    return switch (clue) {
      case MARGIN -> Optional.of(Clue.EXCESS);
      case OVER_TUNING, EXCURSION -> Optional.of(Clue.OVER_RESONANCE);
      case WIDTH, ONCE, GROWTH, REPEATS -> Optional.of(Clue.MARGIN);
      case AT_PORT, AT_WALL, WALL_OVER_PORT, UNLIKE, THROUGH_CONE, CONE_LATER ->
          Optional.of(Clue.AT_CONE);
      case TWICE, PEAKED, OUTWARD -> Optional.of(Clue.ONCE);
      case AT_TURNS -> Optional.of(Clue.TWICE);
      case COMPRESSION, EVEN, RISE -> Optional.of(Clue.ODD);
      case SILENT -> Optional.of(Clue.WAVERING);
      case DROP -> Optional.of(Clue.SOUND_WAVERING);
      case MAINS_ODD, MAINS_AT_WALL, MAINS_VOLTAGE -> Optional.of(Clue.MAINS_FIRST);
      case MAINS_EVEN_AT_WALL -> Optional.of(Clue.MAINS_AT_WALL);
      case MAINS_EVEN, MAINS_HIGH -> Optional.of(Clue.MAINS_ODD);
      case STRAY_VOLTAGE -> Optional.of(Clue.STRAY);
      case HISS_LEVEL, HISS_VOLTAGE -> Optional.of(Clue.HISS);
      default -> Optional.empty();
    };
  }
}
