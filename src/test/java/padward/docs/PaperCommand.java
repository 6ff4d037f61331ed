package padward.docs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.cli.Padward;
import picocli.CommandLine;

/**
 * A command as a page or a command's help shows it.
 *
 * @param source the page, or the command whose help it is
 * @param text as it stands there, on one line
 */
record PaperCommand(String source, String text) {
    private static final List<String> STARTS = List.of("java -jar target/padward.jar ", "padward ");

    /** The words after the program's name, as a POSIX shell would part them. */
    List<String> words() {
        String rest = text;
        for (String start : STARTS) {
            if (rest.startsWith(start)) {
                rest = rest.substring(start.length());
            }
        }
        List<String> words = new ArrayList<>();
        StringBuilder word = new StringBuilder();
        boolean quoted = false;
        for (char c : (rest + " ").toCharArray()) {
            if (c == '\'') {
                quoted = !quoted;
            } else if (c == '#' && word.isEmpty() && !quoted) {
                return words;
            } else if (c != ' ' || quoted) {
                word.append(c);
            } else if (!word.isEmpty()) {
                words.add(word.toString());
                word.setLength(0);
            }
        }
        return words;
    }

    /** The same with other names of files in it. */
    PaperCommand with(String name, String instead) {
        return new PaperCommand(source, text.replace(name, instead));
    }

    /** The commands in a page's blocks of code. */
    static List<PaperCommand> ofPage(Path page) throws IOException {
        StringBuilder blocks = new StringBuilder();
        boolean inside = false;
        for (String line : Files.readAllLines(page)) {
            if (line.startsWith("```")) {
                inside = !inside;
            } else if (inside) {
                blocks.append(line).append('\n');
            }
        }
        return of(page.toString(), blocks.toString());
    }

    /** The examples in the help of every command, in the order of the list of commands. */
    static List<PaperCommand> ofHelp() {
        List<PaperCommand> all = new ArrayList<>();
        CommandLine program = Padward.commandLine();
        all.addAll(of("padward --help", footer(program)));
        program.getSubcommands().forEach((name, line) -> all.addAll(of(name, footer(line))));
        return all;
    }

    static String footer(CommandLine line) {
        return String.join("\n", line.getCommandSpec().usageMessage().footer());
    }

    private static List<PaperCommand> of(String source, String lines) {
        return lines.replaceAll("\\\\\n *", "")
                .lines()
                .map(String::strip)
                .filter(line -> STARTS.stream().anyMatch(line::startsWith))
                .map(line -> new PaperCommand(source, line))
                .toList();
    }
}
