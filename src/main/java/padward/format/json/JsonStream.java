package padward.format.json;

import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import java.io.IOException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.BoundedText;
import padward.format.source.FileLimits;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * The brackets of a stream of JSON (RFC 8259): opening it, walking through it, closing it. Every
 * surprise becomes a {@link BadInput} with its place. {@link JsonIn} adds the values.
 */
class JsonStream implements AutoCloseable {
    private final Source source;
    private final JsonReader reader;

    /** Opens the source; a byte order mark at its start is passed over. */
    JsonStream(Source source, Progress progress) throws BadInput {
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

    /** What is read. */
    Source source() {
        return source;
    }

    public JsonToken peek() throws BadInput {
        try {
            return reader.peek();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** That a token of that sort comes next. */
    final void expect(JsonToken token, String what) throws BadInput {
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

    /** That nothing but white space is left. */
    void end() throws BadInput {
        if (peek() != JsonToken.END_DOCUMENT) {
            String place = reader.getPath();
            throw faultAt(place, "the end of the file", nextAsText());
        }
    }

    /** The text or number that comes next. */
    final String scalar() throws BadInput {
        try {
            return reader.nextString();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    /** The boolean that comes next. */
    final boolean truth() throws BadInput {
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

    @Override
    public void close() throws BadInput {
        run(reader::close);
    }
}
