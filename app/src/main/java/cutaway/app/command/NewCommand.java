package cutaway.app.command;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.dossier.NewDossier;
import java.nio.file.Path;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "new",
    description = "Begin a dossier: write a commented sheet to a folder.")
final class NewCommand implements Runnable {
  @Parameters(paramLabel = "DIR", description = "folder to begin, made where it is missing")
  private Path folder;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public void run() {
    NewDossier.create(folder);
    spec.commandLine()
        .getOut()
        .println(folder.resolve(Dossier.SHEET) + " written; fill it in, then 'cutaway check'");
  }
}
