package padward.hostile;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import padward.base.BadInput;
import padward.cli.Padward;
import padward.cli.output.ExitStatus;
import picocli.CommandLine;

/**
 * Hostile command lines, one word a line. Only commands that write nothing are run, whatever the
 * words.
 */
final class CommandLines {
    private static final List<String> COMMANDS =
            List.of("ask", "survey", "check", "nets", "pads", "pins", "diff", "ask-all");

    private CommandLines() {}

    /** More would be read only one after the other: a thousand files of {@code check}, say. */
    private static final int MOST_WORDS = 200;

    /** The command line, with nothing printed. */
    static CommandLine quiet() {
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(Writer.nullWriter()));
        line.setErr(new PrintWriter(Writer.nullWriter()));
        return line;
    }

    /** Runs the words of a file; an internal error is a failure of the test. */
    static void run(byte[] words, World world) throws BadInput {
        List<String> all =
                new String(words, StandardCharsets.UTF_8)
                        .lines()
                        .limit(MOST_WORDS)
                        .map(w -> w.replace("DESIGN", world.file("only.design.json").toString()))
                        .map(w -> w.replace("FABRIC", world.file("only.fabric.json").toString()))
                        .map(w -> w.replace("QUESTIONS", world.file("questions.csv").toString()))
                        .toList();
        if (all.isEmpty() || !COMMANDS.contains(all.get(0))) {
            throw new BadInput("words", "", "a command that only reads", "another");
        }
        StringWriter err = new StringWriter();
        CommandLine line = quiet();
        line.setErr(new PrintWriter(err));
        int code = Padward.execute(line, all.toArray(String[]::new));
        if (code == ExitStatus.FAILED) {
            throw new AssertionError(err.toString());
        }
        if (code == ExitStatus.BAD_INPUT) {
            throw new BadInput("words", "", "words that fit", err.toString());
        }
    }
}
