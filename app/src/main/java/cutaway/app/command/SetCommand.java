package cutaway.app.command;

import cutaway.bench.dossier.Dossier;
import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "set",
    description = "Write one value into a sheet; comments and order stay as they are.")
final class SetCommand implements Runnable {
  @Parameters(index = "0", paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Parameters(
      index = "1",
      paramLabel = "KEY",
      description = "dotted: box.port.length, takes.free-air.from")
  private String key;

  @Parameters(
      index = "2",
      paramLabel = "VALUE",
      description = "as written: '180 mm ± 1 mm', '[free, flanged]'")
  private String value;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public void run() {
    Dossier.set(folder, key, value);
    spec.commandLine().getOut().println(key + ": " + value);
  }
}
