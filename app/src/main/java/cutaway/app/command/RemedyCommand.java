package cutaway.app.command;

import cutaway.acoustics.cabinet.LiningKind;
import cutaway.app.report.TrialView;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.exam.RemedyBench;
import cutaway.bench.exam.RemedyExam;
import cutaway.bench.finding.Findings;
import cutaway.bench.finding.Shown;
import cutaway.bench.finding.Trial;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "remedy",
    description = "Try braces, boards, damping and lining on paper.")
final class RemedyCommand implements Callable<Integer> {
  /** What is tried as a lining. */
  private static final double LINING = 0.03;

  private static final LiningKind KIND = LiningKind.POLYESTER_FIBRE;

  @Parameters(paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Dossier dossier = Dossier.open(folder);
    var progress = Terminal.progress(spec.commandLine().getErr());
    Findings findings = dossier.solve(progress).findings();
    Optional<RemedyBench> bench = RemedyBench.of(dossier.sheet(), findings, dossier.bench());
    if (bench.isEmpty()) {
      out.println(
          "What the walls do is not known, so nothing can be tried: see what 'cutaway solve' says"
              + " of the box, list the walls under 'box: walls', or knock on them.");
      return 3;
    }
    walls(out, RemedyExam.walls(bench.get(), progress));
    linings(out, RemedyExam.linings(bench.get(), LINING, KIND, progress));
    out.println(
        "Sawdust harms the lungs: extract it and wear a mask; follow the glue's data sheet; unplug"
            + " first and leave mains parts to qualified people.");
    out.flush();
    return 0;
  }

  private static void walls(PrintWriter out, List<Trial> trials) {
    if (trials.isEmpty()) {
      return;
    }
    Trial first = trials.get(0);
    out.printf(
        Locale.ROOT,
        "%s wall: %.0f Hz, %s over the unit, heard with %s. Before and after are of one model,"
            + " quicker than that of solve. Best first, by the wall then most likely heard:%n",
        first.change().wall(),
        first.changed().before().frequency(),
        Shown.of(first.changed().before().level(), first.changed().before().levelSd(), "dB").text(),
        Shown.percent(first.changed().before().heard()));
    for (Trial t : trials) {
      out.printf(
          Locale.ROOT,
          "  %-50s %14s, heard %5s (then most: %s, %s), %s kg%s%n",
          RemedyExam.name(t.change()),
          TrialView.change(t),
          Shown.percent(t.changed().after().heard()),
          t.worstAfter().wall(),
          Shown.percent(t.worstAfter().after().heard()),
          TrialView.signedMass(t.addedMass()),
          t.lostVolume() > 0
              ? String.format(Locale.ROOT, ", −%.2f L", 1000 * t.lostVolume())
                  + t.tuning()
                      .map(f -> ", f_b " + Shown.of(f.value(), f.sd(), "Hz").text())
                      .orElse("")
              : "");
    }
  }

  private static void linings(PrintWriter out, List<Trial> trials) {
    if (trials.isEmpty()) {
      return;
    }
    out.printf(
        Locale.ROOT,
        "The lowest standing waves change the output by %s at most. Best lining first:%n",
        TrialView.shown(trials.get(0).rippleBefore(), "dB"));
    for (Trial t : trials) {
      out.printf(
          Locale.ROOT,
          "  %-50s %s at most, Q %s%n",
          RemedyExam.name(t.change()),
          TrialView.shown(t.rippleAfter(), "dB"),
          t.waves().stream()
              .map(
                  w ->
                      String.format(
                          Locale.ROOT,
                          "%s at %.0f Hz",
                          TrialView.shown(w.after().q(), ""),
                          w.frequency()))
              .limit(3)
              .collect(Collectors.joining(", ")));
    }
  }
}
