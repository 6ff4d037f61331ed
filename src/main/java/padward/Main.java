package padward;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalInt;
import padward.cli.Padward;
import padward.cli.PlainAsk;
import padward.cli.TextStreams;
import padward.cli.command.WindowCommand;
import padward.cli.output.ExitStatus;
import padward.ui.PadwardApp;
import picocli.CommandLine;
import picocli.CommandLine.ParseResult;

/**
 * Start of the program: the window when there are no arguments or the command is {@code window},
 * the command line otherwise. Not an {@code Application} itself, so that {@code java -jar} works.
 */
public final class Main {
    private Main() {}

    /** Starts the program and ends the process with the command's status. */
    public static void main(String[] arguments) {
        if (arguments.length == 0) {
            // Without the command line, which takes a while to build.
            window(Optional.empty());
            return;
        }
        Optional<String> unreadable = TextStreams.findUnreadable(arguments);
        if (unreadable.isPresent()) {
            TextStreams.writer(System.err).println("padward: " + unreadable.get());
            System.exit(ExitStatus.BAD_INPUT);
        }
        OptionalInt answered = PlainAsk.answer(arguments);
        if (answered.isPresent()) {
            System.exit(answered.getAsInt());
        }
        CommandLine line = Padward.commandLine(arguments);
        if (arguments[0].equals("window") && isPlainWindow(line, arguments)) {
            WindowCommand command = line.getSubcommands().get("window").getCommand();
            Optional<String> fault = command.findFault();
            if (fault.isPresent()) {
                TextStreams.writer(System.err).println("padward: " + fault.get());
                System.exit(ExitStatus.BAD_INPUT);
            }
            window(command.file());
        } else {
            System.exit(Padward.execute(line, arguments));
        }
    }

    private static void window(Optional<Path> design) {
        try {
            Optional<String> trouble = PadwardApp.launchWindow(design);
            if (trouble.isPresent()) {
                TextStreams.writer(System.err).println("padward: " + trouble.get());
                System.exit(ExitStatus.BAD_INPUT);
            }
        } catch (IllegalStateException fault) {
            System.exit(Padward.failed(fault, TextStreams.writer(System.err)));
        }
    }

    /** Whether the arguments are sound and ask for the window, not for help. */
    private static boolean isPlainWindow(CommandLine line, String[] arguments) {
        try {
            ParseResult parsed = line.parseArgs(arguments);
            ParseResult sub = parsed.subcommand();
            return sub != null && !sub.isUsageHelpRequested() && !sub.isVersionHelpRequested();
        } catch (CommandLine.ParameterException fault) {
            return false;
        }
    }
}
