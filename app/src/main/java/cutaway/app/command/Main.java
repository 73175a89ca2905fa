package cutaway.app.command;

import cutaway.bench.problem.Problem;
import cutaway.bench.problem.ProblemException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Spec;

/** The command line. */
@Command(
    name = "cutaway",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class,
    description = {
      "Turns a loudspeaker tester's readings and takes into findings that hold up in public.",
      ""
    },
    subcommands = {
      DemoCommand.class,
      NewCommand.class,
      CheckCommand.class,
      SolveCommand.class,
      ReportCommand.class,
      BenchCommand.class,
      SetCommand.class,
      RemedyCommand.class,
      SignalCommand.class,
      ClipsCommand.class,
      CommandLine.HelpCommand.class
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "1:the dossier or a file in it cannot be used; the reason is on stderr",
      "2:the command was not understood",
      "3:check: all can be read, but a take is not believed; solve: nothing could be found",
      "4:a fault of Cutaway itself"
    },
    footer = {"", "Results go to stdout, talk to stderr. NO_COLOR is honoured."})
public final class Main implements Runnable {
  @Spec private CommandLine.Model.CommandSpec spec;

  /** Gives the version. */
  static final class Version implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"cutaway " + cutaway.bench.dossier.Dossier.VERSION};
    }
  }

  /** Runs a command and exits with its code. */
  public static void main(String[] args) {
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    int code = run(out, err, args);
    if (out.checkError()) {
      err.println("the output could not be written; check free space where it goes");
      code = 1;
    }
    err.flush();
    if (code >= 0) {
      System.exit(code);
    }
  }

  /** Runs a command; a negative code means that it goes on in the background. */
  public static int run(PrintWriter out, PrintWriter err, String... args) {
    CommandLine line = new CommandLine(new Main());
    // a value such as '-5 °C' is no option
    Objects.requireNonNull(line.getSubcommands().get("set"))
        .setUnmatchedOptionsArePositionalParams(true);
    line.setOut(out);
    line.setErr(err);
    line.setColorScheme(CommandLine.Help.defaultColorScheme(Terminal.ansi()));
    line.setExecutionExceptionHandler(
        (e, command, parsed) -> {
          if (e instanceof ProblemException problems) {
            for (Problem problem : problems.problems()) {
              err.println(problem.sentence());
            }
            return 1;
          }
          if (e instanceof UncheckedIOException io) {
            err.println("a file could not be read: " + io.getMessage());
            return 1;
          }
          if (Boolean.getBoolean("cutaway.trace")) {
            e.printStackTrace(err);
          }
          err.println(
              "a fault of Cutaway itself ("
                  + e.getClass().getSimpleName()
                  + ": "
                  + e.getMessage()
                  + "); please report it with the dossier");
          return 4;
        });
    return line.execute(args);
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }
}
