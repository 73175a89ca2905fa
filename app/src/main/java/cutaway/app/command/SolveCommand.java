package cutaway.app.command;

import cutaway.app.summary.Summary;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.Solved;
import cutaway.bench.dossier.SolvedJson;
import java.io.PrintWriter;
import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "solve", description = "Solve a dossier and print what was found.")
final class SolveCommand implements Runnable {
  @Parameters(paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Option(names = "--json", description = "print everything computed as JSON")
  private boolean json;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    Dossier dossier = Dossier.open(folder);
    Solved solved = dossier.solve(Terminal.progress(spec.commandLine().getErr()));
    out.print(
        json ? SolvedJson.write(solved) : Summary.of(dossier.sheet(), solved, Terminal.paint()));
    out.flush();
  }
}
