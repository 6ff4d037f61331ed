package padward.format.bareboard;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * Reads the nets of bare-board test data, IPC-D-356A. Each line is a record of at most 80 columns:
 * {@code C} comments, {@code P} parameters (with {@code NNAME} aliases of long names), {@code 999}
 * the end, and test records, whose code begins with 3 and ends with 7: net name in columns 4 to 17,
 * part in 21 to 26, a hyphen in 27, pin in 28 to 31. The columns are from memory of the standard,
 * not from its text. Other records describe conductors and outlines, and are passed over; so are
 * vias, tooling holes and pins without a net ({@code N/C}).
 */
public final class BareBoardReader {
    private static final int LONGEST = 1000;
    private static final int NET = 3;
    private static final int NET_END = 17;
    private static final int PART = 20;
    private static final int HYPHEN = 26;
    private static final int PIN_END = 31;

    private final Source source;
    private final Map<String, String> longNames = new HashMap<>();
    private final List<PartPin> pins = new ArrayList<>();
    private int number;

    private BareBoardReader(Source source) {
        this.source = source;
    }

    /**
     * Reads a file.
     *
     * @throws BadInput when it cannot be read or has a fault; says line and column
     */
    public static List<PartPin> read(Path file, Progress progress) throws BadInput {
        BareBoardReader reader = new BareBoardReader(Source.of(file));
        reader.readAll(progress);
        return reader.pins.stream()
                .map(
                        p ->
                                new PartPin(
                                        reader.longNames.getOrDefault(p.net(), p.net()),
                                        p.part(),
                                        p.pin()))
                .toList();
    }

    private void readAll(Progress progress) throws BadInput {
        boolean ended = false;
        try (BufferedReader text = new BufferedReader(TextSource.open(source, progress))) {
            for (String line = text.readLine(); line != null && !ended; line = text.readLine()) {
                number++;
                ended = readLine(line.stripTrailing());
            }
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
        if (!ended) {
            number++;
            throw fault(1, "the record 999 at the end", "the end of the file");
        }
    }

    /** Whether the line is the last one. */
    private boolean readLine(String line) throws BadInput {
        if (line.length() > LONGEST) {
            throw fault(LONGEST + 1, "a line of at most 80 columns", line.length() + " columns");
        }
        if (line.isEmpty() || line.startsWith("C")) {
            return false;
        }
        if (line.startsWith("P")) {
            readParameter(line);
            return false;
        }
        if (line.length() < NET || !line.substring(0, NET).chars().allMatch(Character::isDigit)) {
            throw fault(1, "a record: C, P or a code of three digits", Text.quote(first(line)));
        }
        String code = line.substring(0, NET);
        if (code.equals("999")) {
            return true;
        }
        if (code.startsWith("3") && code.endsWith("7") && !code.equals("367")) {
            readPin(line);
        }
        return false;
    }

    private static String first(String line) {
        return line.substring(0, Math.min(line.length(), NET));
    }

    private void readParameter(String line) throws BadInput {
        String[] words = line.trim().split("\\s+");
        if (words.length > 1 && words[1].startsWith("NNAME")) {
            if (words.length != 3) {
                throw fault(1, "an alias and the name that it stands for", Text.quote(line.trim()));
            }
            if (longNames.putIfAbsent(words[1], words[2]) != null) {
                throw fault(4, "each alias once", "a second " + Text.quote(words[1]));
            }
        }
    }

    private void readPin(String line) throws BadInput {
        for (int i = 0; i < line.length(); i++) {
            if (line.charAt(i) < ' ' || line.charAt(i) > '~') {
                throw fault(
                        i + 1, "a printable character of ASCII", Text.quote("" + line.charAt(i)));
            }
        }
        String net = columns(line, NET, NET_END);
        String part = columns(line, PART, HYPHEN);
        if (net.isEmpty()) {
            throw fault(NET + 1, "the name of a net in columns 4 to 17", "blanks");
        }
        if (part.isEmpty() || part.equals("VIA") || net.equals("N/C")) {
            return;
        }
        String pin = columns(line, HYPHEN + 1, PIN_END);
        if (line.length() <= HYPHEN || line.charAt(HYPHEN) != '-') {
            String found =
                    line.length() <= HYPHEN ? "the end of the line" : "" + line.charAt(HYPHEN);
            throw fault(HYPHEN + 1, "a hyphen between part and pin", Text.quote(found));
        }
        if (pin.isEmpty()) {
            throw fault(HYPHEN + 2, "a pin in columns 28 to 31", "blanks");
        }
        pins.add(new PartPin(net, part, pin));
    }

    private static String columns(String line, int from, int to) {
        return from >= line.length()
                ? ""
                : line.substring(from, Math.min(to, line.length())).trim();
    }

    private BadInput fault(int column, String expected, String found) {
        String place = "line " + number + " column " + column;
        return new BadInput(source.label(), place, expected, found);
    }
}
