package cutaway.bench.exam;

import cutaway.acoustics.box.Port;
import cutaway.acoustics.cabinet.ImpossibleShapeException;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.measure.Reading;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What the tape says of a box. */
final class BoxGeometry {
  private BoxGeometry() {}

  /** The port as the sheet describes it. */
  static Optional<Port> port(BoxReadings box) {
    return box.port()
        .map(
            p -> {
              Port.End outer = p.ends().get(0);
              Port.End inner = p.ends().get(1);
              Estimate length = p.length().estimate();
              Port straight =
                  p.diameter()
                      .map(d -> Port.round(d.estimate(), length, outer, inner, p.count()))
                      .orElseGet(
                          () ->
                              Port.slot(
                                  p.width().orElseThrow().estimate(),
                                  p.height().orElseThrow().estimate(),
                                  length,
                                  outer,
                                  inner,
                                  p.count()));
              return straight.bent(p.bends());
            });
  }

  /** What a size that is written without ± is taken to be known to. */
  private static final double USUAL = 0.005;

  /** Inner volume less what stands in it, m³; of whatever shape the box is. */
  static Optional<Estimate> netVolume(Sheet sheet) {
    return sheet
        .box()
        .flatMap(BoxGeometry::gross)
        .map(
            gross -> {
              List<Estimate> taken = new ArrayList<>();
              sheet.box().flatMap(BoxReadings::displaced).ifPresent(r -> taken.add(r.estimate()));
              sheet.driveUnit().displacedVolume().ifPresent(r -> taken.add(r.estimate()));
              double net = gross.value();
              double sd = gross.sd();
              for (Estimate t : taken) {
                net -= t.value();
                sd = Math.hypot(sd, t.sd());
              }
              return new Estimate(net, sd);
            });
  }

  private static Optional<Estimate> gross(BoxReadings box) {
    boolean known = box.inner().isPresent() || box.outer().isEmpty() || box.wall().isPresent();
    try {
      return CabinetGeometry.of(box, CabinetGeometry.USUAL)
          .filter(g -> known)
          .map(g -> Estimate.relative(g.inner().volume(), spread(box)));
    } catch (ImpossibleShapeException e) {
      // the walls' exam tells
      return Optional.empty();
    }
  }

  private static double spread(BoxReadings box) {
    boolean shaped = !box.cabinet().corners().isEmpty() || box.cabinet().outline().isPresent();
    Optional<Sheet.Size> size = box.inner().or(box::outer).filter(s -> !shaped);
    double wall = box.inner().isPresent() ? 0 : box.wall().map(r -> r.estimate().sd()).orElse(0.0);
    return size.map(
            s -> {
              double sum = 0;
              for (Reading r : List.of(s.width(), s.height(), s.depth())) {
                double walls = 2 * wall / r.estimate().value();
                sum += Math.pow(r.estimate().relativeSd(), 2) + walls * walls;
              }
              return Math.sqrt(sum);
            })
        .orElse(Math.sqrt(3) * USUAL);
  }
}
