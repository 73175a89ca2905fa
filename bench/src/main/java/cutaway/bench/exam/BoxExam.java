package cutaway.bench.exam;

import cutaway.acoustics.air.Air;
import cutaway.acoustics.box.Loading;
import cutaway.acoustics.box.Port;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.RearLoad;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.sheet.Sheet;
import cutaway.bench.sheet.Sheet.BoxReadings;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What does the box do? */
final class BoxExam {
  private static final String FIT =
      "joint least-squares fit of the in-box impedance with the drive unit's takes (Small 1972,"
          + " 1973)";
  private static final double LEAKY = 5;

  /** Ratio of specific heats of air: what a lining that holds its temperature adds at most. */
  private static final double ISOTHERMAL = 1.40;

  private final Sheet sheet;
  private final BoxReadings box;
  private final JointFit fit;
  private final Results results;
  private final Air air;
  private final int take;
  private final Grounds grounds;

  private BoxExam(Sheet sheet, BoxReadings box, JointFit fit, Results results, int take) {
    this.sheet = sheet;
    this.box = box;
    this.fit = fit;
    this.results = results;
    this.air = Bench.air(sheet);
    this.take = take;
    this.grounds = new Grounds(fit);
  }

  /** The takes in the unit's own box, by index in the fit; those with the port open first. */
  private static List<Integer> ownBox(Sheet sheet, JointFit fit) {
    List<Integer> open = new ArrayList<>();
    List<Integer> blocked = new ArrayList<>();
    for (int k = 0; k < fit.bench().size(); k++) {
      String id = fit.bench().get(k).id();
      for (Sheet.TakeEntry entry : sheet.takes()) {
        if (entry.id().equals(id) && entry.mount().equals("box")) {
          (entry.portBlocked() ? blocked : open).add(k);
        }
      }
    }
    open.addAll(blocked);
    return List.copyOf(open);
  }

  /** Index of the take in the unit's own box with its port open, absent without one. */
  static Optional<Integer> boxedTake(Sheet sheet, JointFit fit) {
    return ownBox(sheet, fit).stream().filter(k -> !blocked(sheet, fit, k)).findFirst();
  }

  private static boolean blocked(Sheet sheet, JointFit fit, int take) {
    String id = fit.bench().get(take).id();
    return sheet.takes().stream().anyMatch(t -> t.id().equals(id) && t.portBlocked());
  }

  /** Runs the exam where there is a box and a take in it. */
  static void run(Sheet sheet, JointFit fit, Results results) {
    List<Integer> takes = ownBox(sheet, fit);
    if (sheet.box().isEmpty() || takes.isEmpty()) {
      return;
    }
    new BoxExam(sheet, sheet.box().get(), fit, results, takes.get(0)).run();
    for (int further : takes.subList(1, takes.size())) {
      new BoxExam(sheet, sheet.box().get(), fit, results, further).further(takes.get(0));
    }
  }

  /** What another take of the same box adds. */
  private void further(int first) {
    String id = fit.bench().get(take).id();
    String in = " in " + id;
    RearLoad load = fit.load(take).orElseThrow();
    if (load.ownFrequency()) {
      results.add(
          "box.fb." + id,
          "Tuning" + in,
          "f_b",
          fit.averagedIfShown(f -> f.boxValue(take, "f_b")),
          "Hz",
          FIT,
          grounds.takes());
    } else {
      results.add(
          "box.fc." + id,
          "Resonance" + in,
          "f_c",
          fit.averagedIfShown(f -> f.fc(take)),
          "Hz",
          FIT + "; without losses",
          grounds.takes());
      results.add(
          "box.qtc." + id,
          "Total Q" + in,
          "Q_tc",
          fit.averagedIfShown(f -> f.qtc(take)),
          "1",
          FIT + "; every loss counted, at f_c",
          grounds.takes());
    }
    Optional<Estimate> here = fit.averagedIfShown(f -> f.alpha(take));
    Optional<Estimate> there = fit.averagedIfShown(f -> f.alpha(first));
    if (fit.ownVolume(take) && here.isPresent() && there.isPresent()) {
      results.notice(
          Notice.note(
              "takes." + id,
              String.format(
                  Locale.ROOT,
                  "the box works with %.1f %% %s air than in %s, so each has a volume of its own",
                  100 * Math.abs(there.get().value() / here.get().value() - 1),
                  here.get().value() < there.get().value() ? "more" : "less",
                  fit.bench().get(first).id()),
              "a plug at the outer end of a port adds the port's own air; lining moved or a leak"
                  + " changes it too"));
    }
  }

