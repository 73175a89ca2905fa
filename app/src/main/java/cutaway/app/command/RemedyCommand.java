package cutaway.app.command;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.exam.RemedyExam;
import cutaway.bench.finding.Remedy;
import cutaway.bench.finding.Shown;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "remedy",
    description = "Try battens and a thicker board on the wall most likely heard, on paper.")
final class RemedyCommand implements Callable<Integer> {
  @Parameters(paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Dossier dossier = Dossier.open(folder);
    var progress = Terminal.progress(spec.commandLine().getErr());
    List<Remedy> remedies =
        RemedyExam.run(dossier.sheet(), dossier.solve(progress).findings(), progress);
    if (remedies.isEmpty()) {
      out.println(
          "The walls are not known well enough to try anything: list them under 'box: walls', or"
              + " knock on them.");
      return 3;
    }
    out.printf(
        Locale.ROOT,
        "%s wall, likely heard as it is with %s. Best first:%n",
        remedies.get(0).wall(),
        Shown.percent(remedies.get(0).heardBefore()));
    for (Remedy r : remedies) {
      out.printf(
          Locale.ROOT,
          "%-56s %s, heard %s (worst wall then %s), +%.2f kg%s%s%n",
          r.what() + ":",
          Shown.of(r.change().value(), r.change().sd(), "dB").text(),
          Shown.percent(r.heardAfter()),
          Shown.percent(r.worstAfter()),
          r.addedMass(),
          r.lostVolume() > 0 ? String.format(Locale.ROOT, ", −%.2f L", 1000 * r.lostVolume()) : "",
          r.lostVolume() > 0
              ? r.tuning().map(t -> ", f_b " + Shown.of(t.value(), t.sd(), "Hz").text()).orElse("")
              : "");
    }
    out.println(
        "Sawdust harms the lungs: extract it and wear a mask; follow the glue's data sheet; unplug"
            + " first and leave mains parts to qualified people.");
    out.flush();
    return 0;
  }
}
