package padward.format.json;

import com.google.gson.stream.JsonToken;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The format and form that a file states.
 *
 * @param format its format, {@code padward-fabric/1}
 * @param form its form, {@code pattern} or {@code explicit}, {@code ""} when it states none
 */
public record FileHeader(String format, String form) {
    public static final String FABRIC = "padward-fabric/1";
    public static final String DESIGN = "padward-design/1";
    public static final String BOARD = "padward-board/1";
    public static final String LEDGER = "padward-ledger/1";
    public static final String MAPPING = "padward-mapping/1";
    public static final String LESSON = "padward-lesson/1";
    public static final String CHANGES = "padward-changes/1";
    public static final String LEARNER = "padward-learner/1";

    /** Reads only as far as needed; both are usually the first members. */
    public static FileHeader read(Source source) throws BadInput {
        String format = "";
        String form = "";
        try (JsonIn in = new JsonIn(source, Progress.NONE)) {
            in.beginObject();
            while (in.more() && (format.isEmpty() || needsForm(format, form))) {
                String name = in.memberName();
                if (name.equals("format") && in.peek() == JsonToken.STRING) {
                    format = in.name();
                } else if (name.equals("form") && in.peek() == JsonToken.STRING) {
                    form = in.name();
                } else {
                    in.skip();
                }
            }
            if (format.isEmpty()) {
                throw in.faultAt("$", "a member \"format\" with a text", "none");
            }
            if (FileKind.find(format).isEmpty()) {
                List<String> all = FileKind.formats();
                throw in.faultAt(
                        "$.format",
                        "one of " + String.join(", ", all),
                        Nearest.describe(format, all.stream()));
            }
        }
        return new FileHeader(format, form);
    }

    private static boolean needsForm(String format, String form) {
        return format.equals(FABRIC) && form.isEmpty();
    }

    /** Reads the header of a file that must have a certain format. */
    public static FileHeader expect(Source source, String format) throws BadInput {
        FileHeader head = read(source);
        if (!head.format.equals(format)) {
            throw new BadInput(
                    source.label(), "$.format", Text.quote(format), Text.quote(head.format));
        }
        return head;
    }
}
