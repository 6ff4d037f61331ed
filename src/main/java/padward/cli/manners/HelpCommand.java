package padward.cli.manners;

import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.cli.output.ExitStatus;
import padward.format.source.Nearest;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code help}: the help of the program or of a command. */
@Command(
        name = "help",
        mixinStandardHelpOptions = true,
        description = "Shows what a command does and its options, as --help after it does.",
        footer = {"", "Example:", "  padward help ask"})
public final class HelpCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(arity = "0..1", paramLabel = "COMMAND", description = "The command.")
    private String name;

    @Override
    public Integer call() throws BadInput {
        CommandLine program = spec.commandLine().getParent();
        CommandLine command = name == null ? program : program.getSubcommands().get(name);
        if (command == null) {
            throw new BadInput(
                    "help",
                    "",
                    "the name of a command",
                    Nearest.describe(name, program.getSubcommands().keySet().stream()));
        }
        command.usage(spec.commandLine().getOut());
        spec.commandLine().getOut().flush();
        return ExitStatus.DONE;
    }
}
