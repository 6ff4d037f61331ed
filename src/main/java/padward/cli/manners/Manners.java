package padward.cli.manners;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.util.List;
import padward.cli.form.Reports;
import padward.format.form.JsonText;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.RunLast;

/** The options that every command has. */
public final class Manners {
    private static final String QUIET = "--quiet";
    private static final String JSON = "--json";

    /** Commands that report nothing. */
    private static final List<String> WITHOUT_REPORT = List.of("help", "window");

    @Option(
            names = QUIET,
            description =
                    "Prints no answer, only faults: for scripts that need the exit status alone.")
    @SuppressWarnings("unused") // What was parsed says whether it was given.
    private boolean quiet;

    /** The option of commands that have no JSON of their own. */
    private static final class Lines {
        @Option(
                names = JSON,
                description = "Prints the lines of the report and the exit status as JSON.")
        @SuppressWarnings("unused") // What was parsed says whether it was given.
        private boolean json;
    }

    /** Gives all commands these options. */
    public static void install(CommandLine line) {
        line.getSubcommands()
                .forEach(
                        (name, command) -> {
                            command.addMixin("manners", new Manners());
                            boolean own = command.getCommandSpec().findOption(JSON) != null;
                            if (!own && !WITHOUT_REPORT.contains(name)) {
                                command.addMixin("lines", new Lines());
                            }
                        });
        line.setExecutionStrategy(Manners::run);
    }

    /** Whether a command, as it was called, prints nothing but faults. */
    static boolean areQuiet(CommandLine command) {
        ParseResult given = command.getParseResult();
        return given != null && given.hasMatchedOption(QUIET);
    }

    private static int run(ParseResult parsed) {
        if (!parsed.hasSubcommand()) {
            return new RunLast().execute(parsed);
        }
        ParseResult given = parsed.subcommand();
        CommandSpec spec = given.commandSpec();
        CommandLine command = spec.commandLine();
        boolean lines = spec.mixins().containsKey("lines") && given.hasMatchedOption(JSON);
        PrintWriter out = command.getOut();
        StringWriter text = new StringWriter();
        if (given.hasMatchedOption(QUIET)) {
            command.setOut(new PrintWriter(Writer.nullWriter()));
        } else if (lines) {
            command.setOut(new PrintWriter(text));
        }
        int status = new RunLast().execute(parsed);
        if (lines && !given.hasMatchedOption(QUIET)) {
            command.getOut().flush();
            Reports.Lines report =
                    new Reports.Lines(spec.name(), status, text.toString().lines().toList());
            out.println(JsonText.pretty(Reports.Lines.form(), report));
            out.flush();
        }
        return status;
    }
}
