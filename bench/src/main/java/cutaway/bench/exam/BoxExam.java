package cutaway.bench.exam;

import cutaway.acoustics.box.Loading;
import cutaway.acoustics.driveunit.JointFit;
import cutaway.acoustics.driveunit.RearLoad;
import cutaway.acoustics.estimate.Estimate;
import cutaway.bench.finding.CrossCheck;
import cutaway.bench.finding.Notice;
import cutaway.bench.finding.Shown;
import cutaway.bench.result.Results;
import cutaway.bench.sheet.BoxKind;
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
  private static final double CONFLICT = 3.5;

  private final Sheet sheet;
  private final BoxReadings box;
  private final JointFit fit;
  private final Results results;
  private final int take;
  private final Grounds grounds;

  private BoxExam(Sheet sheet, BoxReadings box, JointFit fit, Results results, int take) {
    this.sheet = sheet;
    this.box = box;
    this.fit = fit;
    this.results = results;
    this.take = take;
    this.grounds = new Grounds(fit);
  }

  /** Looks at the port on paper, and at the box where there is a take in it. */
  static void run(Sheet sheet, JointFit fit, Results results) {
    sheet.box().ifPresent(box -> BoxChecks.portFits(box, results));
    List<Integer> takes = BoxTakes.all(sheet, fit);
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
    RearLoad load = fit.best().box(take).load().orElseThrow();
    if (load.ownFrequency()) {
      tunings(first, id);
      results.add(
          "box.fb." + id,
          "Tuning" + in,
          "f_b (" + id + ")",
          fit.averagedIfShown(f -> f.box(take).value("f_b")),
          "Hz",
          FIT,
          grounds.takes());
    } else {
      results.add(
          "box.fc." + id,
          "Resonance" + in,
          "f_c (" + id + ")",
          fit.averagedIfShown(f -> f.box(take).fc()),
          "Hz",
          FIT + "; without losses",
          grounds.takes());
      results.add(
          "box.qtc." + id,
          "Total Q" + in,
          "Q_tc (" + id + ")",
          fit.averagedIfShown(f -> f.box(take).qtc()),
          "1",
          FIT + "; every loss counted, at f_c",
          grounds.takes());
    }
    if (fit.best().box(take).ownVolume()) {
      Estimate ratio = fit.best().box(take).alphaOver(first);
      boolean plugged = BoxTakes.blocked(sheet, fit, take) != BoxTakes.blocked(sheet, fit, first);
      results.notice(
          Notice.caution(
              "takes." + id,
              String.format(
                  Locale.ROOT,
                  "the box is %.1f ± %.1f %% %s against the suspension than in %s, so each take has"
                      + " a ratio of its own",
                  100 * Math.abs(ratio.value() - 1),
                  100 * ratio.sd(),
                  ratio.value() < 1 ? "softer" : "stiffer",
                  fit.bench().get(first).id()),
              (plugged ? "a plug at the outer end of a port adds the port's own air; " : "")
                  + "a suspension that drifted, lining moved or a leak do it too: exercise the"
                  + " suspension first and take both again"));
    }
  }

  /** Two takes of one box with its vent open must show one tuning. */
  private void tunings(int first, String id) {
    Optional<Estimate> here = fit.averagedIfShown(f -> f.box(take).value("f_b"));
    Optional<Estimate> there = fit.averagedIfShown(f -> f.box(first).value("f_b"));
    if (here.isEmpty() || there.isEmpty()) {
      return;
    }
    String other = fit.bench().get(first).id();
    double sigmas = here.get().disagreement(there.get());
    results.crossCheck(
        new CrossCheck(
            "box.fb." + other + "." + id,
            "tuning",
            other,
            there.get(),
            id,
            here.get(),
            "Hz",
            sigmas));
    if (sigmas > CONFLICT) {
      results.notice(
          Notice.caution(
              "takes." + id,
              String.format(
                  Locale.ROOT,
                  "the box is tuned to %s here and to %s in %s, %.1f σ apart: not the same box, port or"
                      + " lining; what is told of the box is told of %s",
                  Shown.of(here.get().value(), here.get().sd(), "Hz").text(),
                  Shown.of(there.get().value(), there.get().sd(), "Hz").text(),
                  other,
                  sigmas,
                  other),
              "keep each state of the box in a dossier of its own"));
    }
  }

  private void run() {
    RearLoad load = fit.best().box(take).load().orElseThrow();
    Optional<Estimate> volume = fit.averagedIfShown(f -> f.box(take).volume());
    Optional<Estimate> fc = fit.averagedIfShown(f -> f.box(take).fc());
    results.add(
        "box.alpha",
        "Compliance ratio V_as/V_ab",
        "α",
        fit.averagedIfShown(f -> f.box(take).alpha()),
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
    if (closed && box.loading() != BoxKind.SEALED) {
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
          fit.averagedIfShown(f -> f.box(take).qtc()),
          "1",
          FIT + "; every loss counted, at f_c",
          grounds.takes());
    }
    losses(load);
    if (!closed) {
      tuning(load);
    }
    BoxChecks.volume(sheet, box, volume, results);
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
        fit.averagedIfShown(f -> f.box(take).value("Q_L")),
        "1",
        FIT,
        grounds.takes());
    results.add(
        "box.qa",
        "Absorption Q at " + at,
        "Q_A",
        fit.averagedIfShown(f -> f.box(take).value("Q_A")),
        "1",
        FIT,
        grounds.takes());
    results.add(
        "box.qp",
        "Port Q at f_b",
        "Q_P",
        fit.averagedIfShown(f -> f.box(take).value("Q_P")),
        "1",
        FIT,
        grounds.takes());
  }

  private void tuning(RearLoad load) {
    Estimate fb = fit.averagedIfShown(f -> f.box(take).value("f_b")).orElseThrow();
    results.add(
        "box.fb", "Tuning", "f_b", fb, "Hz", FIT + "; f_b = 1/(2π√(M_AP C_ab))", grounds.takes());
    results.add(
        "box.h",
        "Tuning ratio f_b/f_s",
        "h",
        fit.averagedIfShown(f -> f.box(take).tuningRatio()),
        "1",
        FIT,
        grounds.takes());
    peaks(fb);
    Optional<Estimate> volume = fit.averagedIfShown(f -> f.box(take).volume());
    Optional<Estimate> mass = fit.averagedIfShown(f -> f.box(take).portMass());
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
      BoxChecks.port(sheet, box, fb, volume.get(), results);
    } else {
      radiator(mass.get());
    }
  }

  private void peaks(Estimate fb) {
    double f = fb.value();
    double top = fit.best().box(take).fc().map(Estimate::value).orElse(2 * f);
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
                  fit.averagedIfShown(f -> f.box(take).radiatorCompliance())
                      .map(c -> c.times(1 / (area * area)).widened(2 * areaSd)),
                  "m/N",
                  "C_AP/S_p², C_AP = C_ab/δ",
                  with(grounds.area(), "box.passive-radiator"));
            });
  }

  private static List<String> with(List<String> basis, String further) {
    List<String> out = new ArrayList<>(basis);
    out.add(further);
    return List.copyOf(out);
  }

  /** A leak as the round hole through the wall that would resist as much. */
  private void leak() {
    Optional<Estimate> ql = fit.averagedIfShown(f -> f.box(take).value("Q_L"));
    Optional<Estimate> leak = fit.averagedIfShown(f -> f.box(take).leakResistance());
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
