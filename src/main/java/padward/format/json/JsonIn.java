package padward.format.json;

import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.FabricLimits;
import padward.fabric.delay.Delay;
import padward.format.source.BoundedText;
import padward.format.source.FileLimits;
import padward.format.source.IoFaults;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * Reads a stream of JSON (RFC 8259), each value checked as it is read; every surprise becomes a
 * {@link BadInput} with its place. Nothing of the file is stored but its common words, which are
 * shared. Belongs to one thread.
 */
public final class JsonIn implements AutoCloseable {
    /**
     * Limit of shared words: kinds and settings are few, and a strange file must not fill memory.
     */
    private static final int SHARED = 10_000;

    private final Source source;
    private final JsonReader reader;
    private final Map<String, String> shared = new HashMap<>();

    /** Opens a source; a byte order mark at its start is skipped. */
    public JsonIn(Source source, Progress progress) throws BadInput {
        this.source = source;
        this.reader = new JsonReader(new BoundedText(TextSource.open(source, progress)));
        reader.setStrictness(Strictness.STRICT);
        reader.setNestingLimit(FileLimits.NESTING);
    }

    /** A fault of the value just read. */
    public BadInput fault(String expected, String found) {
        return faultAt(reader.getPreviousPath(), expected, found);
    }

    /** A fault of the value that comes next, or of the member whose name was just read. */
    BadInput faultHere(String expected, String found) {
        return faultAt(reader.getPath(), expected, found);
    }

    /** A fault at a place noted before. */
    public BadInput faultAt(String place, String expected, String found) {
        return new BadInput(source.label(), place, expected, found);
    }

    /** The place of the value just read. */
    public String place() {
        return reader.getPreviousPath();
    }

