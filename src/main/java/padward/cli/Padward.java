package padward.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalInt;
import padward.cli.manners.BuiltVersion;
import padward.cli.manners.Manners;
import padward.cli.manners.Terminal;
import padward.cli.output.ExitStatus;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Spec;

/** The command {@code padward}: its sub-commands do the work. */
@Command(
        name = "padward",
        mixinStandardHelpOptions = true,
        versionProvider = BuiltVersion.class,
        description =
                "Brings an internal net of a finished programmable-logic design out to a pad, and"
                        + " reports what blocks it when there is no free route. Without a command,"
                        + " opens the window.",
        footer = {
            "",
            "In the examples, padward stands for: java -jar target/padward.jar",
            "",
            "Exit status: 0 open (or done), 1 blocked or no route, 2 bad input, 3 internal error.",
            "",
            "Example:",
            "  padward ask --design fixtures/small/only.design.json \\",
            "      --net 'pump/level/sample[1]' --pad J2.1"
        })
public final class Padward implements Runnable {
    private static final int HELP_WIDTH = 100;

    @Spec private CommandSpec spec;

    @Override
    public void run() {
        spec.commandLine().usage(spec.commandLine().getOut());
    }

    /** The command line with all its commands, ready to execute. */
    public static CommandLine commandLine() {
        return commandLine(Commands.names());
    }

    /**
     * The command line for one call. It has all commands only where the first word is none: looking
     * at the options of all takes longer than most answers.
     */
    public static CommandLine commandLine(String[] arguments) {
        boolean known =
                arguments.length > 0
                        && Commands.names().contains(arguments[0])
                        && !arguments[0].equals("help");
        CommandLine line = commandLine(known ? List.of(arguments[0]) : Commands.names());
        OptionalInt width = Terminal.width();
        if (width.isPresent()) {
            line.setUsageHelpWidth(Math.min(HELP_WIDTH, width.getAsInt()));
            boolean whole = TextStreams.printsJson(arguments);
            line.setOut(TextStreams.writer(System.out, whole ? OptionalInt.empty() : width));
            line.setErr(TextStreams.writer(System.err, width));
        }
        return line;
    }

    private static CommandLine commandLine(List<String> commands) {
        CommandLine line = new CommandLine(new Padward());
        commands.forEach(name -> line.addSubcommand(Commands.make(name)));
        line.registerConverter(Double.class, OptionFault::number);
        line.registerConverter(Double.TYPE, OptionFault::number);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        // A note or a name that begins with @ is meant as it stands, not as the name of a file.
        line.setExpandAtFiles(false);
        line.setUsageHelpWidth(HELP_WIDTH);
        CommandList.install(line);
        Manners.install(line);
        // Colours would be control characters, which are not let through.
        line.setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF));
        line.setOut(TextStreams.writer(System.out));
        line.setErr(TextStreams.writer(System.err));
        line.setExecutionExceptionHandler(Padward::report);
        line.setParameterExceptionHandler(Padward::reportOptions);
        return line;
    }

    /** Wrong options are reported in one line, with a pointer to the help. */
    private static int reportOptions(CommandLine.ParameterException fault, String[] words) {
        CommandLine line = fault.getCommandLine();
        PrintWriter err = line.getErr();
        String name = line.getCommandSpec().qualifiedName();
        err.println("padward: " + OptionFault.describe(fault, words) + "; see " + name + " --help");
        err.flush();
        return ExitStatus.BAD_INPUT;
    }

    private static int report(Exception fault, CommandLine line, CommandLine.ParseResult ignored) {
        OptionSpec option = line.getCommandSpec().findOption("--design");
        String design = option == null || option.getValue() == null ? "" : "" + option.getValue();
        return Faults.report(fault, design, line.getErr());
    }

    /**
     * Runs a command.
     *
     * @return the exit status; never that of an answer when there was none
     */
    public static int execute(CommandLine line, String... arguments) {
        return Faults.guarded(() -> line.execute(arguments), "", line.getErr());
    }

    /**
     * Reports an internal error.
     *
     * @return the exit status for it
     */
    public static int failed(Throwable fault, PrintWriter err) {
        return Faults.failed(fault, err);
    }
}
