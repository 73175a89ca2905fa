package cutaway.app.command;

import cutaway.app.report.Report;
import cutaway.bench.dossier.Dossier;
import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "report",
    description = "Solve a dossier and write its report, one HTML file without outside requests.")
final class ReportCommand implements Runnable {
  @Parameters(paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public void run() {
    Dossier dossier = Dossier.open(folder);
    Path file =
        Report.write(dossier, dossier.solve(Terminal.progress(spec.commandLine().getErr())));
    spec.commandLine().getOut().println(file);
  }
}
