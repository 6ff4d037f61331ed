package padward.format.json;

import com.google.gson.stream.JsonToken;
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
import padward.fabric.Delay;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The values of a stream of JSON, each checked as it is read. Nothing of the file is kept but the
 * common words, which are shared. Belongs to one thread.
 */
public final class JsonIn extends JsonStream {
    /**
     * Words shared at most; kinds and settings are few, and a strange file must not fill memory.
     */
    private static final int SHARED = 10_000;

    private final Map<String, String> shared = new HashMap<>();

    public JsonIn(Source source, Progress progress) throws BadInput {
        super(source, progress);
    }

    /** Opens an object. */
    public Members object(Shape shape) throws BadInput {
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
        String name = text(padward.fabric.FabricLimits.NAME_LENGTH);
        if (name.isEmpty()) {
            throw fault("a name", "an empty text");
        }
        return plain(name);
    }

    /** A name that is common in the file, or an empty text; the same text is the same object. */
    public String word() throws BadInput {
        String word = plain(text(padward.fabric.FabricLimits.NAME_LENGTH));
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
            // has a fraction, an exponent or too many digits: told below
        }
        throw fault(wholeNumber(least, greatest), Text.quote(text).replace("\"", ""));
    }

    /** Put into words for a fault only: a large file has hundreds of millions of numbers. */
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
        return value;
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
        int fast = integer(0, padward.fabric.FabricLimits.EDGE_DELAY_PS);
        int slow = integer(0, padward.fabric.FabricLimits.EDGE_DELAY_PS);
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

    /** That there is no trouble with what stood at a place. */
    public void require(String place, Optional<DesignFault> trouble) throws BadInput {
        if (trouble.isPresent()) {
            throw faultAt(place, trouble.get().expected(), trouble.get().found());
        }
    }

    /** An object of texts under free names. */
    public Map<String, String> texts() throws BadInput {
        Map<String, String> texts = new LinkedHashMap<>();
        beginObject();
        while (more()) {
            String key = memberName();
            if (key.isEmpty() || key.length() > padward.fabric.FabricLimits.NAME_LENGTH) {
                throw faultHere(
                        "a name of 1 to " + padward.fabric.FabricLimits.NAME_LENGTH + " characters",
                        Text.quote(key));
            }
            if (texts.put(key, word()) != null) {
                throw fault("each name once", "a second " + Text.quote(key));
            }
        }
        endObject();
        return texts;
    }

    /** An array of elements that are all alike. */
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
}
