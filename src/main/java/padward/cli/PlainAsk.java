package padward.cli;

import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import padward.cli.command.AskCommand;
import padward.cli.manners.ConsoleProgress;
import padward.cli.manners.Terminal;

/**
 * The call that scripts make most often: {@code ask} with a design, a net and a pad, and at most
 * {@code --json} and {@code --quiet} besides. Its words are read here, because building the whole
 * command line takes longer than the answer. Words of any other kind are left to the whole command
 * line, which means the same by these.
 *
 * @param design the design's file
 * @param net name of the net
 * @param pad name of the pad
 * @param json whether the answer is printed as JSON
 * @param quiet whether nothing is printed but faults
 */
public record PlainAsk(String design, String net, String pad, boolean json, boolean quiet) {
    /**
     * Answers the call that these words make.
     *
     * @return the exit status; empty if the words are of another kind
     */
    public static OptionalInt answer(String[] words) {
        Optional<PlainAsk> plain = find(words, System.getenv());
        return plain.isPresent() ? plain.get().run() : OptionalInt.empty();
    }

    /**
     * The call that these words make; empty if they are of another kind.
     *
     * @param environment the environment, in which a table of other names may be named
     */
    static Optional<PlainAsk> find(String[] words, Map<String, String> environment) {
        if (words.length == 0
                || !words[0].equals("ask")
                || environment.containsKey("PADWARD_NAMES")) {
            return Optional.empty();
        }
        String design = "";
        String net = "";
        String pad = "";
        boolean json = false;
        boolean quiet = false;
        int at = 1;
        while (at < words.length) {
            String name = words[at];
            if (name.equals("--json") && !json) {
                json = true;
                at++;
                continue;
            }
            if (name.equals("--quiet") && !quiet) {
                quiet = true;
                at++;
                continue;
            }
            String value = at + 1 < words.length ? words[at + 1] : "";
            if (value.isEmpty() || value.startsWith("-")) {
                return Optional.empty();
            }
            if ((name.equals("--design") || name.equals("-d")) && design.isEmpty()) {
                design = value;
            } else if ((name.equals("--net") || name.equals("-n")) && net.isEmpty()) {
                net = value;
            } else if ((name.equals("--pad") || name.equals("-p")) && pad.isEmpty()) {
                pad = value;
            } else {
                return Optional.empty();
            }
            at += 2;
        }
        return design.isEmpty() || net.isEmpty() || pad.isEmpty()
                ? Optional.empty()
                : Optional.of(new PlainAsk(design, net, pad, json, quiet));
    }

    /** Answers, on the process's own streams; the exit status. Empty if the file has no name. */
    private OptionalInt run() {
        Path file;
        try {
            file = Path.of(design);
        } catch (InvalidPathException strange) {
            return OptionalInt.empty();
        }
        OptionalInt width = Terminal.width();
        PrintWriter out =
                quiet
                        ? new PrintWriter(Writer.nullWriter())
                        : TextStreams.writer(System.out, json ? OptionalInt.empty() : width);
        PrintWriter err = TextStreams.writer(System.err, width);
        return OptionalInt.of(Faults.guarded(command(file, out, err), design, err));
    }

    /** The command with the values that these words give its options. */
    AskCommand command(Path file, PrintWriter out, PrintWriter err) {
        return AskCommand.plain(file, net, pad, json, out, ConsoleProgress.of(err, quiet));
    }
}
