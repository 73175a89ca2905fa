package cutaway.app.command;

import cutaway.app.page.BenchServer;
import cutaway.app.report.Report;
import cutaway.app.summary.Summary;
import cutaway.bench.dossier.DemoDossier;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.Solved;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "demo",
    description =
        "Copy an invented dossier to a folder, solve it, report on it and serve its page.")
final class DemoCommand implements Callable<Integer> {
  @Parameters(
      paramLabel = "DIR",
      arity = "0..1",
      defaultValue = "cutaway-demo",
      description = "folder to copy to (default: ${DEFAULT-VALUE})")
  private Path folder;

  @Option(names = "--no-serve", description = "end after the report")
  private boolean noServe;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    DemoDossier.copyTo(folder);
    Dossier dossier = Dossier.open(folder);
    Solved solved = dossier.solve(Terminal.progress(spec.commandLine().getErr()));
    out.print(Summary.of(dossier.sheet(), solved, Terminal.paint()));
    out.println();
    out.println("Report: " + Report.write(dossier, solved));
    if (noServe) {
      return 0;
    }
    out.println("Page:   " + BenchServer.start(folder, 0).address() + "  (Ctrl-C ends it)");
    return -1;
  }
}
