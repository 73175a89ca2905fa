package cutaway.app.command;

import cutaway.app.summary.Summary;
import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.Solved;
import cutaway.bench.dossier.SolvedJson;
import cutaway.bench.problem.ProblemException;
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
    name = "solve",
    description = "Solve a dossier and print what was found.")
final class SolveCommand implements Callable<Integer> {
  @Parameters(paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Option(names = "--json", description = "print everything computed as JSON")
  private boolean json;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    Dossier dossier = Dossier.open(folder);
    Solved solved = dossier.solve(Terminal.progress(spec.commandLine().getErr()));
    out.print(
        json ? SolvedJson.write(solved) : Summary.of(dossier.sheet(), solved, Terminal.paint()));
    out.flush();
    if (dossier.notKept().isPresent()) {
      throw new ProblemException(dossier.notKept().get());
    }
    boolean nothing =
        solved.findings().findings().isEmpty() && solved.findings().suspicion().isEmpty();
    return nothing ? 3 : 0;
  }
}
