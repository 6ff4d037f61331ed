package padward.format.json;

import padward.base.BadInput;
import padward.format.source.Nearest;
import padward.format.source.Text;

/**
 * Walks over the members of one object; unknown, repeated and missing ones are faults.
 *
 * <pre>{@code
 * Members member = in.object(SHAPE);
 * while (member.next()) { switch (member.name()) { ... } }
 * }</pre>
 */
public final class Members {
    private final JsonIn in;
    private final JsonShape shape;
    private long seen;
    private String name = "";
    private int index = -1;

    Members(JsonIn in, JsonShape shape) {
        this.in = in;
        this.shape = shape;
    }

    /** Moves to the next member; after the last one the object is closed. */
    public boolean next() throws BadInput {
        if (!in.more()) {
            in.endObject();
            if (!shape.complete(seen)) {
                throw in.fault("member " + Text.quote(shape.firstMissing(seen)), "none");
            }
            return false;
        }
        name = in.memberName();
        // They are written in their order.
        index = shape.indexOf(name, index + 1);
        if (index < 0) {
            throw in.faultHere(
                    "one of " + String.join(", ", shape.names()),
                    "member " + Nearest.describe(name, shape.nameStream()));
        }
        if ((seen & 1L << index) != 0) {
            throw in.faultHere("each member once", "a second " + Text.quote(name));
        }
        seen |= 1L << index;
        return true;
    }

    /** Name of the member whose value comes next. */
    public String name() {
        return name;
    }

    /** Its number in the shape. */
    public int index() {
        return index;
    }
}
