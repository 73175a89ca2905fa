package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.LiningLaw;
import cutaway.bench.exam.WavesModel.Waves;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Trial.WaveLine;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** The standing waves of a box in which linings are tried on paper. */
final class RemedyWaves {
  private final WavesModel model;
  private final Air air;
  private final RoomLining now;
  private final Waves before;
  private final Map<Integer, Double> rippleBefore = new HashMap<>();
  private Optional<Lined> last = Optional.empty();

  /** The waves with a lining. */
  private record Lined(Change change, Waves waves) {
    boolean sameAs(Change other) {
      return change.linedWall().equals(other.linedWall())
          && change.lining() == other.lining()
          && change.kind() == other.kind();
    }
  }

  RemedyWaves(WavesModel model, CabinetGeometry geometry, Air air) {
    this.model = model;
    this.air = air;
    this.now = RoomLining.of(geometry);
    this.before =
        now.none()
            ? model.bare(WavesModel.LOSS)
            : model.lined(now.thickness(), List.of(now.fluid(air, 1))).get(0);
  }

  /** Loss factor of each of so many waves after a change. */
  double[] losses(Change change, int count) {
    Waves after = after(change);
    double[] lowest =
        IntStream.range(0, WavesModel.TOLD).mapToDouble(wave -> 1 / after.q(wave)).toArray();
    return CabinetExam.spread(lowest, count);
  }

  private Waves after(Change change) {
    if (change.linedWall().isEmpty() || change.lining() == 0) {
      return before;
    }
    Optional<Lined> kept = last.filter(l -> l.sameAs(change));
    if (kept.isEmpty()) {
      kept = Optional.of(new Lined(change, lined(change)));
      last = kept;
    }
    return kept.get().waves();
  }

  private Waves lined(Change change) {
    double[] thickness = now.thickness().clone();
    int wall = model.geometry().names().indexOf(change.linedWall().orElseThrow());
    thickness[wall] = Math.max(thickness[wall], change.lining());
    // one fluid stands for all linings: with another there already, the mean of both
    double own = change.kind().resistivity();
    double resistivity = now.none() ? own : Math.sqrt(own * now.resistivity());
    return model
        .lined(
            thickness,
            List.of(
                f ->
                    LiningLaw.MIKI.fluid(
                        resistivity, f, air.density().value(), air.soundSpeed().value())))
        .get(0);
  }

  /** The lowest waves before and after a change. */
  List<WaveLine> lines(Change change) {
    Waves after = after(change);
    List<WaveLine> out = new ArrayList<>();
    for (int wave = 0; wave < WavesModel.TOLD; wave++) {
      if (before.rings(wave)
          && before.frequency(wave) * (1 + WavesModel.NEAR) < WavesModel.HIGHEST) {
        double ripple = rippleBefore.computeIfAbsent(wave, w -> model.ripple(before, w));
        out.add(
            new WaveLine(
                before.frequency(wave),
                before.q(wave),
                after.q(wave),
                ripple,
                after.equals(before) ? ripple : model.ripple(after, wave)));
      }
    }
    return List.copyOf(out);
  }
}
