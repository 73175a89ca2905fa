package cutaway.app.command;

import cutaway.bench.dossier.Dossier;
import cutaway.bench.noise.NoiseClips;
import cutaway.bench.noise.NoiseClips.Clip;
import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import cutaway.bench.take.SignalFile;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
    mixinStandardHelpOptions = true,
    name = "clips",
    description = {
      "Cut short sounds for publication out of a dossier's sounds, as WAV: the recording where a"
          + " noise stands out, what is left over alone, and the same after an intervention at the"
          + " same gain."
    })
final class ClipsCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "DIR", description = "the dossier")
  private Path folder;

  @Parameters(index = "1", paramLabel = "TO", description = "folder for the sounds, made if needed")
  private Path to;

  @Spec private CommandLine.Model.CommandSpec spec;

  @Override
  public Integer call() {
    Dossier dossier = Dossier.open(folder);
    List<Clip> clips = NoiseClips.of(dossier.sheet(), dossier::resolve);
    PrintWriter out = spec.commandLine().getOut();
    if (clips.isEmpty()) {
      out.println("Nothing stands out in the sounds of this dossier; there is nothing to cut.");
      return 3;
    }
    try {
      Files.createDirectories(to);
    } catch (IOException e) {
      throw new ProblemException(
          Problem.of(to.toString(), "cannot be made", "choose another folder"));
    }
    for (Clip clip : clips) {
      Path file = to.resolve(clip.name() + ".wav");
      SignalFile.write(file, clip.samples(), clip.rate());
      out.println(file + ": " + clip.caption());
    }
    return 0;
  }
}