  private void run() {
    RearLoad load = fit.load(take).orElseThrow();
    Optional<Estimate> volume = fit.averagedIfShown(f -> f.boxVolume(take));
    Optional<Estimate> fc = fit.averagedIfShown(f -> f.fc(take));
    results.add(
        "box.alpha",
        "Compliance ratio V_as/V_ab",
        "α",
        fit.averagedIfShown(f -> f.alpha(take)),
        "1",
        FIT,
        grounds.takes());
    results.add(
        "box.volume",
        "Effective volume",
        "V_ab",
        volume,
        "m³",
        FIT + "; V_ab = V_as/α",
        grounds.area());
    boolean closed = !load.ownFrequency();
    if (closed && !box.loading().equals("sealed")) {
      results.notice(
          Notice.caution(
              "box",
              "every take in the box has its vent blocked, so its tuning and what comes out are not"
                  + " known",
              "add a take with the vent open"));
    }
    results.add(
        "box.fc",
        closed ? "Resonance in the box" : "Resonance with the vent closed",
        "f_c",
        fc,
        "Hz",
        FIT + "; without losses",
        grounds.takes());
    if (closed) {
      results.add(
          "box.qtc",
          "Total Q in the box",
          "Q_tc",
          fit.averagedIfShown(f -> f.qtc(take)),
          "1",
          FIT + "; every loss counted, at f_c",
          grounds.takes());
    }
    losses(load);
    if (!closed) {
      tuning(load);
    }
    volumeCheck(volume);
    leak();
  }

  private void losses(RearLoad load) {
    String at = load.ownFrequency() ? "f_b" : "f_c";
    List<String> undecided = fit.undecidedLosses(take);
    if (!undecided.isEmpty()) {
      results.notice(
          Notice.note(
              "box",
              "the takes show a loss but do not tell its kind: "
                  + String.join(" and ", undecided)
                  + " could as well be another, so no figure is given",
              "a take of the bare drive unit, or of the box with its port blocked, tells them apart"));
    }
    results.add(
        "box.ql",
        "Leakage Q at " + at,
        "Q_L",
        fit.averagedIfShown(f -> f.boxValue(take, "Q_L")),
        "1",
        FIT,
        grounds.takes());
    results.add(
        "box.qa",
        "Absorption Q at " + at,
        "Q_A",
        fit.averagedIfShown(f -> f.boxValue(take, "Q_A")),
        "1",
        FIT,
        grounds.takes());
    results.add(
        "box.qp",
        "Port Q at f_b",
        "Q_P",
        fit.averagedIfShown(f -> f.boxValue(take, "Q_P")),
        "1",
        FIT,
        grounds.takes());
  }

  private void tuning(RearLoad load) {
    Estimate fb = fit.averagedIfShown(f -> f.boxValue(take, "f_b")).orElseThrow();
    results.add(
        "box.fb", "Tuning", "f_b", fb, "Hz", FIT + "; f_b = 1/(2π√(M_AP C_ab))", grounds.takes());
    results.add(
        "box.h",
        "Tuning ratio f_b/f_s",
        "h",
        fit.averagedIfShown(f -> f.tuningRatio(take)),
        "1",
        FIT,
        grounds.takes());
    peaks(fb);
    Optional<Estimate> volume = fit.averagedIfShown(f -> f.boxVolume(take));
    Optional<Estimate> mass = fit.averagedIfShown(f -> f.portMass(take));
    if (volume.isEmpty() || mass.isEmpty()) {
      return;
    }
    if (load instanceof Loading.Vented) {
      results.add(
          "box.port-mass",
          "Acoustic mass of the port",
          "M_AP",
          mass,
          "kg/m⁴",
          "M_AP = 1/((2πf_b)² C_ab)",
          grounds.area());
      port(fb, volume.get());
    } else {
      radiator(mass.get());
    }
  }

  private void peaks(Estimate fb) {
    double f = fb.value();
    double top = fit.fc(take).map(Estimate::value).orElse(2 * f);
    Estimate fm = fit.averaged(j -> j.extremum(take, 0.75 * f, 1.35 * f, false));
    results.add(
        "box.fm",
        "Impedance minimum between the peaks",
        "f_M",
        fm,
        "Hz",
        "minimum of the fitted |Z|; losses and inductance shift it from f_b",
        grounds.takes());
    results.add(
        "box.fl",
        "Lower impedance peak",
        "f_L",
        fit.averaged(j -> j.extremum(take, 0.2 * f, 0.97 * fm.value(), true)),
        "Hz",
        "maximum of the fitted |Z|",
        grounds.takes());
    results.add(
        "box.fh",
        "Upper impedance peak",
        "f_H",
        fit.averaged(j -> j.extremum(take, 1.03 * fm.value(), Math.max(1.6 * top, 2.2 * f), true)),
        "Hz",
        "maximum of the fitted |Z|",
        grounds.takes());
  }

