package padward.format;

import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import java.io.BufferedInputStream;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.zip.GZIPInputStream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Delay;

/**
 * A stream of JSON (RFC 8259) in which every surprise becomes a {@link BadInput} with its place.
 * Nothing of the file is kept but the common words, which are shared. Belongs to one thread.
 */
final class JsonIn implements AutoCloseable {
    private static final int BUFFER = 1 << 16;

    /**
     * Words shared at most; kinds and settings are few, and a strange file must not fill memory.
     */
    private static final int SHARED = 10_000;

    private final Source source;
    private final JsonReader reader;
    private final Map<String, String> shared = new HashMap<>();

    /** Opens the source; a byte order mark at its start is passed over. */
    JsonIn(Source source, Progress progress) throws BadInput {
        this.source = source;
        InputStream raw = null;
        try {
            raw = new MeteredStream(source.open(), source, progress);
            InputStream plain =
                    source.zipped()
                            ? new GZIPInputStream(raw, BUFFER)
                            : new BufferedInputStream(raw, BUFFER);
            this.reader = new JsonReader(new BoundedText(utf8(plain)));
        } catch (IOException e) {
            closeQuietly(raw);
            throw IoFaults.describe(source, e);
        }
        reader.setStrictness(Strictness.STRICT);
        reader.setNestingLimit(Limits.NESTING);
    }

    private static Reader utf8(InputStream bytes) throws IOException {
        Reader text =
                new BufferedReader(
                        new InputStreamReader(
                                bytes,
                                StandardCharsets.UTF_8
                                        .newDecoder()
                                        .onMalformedInput(CodingErrorAction.REPORT)
                                        .onUnmappableCharacter(CodingErrorAction.REPORT)),
                        BUFFER);
        text.mark(1);
        if (text.read() != '\uFEFF') {
            text.reset();
        }
        return text;
    }

    private static void closeQuietly(InputStream stream) {
        try {
            if (stream != null) {
                stream.close();
            }
        } catch (IOException e) {
            // the fault that led here is the one to tell
        }
    }

    /** A fault of the value just read. */
    BadInput fault(String expected, String found) {
        return faultAt(reader.getPreviousPath(), expected, found);
    }

    /** A fault of the value that comes next, or of the member whose name was just read. */
    BadInput faultHere(String expected, String found) {
        return faultAt(reader.getPath(), expected, found);
    }

    /** A fault at a place noted before. */
    BadInput faultAt(String place, String expected, String found) {
        return new BadInput(source.label(), place, expected, found);
    }

    /** The place of the value just read. */
    String place() {
        return reader.getPreviousPath();
    }

    /** What is read. */
    Source source() {
        return source;
    }

    JsonToken peek() throws BadInput {
        try {
            return reader.peek();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private void expect(JsonToken token, String what) throws BadInput {
        if (peek() != token) {
            // The place is taken first: to read what stands there is to move past it.
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

    /** Opens an object. */
    Members object(Shape shape) throws BadInput {
        beginObject();
        return new Members(this, shape);
    }

    void beginObject() throws BadInput {
        expect(JsonToken.BEGIN_OBJECT, "an object");
        run(reader::beginObject);
    }

    void endObject() throws BadInput {
        run(reader::endObject);
    }

    void beginArray() throws BadInput {
        expect(JsonToken.BEGIN_ARRAY, "an array");
        run(reader::beginArray);
    }

    /** Closes an array; more elements than expected are a fault. */
    void endArray() throws BadInput {
        expect(JsonToken.END_ARRAY, "the end of the array");
        run(reader::endArray);
    }

    boolean more() throws BadInput {
        JsonToken token = peek();
        return token != JsonToken.END_ARRAY && token != JsonToken.END_OBJECT;
    }

    String memberName() throws BadInput {
        try {
            return reader.nextName();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    void skip() throws BadInput {
        run(reader::skipValue);
    }

    /** That nothing but white space is left. */
    void end() throws BadInput {
        if (peek() != JsonToken.END_DOCUMENT) {
            String place = reader.getPath();
            throw faultAt(place, "the end of the file", nextAsText());
        }
    }

    /** A text of any kind. */
    String text(int longest) throws BadInput {
        expect(JsonToken.STRING, "a text");
        try {
            String text = reader.nextString();
            if (text.length() > longest) {
                throw fault("at most " + longest + " characters", text.length() + " characters");
            }
            return text;
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** A name: not empty, no control characters. */
    String name() throws BadInput {
        String name = text(padward.fabric.Limits.NAME_LENGTH);
        if (name.isEmpty()) {
            throw fault("a name", "an empty text");
        }
        return plain(name);
    }

    /** A name that is common in the file, or an empty text; the same text is the same object. */
    String word() throws BadInput {
        String word = plain(text(padward.fabric.Limits.NAME_LENGTH));
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
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            boolean half = Character.isSurrogate(c) && !isPair(name, i);
            if (Character.isISOControl(c) || half) {
                throw fault("a name of printable characters", Text.quote(name));
            }
        }
        return name;
    }

    private static boolean isPair(String text, int at) {
        return Character.isHighSurrogate(text.charAt(at))
                ? at + 1 < text.length() && Character.isLowSurrogate(text.charAt(at + 1))
                : at > 0 && Character.isHighSurrogate(text.charAt(at - 1));
    }

    boolean flag() throws BadInput {
        expect(JsonToken.BOOLEAN, "true or false");
        try {
            return reader.nextBoolean();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** A whole number of a range, both ends included. */
    int integer(int least, int greatest) throws BadInput {
        String what = "a whole number from " + least + " to " + greatest;
        String text = number(what);
        try {
            long value = Long.parseLong(text);
            if (value >= least && value <= greatest) {
                return (int) value;
            }
        } catch (NumberFormatException e) {
            // has a fraction, an exponent or too many digits: told below
        }
        throw fault(what, Text.quote(text).replace("\"", ""));
    }

    /** A number of a range, both ends included. */
    double real(double least, double greatest) throws BadInput {
        String what = String.format(Locale.ROOT, "a number from %.0f to %.0f", least, greatest);
        String text = number(what);
        double value = Double.parseDouble(text);
        if (!(value >= least && value <= greatest)) {
            throw fault(what, text);
        }
        return value;
    }

    private String number(String what) throws BadInput {
        expect(JsonToken.NUMBER, what);
        try {
            return reader.nextString();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** {@code [fast, slow]} in picoseconds. */
    Delay delay() throws BadInput {
        beginArray();
        Delay delay = delayInside();
        endArray();
        return delay;
    }

    /** The two numbers of a delay inside an array that is open. */
    Delay delayInside() throws BadInput {
        int fast = integer(0, padward.fabric.Limits.EDGE_DELAY_PS);
        int slow = integer(0, padward.fabric.Limits.EDGE_DELAY_PS);
        if (fast > slow) {
            throw fault("a slow delay of at least the fast one, " + fast, "" + slow);
        }
        return new Delay(fast, slow);
    }

    /** One of a few words. */
    <T> T oneOf(T[] values, Function<T, String> label) throws BadInput {
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

    /** An array of elements that are all alike. */
    <T> List<T> list(Element<T> element) throws BadInput {
        List<T> all = new ArrayList<>();
        beginArray();
        while (more()) {
            all.add(element.read(this));
        }
        endArray();
        return all;
    }

    /** How one element is read. */
    interface Element<T> {
        T read(JsonIn in) throws BadInput;
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

    @Override
    public void close() throws BadInput {
        run(reader::close);
    }
}
