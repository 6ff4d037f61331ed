package padward.cli;

import java.io.PrintWriter;
import padward.base.BadInput;
import padward.cli.command.ApplyCommand;
import padward.cli.command.AskAllCommand;
import padward.cli.command.AskCommand;
import padward.cli.command.BoardCommand;
import padward.cli.command.BusCommand;
import padward.cli.command.ChangesCommand;
import padward.cli.command.CheckCommand;
import padward.cli.command.DeskewCommand;
import padward.cli.command.DiffCommand;
import padward.cli.command.ExerciseCommand;
import padward.cli.command.ExpandCommand;
import padward.cli.command.ExportCommand;
import padward.cli.command.ImportCommand;
import padward.cli.command.KeepCommand;
import padward.cli.command.LeadCommand;
import padward.cli.command.LessonCommand;
import padward.cli.command.MakeCommand;
import padward.cli.command.NetsCommand;
import padward.cli.command.PadsCommand;
import padward.cli.command.PinsCommand;
import padward.cli.command.PlaceRouteCommand;
import padward.cli.command.SheetCommand;
import padward.cli.command.SurveyCommand;
import padward.cli.command.UndoCommand;
import padward.cli.command.WindowCommand;
import padward.cli.output.ExitStatus;
import padward.fabric.DelayTooLong;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The command {@code padward}: its sub-commands do the work. */
@Command(
        name = "padward",
        mixinStandardHelpOptions = true,
        version = "padward 0.1.0",
        description =
                "Brings an internal net of a finished programmable-logic design out to a pad, "
                        + "and reports what blocks it when there is no free route. Without a command, "
                        + "opens the window.",
        footer = {
            "",
            "In the examples, padward stands for: java -jar target/padward.jar",
            "",
            "Exit status: 0 open (or done), 1 blocked or no route, 2 bad input, 3 internal error.",
            "",
            "Example:",
            "  padward ask --design fixtures/small/only.design.json \\",
            "      --net 'pump/level/sample[1]' --pad J2.1"
        },
        subcommands = {
            AskCommand.class,
            AskAllCommand.class,
            SurveyCommand.class,
            BusCommand.class,
            KeepCommand.class,
            ApplyCommand.class,
            BoardCommand.class,
            LeadCommand.class,
            UndoCommand.class,
            DiffCommand.class,
            SheetCommand.class,
            ChangesCommand.class,
            DeskewCommand.class,
            NetsCommand.class,
            PadsCommand.class,
            CheckCommand.class,
            ImportCommand.class,
            ExportCommand.class,
            PlaceRouteCommand.class,
            PinsCommand.class,
            ExpandCommand.class,
            MakeCommand.class,
            LessonCommand.class,
            ExerciseCommand.class,
            WindowCommand.class
        })
public final class Padward implements Runnable {
    private static final int HELP_WIDTH = 100;
    private static final int MIB = 1 << 20;

    @Spec private CommandSpec spec;

    @Override
    public void run() {
        spec.commandLine().usage(spec.commandLine().getOut());
    }

    /** The command line, ready to execute. */
    public static CommandLine commandLine() {
        CommandLine line = new CommandLine(new Padward());
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setUsageHelpWidth(HELP_WIDTH);
        CommandList.install(line);
        // Colours would be control characters, which are not let through.
        line.setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF));
        line.setOut(TextStreams.writer(System.out));
        line.setErr(TextStreams.writer(System.err));
        line.setExecutionExceptionHandler(Padward::report);
        line.setParameterExceptionHandler(Padward::reportOptions);
        return line;
    }

    /** Wrong options are reported in one line, with a pointer to the help. */
    private static int reportOptions(CommandLine.ParameterException fault, String[] ignored) {
        CommandLine line = fault.getCommandLine();
        PrintWriter err = line.getErr();
        String name = line.getCommandSpec().qualifiedName();
        err.println(
                "padward: "
                        + OptionFault.describe(fault.getMessage())
                        + "; see "
                        + name
                        + " --help");
        err.flush();
        return ExitStatus.BAD_INPUT;
    }

    /**
     * Bad input is reported in one line; anything else is an internal error, reported with its
     * trace.
     */
    private static int report(Exception fault, CommandLine line, CommandLine.ParseResult ignored) {
        PrintWriter err = line.getErr();
        if (fault instanceof DelayTooLong) {
            err.println("padward: expected " + fault.getMessage() + ", found a longer route");
            err.flush();
            return ExitStatus.BAD_INPUT;
        }
        if (!(fault instanceof BadInput)) {
            return failed(fault, err);
        }
        err.println("padward: " + fault.getMessage());
        err.flush();
        return ExitStatus.BAD_INPUT;
    }

    /**
     * Runs a command.
     *
     * @return the exit status; never that of an answer when there was none
     */
    public static int execute(CommandLine line, String... arguments) {
        try {
            return line.execute(arguments);
        } catch (OutOfMemoryError full) {
            PrintWriter err = line.getErr();
            err.println(
                    "padward: expected more memory, found "
                            + Runtime.getRuntime().maxMemory() / MIB
                            + " MiB; java -Xmx4g -jar … gives it 4 GiB");
            err.flush();
            return ExitStatus.FAILED;
        } catch (StackOverflowError | LinkageError fault) {
            return failed(fault, line.getErr());
        }
    }

    /**
     * Reports an internal error.
     *
     * @return the exit status for it
     */
    public static int failed(Throwable fault, PrintWriter err) {
        err.println("padward: internal error:");
        fault.printStackTrace(err);
        err.flush();
        return ExitStatus.FAILED;
    }
}
