package padward.ui.model;

import java.util.Arrays;
import java.util.List;
import padward.base.BadInput;
import padward.breakout.group.GroupNames;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;

/** Reads the nets and pads of a group from its two text fields, where commas separate them. */
public final class GroupParser {
    private GroupParser() {}

    /**
     * The nets meant, each once.
     *
     * @param text names, or patterns with * and ?
     * @throws BadInput when there are none, or one matches no net
     */
    public static List<Net> nets(Design design, String text) throws BadInput {
        List<String> words = words(text);
        if (words.isEmpty()) {
            throw new BadInput("nets", "", "names of nets, or patterns that match some", "nothing");
        }
        return GroupNames.nets(design, words, "nets");
    }

    /**
     * The pads meant, each once.
     *
     * @param text {@code header NAME}, {@code bank NAME}, {@code any}, names, or patterns of them
     * @throws BadInput when there are none, or one means no pad
     */
    public static List<Integer> pads(Design design, String text) throws BadInput {
        return GroupNames.pads(
                design, words(text), (of, name) -> NameLookup.requirePad(of, name, "pads"), "pads");
    }

    private static List<String> words(String text) {
        return Arrays.stream(text.split(",")).map(String::strip).filter(w -> !w.isEmpty()).toList();
    }
}
