package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.cabinet.LiningLaw;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.exam.WavesModel.Waves;
import cutaway.bench.finding.Change;
import cutaway.bench.finding.Trial.WaveLine;
import cutaway.bench.finding.Trial.WaveState;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** The standing waves of a box in which linings are tried on paper. */
final class RemedyWaves {
  /**
   * Share of what a new lining changes that its flow resistivity leaves open:
   * docs/methods/cavity.md.
   */
  static final double SHARE = 0.33;

  private final WavesModel model;
  private final Air air;
  private final RoomLining now;
  private final List<Waves> spread;
  private final Waves before;
  private final Map<Integer, WaveState> asItIs = new HashMap<>();
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
    this.spread =
        now.none()
            ? Stream.of(1.0, 1 / WavesExam.LOSS_FACTOR, WavesExam.LOSS_FACTOR)
                .map(times -> model.bare(WavesModel.LOSS * times))
                .toList()
            : model.lined(
                now.thickness(),
                Stream.of(1.0, 1 / now.factor(), now.factor())
                    .map(times -> now.fluid(air, times))
                    .toList());
    this.before = spread.get(0);
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
      kept = Optional.of(new Lined(change, lined(change, 1)));
      last = kept;
    }
    return kept.get().waves();
  }

  /** Of the lining on each wall after a change, m. */
  private double[] thickness(Change change) {
    double[] out = now.thickness().clone();
    int wall = model.geometry().names().indexOf(change.linedWall().orElseThrow());
    out[wall] = Math.max(out[wall], change.lining());
    return out;
  }

  /** With the flow resistivity so many times as high as usual. */
  Waves lined(Change change, double times) {
    double[] thickness = thickness(change);
    // one fluid stands for all linings: with another there already, the mean of both
    double own = change.kind().resistivity();
    double resistivity = times * (now.none() ? own : Math.sqrt(own * now.resistivity()));
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
        WaveState was = asItIs.computeIfAbsent(wave, this::asItIs);
        out.add(
            new WaveLine(
                before.frequency(wave),
                was,
                after.equals(before) ? was : then(was, after, wave, thickness(change))));
      }
    }
    return List.copyOf(out);
  }

  private WaveState asItIs(int wave) {
    WaveUncertainty open = WaveUncertainty.of(now.thickness());
    double q = before.q(wave);
    double ripple = model.ripple(before, wave);
    double offQ = 0;
    double off = 0;
    for (Waves other : spread.subList(1, spread.size())) {
      offQ = Math.max(offQ, Math.abs(other.q(wave) - q));
      off = Math.max(off, Math.abs(model.ripple(other, wave) - ripple));
    }
    return new WaveState(new Estimate(q, open.q(q, offQ)), new Estimate(ripple, open.ripple(off)));
  }

  /** A lining's flow resistivity is known to a factor, so what it changes to a share. */
  private WaveState then(WaveState was, Waves after, int wave, double[] thickness) {
    WaveUncertainty open = WaveUncertainty.of(thickness);
    double q = after.q(wave);
    double ripple = model.ripple(after, wave);
    double offQ = Math.hypot(was.q().relativeSd() * q, SHARE * Math.abs(q - was.q().value()));
    double off = SHARE * Math.abs(ripple - was.ripple().value());
    return new WaveState(
        new Estimate(q, open.q(q, offQ)), new Estimate(ripple, Math.hypot(was.ripple().sd(), off)));
  }
}
