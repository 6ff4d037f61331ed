package padward;

import java.util.Optional;
import padward.cli.Padward;
import padward.cli.WindowCommand;
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
        CommandLine line = Padward.commandLine();
        if (arguments.length == 0) {
            PadwardApp.launchWindow(Optional.empty());
        } else if (arguments[0].equals("window") && isPlainWindow(line, arguments)) {
            WindowCommand command = line.getSubcommands().get("window").getCommand();
            PadwardApp.launchWindow(command.file());
        } else {
            System.exit(line.execute(arguments));
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
