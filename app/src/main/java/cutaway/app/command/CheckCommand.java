package cutaway.app.command;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.exam.Examination;
import cutaway.bench.finding.Notice;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "check",
    description = "Read sheet and takes and say what is odd about them, without solving.")
final class CheckCommand implements Callable<Integer> {
  @Parameters(paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Examination.Checked checked = Dossier.open(folder).check();
    checked.understood().forEach((id, how) -> out.println("takes." + id + ": " + how));
    if (checked.understood().isEmpty() && checked.notices().isEmpty()) {
      out.println("the sheet lists no takes");
    }
    boolean fault = false;
    for (Notice n : checked.notices()) {
      fault |= n.severity() == Notice.Severity.FAULT;
      out.println(
          n.severity().name().toLowerCase(java.util.Locale.ROOT)
              + ": "
              + n.about()
              + ": "
              + n.message()
              + "; "
              + n.remedy());
    }
    return fault ? 3 : 0;
  }
}