  private void radiator(Estimate mass) {
    box.radiator()
        .ifPresent(
            r -> {
              Estimate d = r.pistonDiameter().estimate();
              double area = Math.PI * d.value() * d.value() / 4;
              double areaSd = 2 * d.relativeSd();
              results.add(
                  "box.radiator-mass",
                  "Moving mass of the passive radiator",
                  "M_mp",
                  mass.times(area * area).widened(2 * areaSd),
                  "kg",
                  "M_AP S_p²",
                  with(grounds.area(), "box.passive-radiator"));
              results.add(
                  "box.radiator-compliance",
                  "Compliance of the passive radiator",
                  "C_mp",
                  fit.averagedIfShown(f -> f.radiatorCompliance(take))
                      .map(c -> c.times(1 / (area * area)).widened(2 * areaSd)),
                  "m/N",
                  "C_AP/S_p², C_AP = C_ab/δ",
                  with(grounds.area(), "box.passive-radiator"));
            });
  }

  /** The port as the sheet describes it. */
  static Optional<Port> portOf(BoxReadings box) {
    return box.port()
        .map(
            p -> {
              Port.End outer = end(p.ends().get(0));
              Port.End inner = end(p.ends().get(1));
              Estimate length = p.length().estimate();
              return p.diameter()
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
            });
  }

  private static Port.End end(String word) {
    return Port.End.valueOf(word.toUpperCase(Locale.ROOT).replace(' ', '_'));
  }

  private void port(Estimate fb, Estimate volume) {
    Optional<Port> port = portOf(box);
    if (port.isEmpty()) {
      return;
    }
    Estimate predicted = port.get().tuning(volume, air);
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

  private void volumeCheck(Optional<Estimate> effective) {
    Optional<Estimate> tape = netVolume(sheet);
    Optional<Estimate> net = tape.filter(n -> n.value() > 0);
    if (net.isEmpty() && tape.isPresent()) {
      results.notice(
          Notice.fault(
              "box.displaced",
              "what stands in the box takes up more than its inner size holds",
              "measure the box again inside, and check 'displaced'"));
    }
    List<String> rests = new ArrayList<>(List.of("box.inner"));
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
    boolean lined = !box.lining().equals("none");
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
              explained ? "nothing to do" : "look inside; measure again"));
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

  private static List<String> with(List<String> basis, String further) {
    List<String> out = new ArrayList<>(basis);
    out.add(further);
    return List.copyOf(out);
  }

  /** A leak as the round hole through the wall that would resist as much. */
  private void leak() {
    Optional<Estimate> ql = fit.averagedIfShown(f -> f.boxValue(take, "Q_L"));
    Optional<Estimate> leak = fit.averagedIfShown(f -> f.leakResistance(take));
    if (ql.isEmpty() || leak.isEmpty()) {
      return;
    }
    double resistance = leak.get().value();
    double wall = box.wall().map(r -> r.estimate().value()).orElse(0.018);
    // laminar flow through a round hole: R = 8 η t/(π a⁴), η of air 18.1 µPa·s
    double radius = Math.pow(8 * 18.1e-6 * wall / (Math.PI * resistance), 0.25);
    double area = Math.PI * radius * radius;
    // area goes with the root of the conductance and of the wall, which is guessed where not read
    double wallSd = box.wall().map(r -> r.estimate().relativeSd()).orElse(0.3);
    double relative = Math.hypot(leak.get().relativeSd(), wallSd) / 2;
    results.add(
        "box.leak-area",
        "Leak as a round hole through the wall",
        "A_leak",
        Estimate.relative(area, relative),
        "m²",
        "laminar flow R = 8ηt/(πa⁴) through the wall; η = 18.1 µPa·s (handbook value, from memory)",
        box.wall().isPresent() ? with(grounds.area(), "box.wall") : grounds.area(),
        "several small leaks, or a porous dust cap or surround, look the same");
    if (ql.get().value() < LEAKY) {
      results.notice(
          Notice.caution(
              "box",
              String.format(
                  Locale.ROOT,
                  "a leak: Q_L = %.1f, as of a hole %.1f mm wide through the wall",
                  ql.get().value(),
                  2000 * radius),
              "seal joints, terminals and the drive unit's gasket; press round the edges and listen"));
    }
  }
}
