package padward.cli;

import java.util.Arrays;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.IHelpSectionRenderer;
import picocli.CommandLine.Model.CommandSpec;

/** The list of commands in the help, each with the first sentence of what it does. */
final class CommandList implements IHelpSectionRenderer {
    @Override
    public String render(Help help) {
        int width = help.commandSpec().usageMessage().width();
        int names = help.subcommands().keySet().stream().mapToInt(String::length).max().orElse(0);
        Help.TextTable table =
                Help.TextTable.forColumns(
                        help.colorScheme(),
                        new Help.Column(names + 4, 2, Help.Column.Overflow.SPAN),
                        new Help.Column(width - names - 4, 2, Help.Column.Overflow.WRAP));
        help.subcommands()
                .forEach((name, sub) -> table.addRowValues(name, firstSentence(sub.commandSpec())));
        return table.toString();
    }

    private static String firstSentence(CommandSpec command) {
        String text =
                Arrays.stream(command.usageMessage().description())
                        .collect(Collectors.joining(" "));
        int end = text.indexOf(". ");
        return end < 0 ? text : text.substring(0, end + 1);
    }

    /** Installs the list in a command line's help. */
    static void install(CommandLine line) {
        line.getHelpSectionMap()
                .put(
                        CommandLine.Model.UsageMessageSpec.SECTION_KEY_COMMAND_LIST,
                        new CommandList());
    }
}