    public JsonToken peek() throws BadInput {
        try {
            return reader.peek();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** Checks that a certain token comes next. */
    private void expect(JsonToken token, String what) throws BadInput {
        if (peek() != token) {
            // The place is noted first, as reading what is there moves past it.
            String place = reader.getPath();
            throw faultAt(place, what, nextAsText());
        }
    }

    private String nextAsText() throws BadInput {
        try {
            return switch (peek()) {
                case STRING -> "the text " + Text.quote(reader.nextString());
                case NUMBER -> "the number " + reader.nextString();
                case BOOLEAN -> Boolean.toString(reader.nextBoolean());
                case NULL -> "null";
                case BEGIN_ARRAY -> "an array";
                case BEGIN_OBJECT -> "an object";
                case END_ARRAY -> "the end of the array";
                default -> "the end";
            };
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    public void beginObject() throws BadInput {
        expect(JsonToken.BEGIN_OBJECT, "an object");
        run(reader::beginObject);
    }

    void endObject() throws BadInput {
        run(reader::endObject);
    }

    public void beginArray() throws BadInput {
        expect(JsonToken.BEGIN_ARRAY, "an array");
        run(reader::beginArray);
    }

    /** Closes an array; more elements than expected are a fault. */
    public void endArray() throws BadInput {
        expect(JsonToken.END_ARRAY, "the end of the array");
        run(reader::endArray);
    }

    public boolean more() throws BadInput {
        JsonToken token = peek();
        return token != JsonToken.END_ARRAY && token != JsonToken.END_OBJECT;
    }

    public String memberName() throws BadInput {
        try {
            return reader.nextName();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    public void skip() throws BadInput {
        run(reader::skipValue);
    }

    /** Checks that only white space is left. */
    void end() throws BadInput {
        if (peek() != JsonToken.END_DOCUMENT) {
            String place = reader.getPath();
            throw faultAt(place, "the end of the file", nextAsText());
        }
    }

    /** The text or number that comes next. */
    private String scalar() throws BadInput {
        try {
            return reader.nextString();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** The boolean that comes next. */
    private boolean truth() throws BadInput {
        try {
            return reader.nextBoolean();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private interface Step {
        void run() throws IOException;
    }

    private void run(Step step) throws BadInput {
        try {
            step.run();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** Opens an object. */
    public Members object(JsonShape shape) throws BadInput {
        beginObject();
        return new Members(this, shape);
    }

    /** A text of any kind. */
    public String text(int longest) throws BadInput {
        expect(JsonToken.STRING, "a text");
        String text = scalar();
        if (text.length() > longest) {
            throw fault("at most " + longest + " characters", text.length() + " characters");
        }
        return text;
    }

    /** A name: not empty, no control characters. */
    public String name() throws BadInput {
        String name = text(FabricLimits.NAME_LENGTH);
        if (name.isEmpty()) {
            throw fault("a name", "an empty text");
        }
        return plain(name);
    }

    /** A name that is common in the file, or an empty text; the same text is the same object. */
    public String word() throws BadInput {
        String word = plain(text(FabricLimits.NAME_LENGTH));
        String before = shared.get(word);
        if (before != null) {
            return before;
        }
        if (shared.size() < SHARED) {
            shared.put(word, word);
        }
        return word;
    }

    private String plain(String name) throws BadInput {
        if (!Text.isPrintable(name)) {
            throw fault("a name of printable characters", Text.quote(name));
        }
        return name;
    }

    public boolean flag() throws BadInput {
        expect(JsonToken.BOOLEAN, "true or false");
        return truth();
    }

    /** A whole number of a range, both ends included. */
    public int integer(int least, int greatest) throws BadInput {
        if (peek() != JsonToken.NUMBER) {
            expect(JsonToken.NUMBER, wholeNumber(least, greatest));
        }
        String text = scalar();
        try {
            long value = Long.parseLong(text);
            if (value >= least && value <= greatest) {
                return (int) value;
            }
        } catch (NumberFormatException e) {
            // has a fraction, an exponent or too many digits: reported below
        }
        throw fault(wholeNumber(least, greatest), Text.quote(text).replace("\"", ""));
    }

    /** Made only for a fault: a large file has hundreds of millions of numbers. */
    private static String wholeNumber(int least, int greatest) {
        return "a whole number from " + least + " to " + greatest;
    }

    /** A number of a range, both ends included. */
    public double real(double least, double greatest) throws BadInput {
        if (peek() != JsonToken.NUMBER) {
            expect(JsonToken.NUMBER, number(least, greatest));
        }
        String text = scalar();
        double value = Double.parseDouble(text);
        if (!(value >= least && value <= greatest)) {
            throw fault(number(least, greatest), text);
        }
        // A zero has no sign: -0 is the 0 that is written.
        return value + 0.0;
    }

    private static String number(double least, double greatest) {
        return String.format(Locale.ROOT, "a number from %.0f to %.0f", least, greatest);
    }

    /** {@code [fast, slow]} in picoseconds. */
    public Delay delay() throws BadInput {
        beginArray();
        Delay delay = delayInside();
        endArray();
        return delay;
    }

    /** The two numbers of a delay inside an array that is open. */
    public Delay delayInside() throws BadInput {
        int fast = integer(0, FabricLimits.EDGE_DELAY_PS);
        int slow = integer(0, FabricLimits.EDGE_DELAY_PS);
        if (fast > slow) {
            throw fault("a slow delay of at least the fast one, " + fast, "" + slow);
        }
        return new Delay(fast, slow);
    }

    /** One of a few words. */
    public <T> T oneOf(T[] values, Function<T, String> label) throws BadInput {
        String word = word();
        List<String> labels = new ArrayList<>();
        for (T value : values) {
            if (label.apply(value).equals(word)) {
                return value;
            }
            labels.add(label.apply(value));
        }
        throw fault("one of " + String.join(", ", labels), Nearest.describe(word, labels.stream()));
    }

    /** Throws the fault of what was read at a place, if there is one. */
    public void require(String place, Optional<DesignFault> fault) throws BadInput {
        if (fault.isPresent()) {
            throw faultAt(place, fault.get().expected(), fault.get().found());
        }
    }

    /** Throws the fault of the value just read, if there is one. */
    public void require(Optional<DesignFault> fault) throws BadInput {
        if (fault.isPresent()) {
            require(place(), fault);
        }
    }

    /** An object with texts under any names. */
    public Map<String, String> texts() throws BadInput {
        Map<String, String> texts = new LinkedHashMap<>();
        beginObject();
        while (more()) {
            String key = memberName();
            if (key.isEmpty() || key.length() > FabricLimits.NAME_LENGTH) {
                throw faultHere(
                        "a name of 1 to " + FabricLimits.NAME_LENGTH + " characters",
                        Text.quote(key));
            }
            if (texts.put(key, word()) != null) {
                throw fault("each name once", "a second " + Text.quote(key));
            }
        }
        endObject();
        return texts;
    }

    /** An array whose elements are all read in the same manner. */
    public <T> List<T> list(Element<T> element) throws BadInput {
        List<T> all = new ArrayList<>();
        beginArray();
        while (more()) {
            all.add(element.read(this));
        }
        endArray();
        return all;
    }

    /** How one element is read. */
    public interface Element<T> {
        T read(JsonIn in) throws BadInput;
    }

    @Override
    public void close() throws BadInput {
        run(reader::close);
    }
}
