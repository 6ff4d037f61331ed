package padward.ui.model;

import java.util.Arrays;
import java.util.List;
import padward.base.BadInput;
import padward.breakout.GroupNames;
import padward.design.Design;
import padward.design.Net;

/**
 * Reads which nets and pads a group has from what stands in its two fields, with commas between.
 */
public final class GroupText {
    private GroupText() {}

    /**
     * The nets meant, each once.
     *
     * @param text names, or patterns with * and ?
     * @throws BadInput when there are none, or one fits no net
     */
    public static List<Net> nets(Design design, String text) throws BadInput {
        List<String> words = words(text);
        if (words.isEmpty()) {
            throw new BadInput("nets", "", "names of nets, or patterns that fit some", "nothing");
        }
        try {
            return GroupNames.nets(design, words);
        } catch (BadInput fault) {
            throw inField("nets", fault);
        }
    }

    /**
     * The pads meant, each once.
     *
     * @param text {@code header NAME}, {@code bank NAME}, {@code any}, names, or patterns of such
     * @throws BadInput when there are none, or one means no pad
     */
    public static List<Integer> pads(Design design, String text) throws BadInput {
        try {
            return GroupNames.pads(design, words(text), QuestionText::pad);
        } catch (BadInput fault) {
            throw inField("pads", fault);
        }
    }

    private static List<String> words(String text) {
        return Arrays.stream(text.split(",")).map(String::strip).filter(w -> !w.isEmpty()).toList();
    }

    /** Here the texts come from fields, not from options of a command. */
    private static BadInput inField(String field, BadInput fault) {
        return new BadInput(field, fault.place(), fault.expected(), fault.found());
    }
}
