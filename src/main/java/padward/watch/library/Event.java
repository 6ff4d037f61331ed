package padward.watch.library;

import padward.base.BadInput;
import padward.watch.condition.Condition;
import padward.watch.condition.ConditionNetNames;
import padward.watch.condition.ConditionParser;

/**
 * A condition as it was written.
 *
 * @param text the text
 * @param condition what it means
 */
public record Event(String text, Condition condition) {
    /**
     * Reads one.
     *
     * @param source the option or field that it stands in
     * @throws BadInput when it is no condition, or names what is not there
     */
    public static Event of(String source, String text, ConditionNetNames names) throws BadInput {
        return new Event(text.strip(), ConditionParser.parse(source, text, names));
    }

    /** The condition in quotation marks. */
    String quoted() {
        return "“" + text + "”";
    }

    /** That it is true. */
    String isTrue() {
        return quoted() + " is true";
    }
}
