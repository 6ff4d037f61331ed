package padward.cli.manners;

import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.RunLast;
import java.io.PrintWriter;
import java.io.Writer;

/** The options that every command has. */
public final class Manners {
    private static final String QUIET = "--quiet";

    @Option(
            names = QUIET,
            description =
                    "Prints no answer, only faults: for scripts that need the exit status alone.")
    @SuppressWarnings("unused") // What was parsed says whether it was given.
    private boolean quiet;

    /** Gives all commands these options. */
    public static void install(CommandLine line) {
        line.getSubcommands().values().forEach(s -> s.addMixin("manners", new Manners()));
        line.setExecutionStrategy(Manners::run);
    }

    private static int run(ParseResult parsed) {
        if (parsed.hasSubcommand()) {
            CommandSpec command = parsed.subcommand().commandSpec();
            if (parsed.subcommand().hasMatchedOption(QUIET)) {
                command.commandLine().setOut(new PrintWriter(Writer.nullWriter()));
            }
        }
        return new RunLast().execute(parsed);
    }
}
