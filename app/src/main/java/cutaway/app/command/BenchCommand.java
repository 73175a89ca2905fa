package cutaway.app.command;

import cutaway.app.page.BenchServer;
import cutaway.bench.dossier.Dossier;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "bench",
    description = "Serve a dossier's page on this machine only.")
final class BenchCommand implements Callable<Integer> {
  @Parameters(paramLabel = "DIR", arity = "0..1", defaultValue = ".", description = "the dossier")
  private Path folder;

  @Option(
      names = "--port",
      defaultValue = "0",
      description = "port to listen on; a free one where not given")
  private int port;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    if (port < 0 || port > 65535) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--port " + port + ": a port lies between 0 and 65535");
    }
    Dossier.open(folder);
    BenchServer server = BenchServer.start(folder, port);
    spec.commandLine().getOut().println(server.address() + "  (Ctrl-C ends it)");
    return -1;
  }
}
