package padward.docs;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.cli.Padward;
import picocli.CommandLine;

/**
 * Runs commands one after the other in one process, in the folder that it is started in. Uses
 * nothing but the program, so that what the program lacks is missed.
 */
public final class CommandReplay {
    /** Separates the words of a command, and the parts of its report. */
    static final String BETWEEN = "\u001f";

    private CommandReplay() {}

    /** The file of commands, one a line, and the one to which a line for each is written. */
    public static void main(String[] args) throws IOException {
        List<String> told = new ArrayList<>();
        for (String line : Files.readAllLines(Path.of(args[0]))) {
            StringWriter out = new StringWriter();
            StringWriter err = new StringWriter();
            CommandLine program = Padward.commandLine();
            program.setOut(new PrintWriter(out));
            program.setErr(new PrintWriter(err));
            int status = program.execute(line.split(BETWEEN));
            told.add(status + BETWEEN + oneLine(out) + BETWEEN + oneLine(err));
        }
        Files.write(Path.of(args[1]), told);
        System.exit(0);
    }

    private static String oneLine(StringWriter text) {
        return text.toString().replace("\n", "\\n").replace("\r", "");
    }
}
