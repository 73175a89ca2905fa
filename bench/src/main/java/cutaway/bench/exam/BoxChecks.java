package cutaway.bench.exam;

import cutaway.acoustics.box.Port;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.Lining;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What the tape says of a box held against what the impedance says. */
final class BoxChecks {
  /** Ratio of specific heats of air: what a lining that holds its temperature adds at most. */
  private static final double ISOTHERMAL = 1.40;

  private BoxChecks() {}

  /** A port that is longer than the box is deep, wide and high can only stand in it bent. */
  static void portFits(BoxReadings box, Results results) {
    Optional<Estimate> length = box.port().map(p -> p.length().estimate());
    Optional<Double> longest =
        box.inner()
            .map(s -> List.of(s.width(), s.height(), s.depth()))
            .map(s -> s.stream().mapToDouble(r -> r.estimate().value()).max().orElseThrow());
    if (length.isPresent()
        && longest.isPresent()
        && box.port().orElseThrow().bends() == 0
        && length.get().value() - 2 * length.get().sd() > longest.get()) {
      results.notice(
          Notice.caution(
              "box.port",
              String.format(
                  Locale.ROOT,
                  "the port is %.0f mm long, the box inside at most %.0f mm",
                  1000 * length.get().value(),
                  1000 * longest.get()),
              "if it is bent, say how often by 'bends', its length read along its middle; if it is"
                  + " straight, measure it again"));
    }
  }

  /** Tuning by port and volume against the impedance's. */
  static void port(Sheet sheet, BoxReadings box, Estimate fb, Estimate volume, Results results) {
    Optional<Port> port = BoxGeometry.port(box);
    if (port.isEmpty()) {
      return;
    }
    Estimate predicted = port.get().tuning(volume, Bench.air(sheet));
    double sigmas = predicted.disagreement(fb);
    results.crossCheck(
        new CrossCheck(
            "box.fb-by-geometry",
            "tuning",
            "port and volume",
            predicted,
            "impedance",
            fb,
            "Hz",
            sigmas));
    if (sigmas > 3 && fb.value() < predicted.value()) {
      results.notice(
          Notice.caution(
              "box.port",
              String.format(
                  Locale.ROOT,
                  "the box is tuned to %.1f Hz, %.1f σ below the %.1f Hz of its port: partly"
                      + " blocked, or longer or narrower than read",
                  fb.value(),
                  sigmas,
                  predicted.value()),
              "look into the port for lining or a grille; measure it again"));
    } else if (sigmas > 3) {
      results.notice(
          Notice.caution(
              "box.port",
              String.format(
                  Locale.ROOT,
                  "the box is tuned to %.1f Hz, %.1f σ above the %.1f Hz of its port",
                  fb.value(),
                  sigmas,
                  predicted.value()),
              "measure the port again: it may be shorter or wider than read, or its ends other"));
    }
  }

  /** Air volume by tape against the impedance's. */
  static void volume(Sheet sheet, BoxReadings box, Optional<Estimate> effective, Results results) {
    Optional<Estimate> tape = BoxGeometry.netVolume(sheet);
    Optional<Estimate> net = tape.filter(n -> n.value() > 0);
    if (net.isEmpty() && tape.isPresent()) {
      results.notice(
          Notice.fault(
              "box.displaced",
              "what stands in the box takes up more than its inner size holds",
              "measure the box again inside, and check 'displaced'"));
    }
    List<String> rests =
        new ArrayList<>(List.of(box.inner().isPresent() ? "box.inner" : "box.size"));
    if (box.inner().isPresent() && box.cabinet().back().isPresent()) {
      rests.add("box.size");
    }
    box.displaced().ifPresent(r -> rests.add("box.displaced"));
    sheet.driveUnit().displacedVolume().ifPresent(r -> rests.add("drive-unit.displaced-volume"));
    net.ifPresent(
        n ->
            results.add(
                "box.net-volume",
                "Net volume by tape",
                "V_net",
                n,
                "m³",
                "inner size less what stands in it",
                rests));
    if (net.isEmpty() || effective.isEmpty()) {
      return;
    }
    double sigmas = net.get().disagreement(effective.get());
    double ratio = effective.get().value() / net.get().value();
    results.crossCheck(
        new CrossCheck(
            "box.volume-by-tape",
            "air volume",
            "tape",
            net.get(),
            "impedance",
            effective.get(),
            "m³",
            sigmas));
    boolean lined = box.lining() != Lining.NONE;
    double spread = ratio * Math.hypot(effective.get().relativeSd(), net.get().relativeSd());
    boolean explained = lined && ratio - 2 * spread < ISOTHERMAL;
    if (sigmas > 3 && ratio > 1) {
      results.notice(
          Notice.caution(
              "box.lining",
              String.format(
                  Locale.ROOT,
                  "the box works as if %.0f %% larger than the tape says (%.1f σ): %s",
                  100 * (ratio - 1),
                  sigmas,
                  explained
                      ? "its lining turns the air's spring isothermal"
                      : lined
                          ? "more than the 40 % that lining can do, so a size is wrong"
                          : "more lining than the sheet says, or a wrong size"),
              explained
                  ? "a size read too small does the same: check them"
                  : "look inside; measure again"));
    } else if (sigmas > 3) {
      results.notice(
          Notice.caution(
              "box.inner",
              String.format(
                  Locale.ROOT,
                  "the box works as if %.0f %% smaller than the tape says (%.1f σ)",
                  100 * (1 - ratio),
                  sigmas),
              "count bracing, amplifier and port under 'displaced'"));
    }
  }
}
