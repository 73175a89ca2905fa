package cutaway.bench.exam;

import cutaway.acoustics.box.Port;
import cutaway.acoustics.estimate.Estimate;
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

  /** Inner volume less what stands in it, m³. */
  static Optional<Estimate> netVolume(Sheet sheet) {
    return sheet
        .box()
        .flatMap(BoxReadings::inner)
        .map(
            s -> {
              Estimate w = s.width().estimate();
              Estimate h = s.height().estimate();
              Estimate d = s.depth().estimate();
              double gross = w.value() * h.value() * d.value();
              double sd =
                  gross
                      * Math.sqrt(
                          w.relativeSd() * w.relativeSd()
                              + h.relativeSd() * h.relativeSd()
                              + d.relativeSd() * d.relativeSd());
              List<Estimate> taken = new ArrayList<>();
              sheet.box().flatMap(BoxReadings::displaced).ifPresent(r -> taken.add(r.estimate()));
              sheet.driveUnit().displacedVolume().ifPresent(r -> taken.add(r.estimate()));
              double net = gross;
              for (Estimate t : taken) {
                net -= t.value();
                sd = Math.hypot(sd, t.sd());
              }
              return new Estimate(net, sd);
            });
  }
}
