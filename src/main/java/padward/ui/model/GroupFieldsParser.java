package padward.ui.model;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;
import padward.base.BadInput;
import padward.breakout.group.GroupNames;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.design.PadNames;

/** Reads the nets and pads of a group from its two text fields, where commas separate them. */
public final class GroupFieldsParser {
    private GroupFieldsParser() {}

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

    /**
     * The pads that a text in the question means: none for an empty text or an unknown name, one,
     * or any of several, such as those of a header or of a pattern.
     */
    public static List<Integer> anyOf(Design design, String text) {
        if (text.isBlank()) {
            return List.of();
        }
        if (NameLookup.pad(design, text) instanceof NameLookup.Match.Found<Integer> one) {
            return List.of(one.value());
        }
        for (String wanted : List.of(text, "header " + text)) {
            try {
                return pads(design, wanted);
            } catch (BadInput fault) {
                // It means something else, or nothing.
                continue;
            }
        }
        return severalOf(design, text);
    }

    /** Whether a text is the name of one pad, rather than of a group of one. */
    public static boolean isName(Design design, String text) {
        return NameLookup.pad(design, text) instanceof NameLookup.Match.Found<Integer>;
    }

    private static List<Integer> severalOf(Design design, String text) {
        return NameLookup.pad(design, text) instanceof NameLookup.Match.Several<Integer> several
                ? several.names().stream()
                        .map(n -> PadNames.findExact(design.fabric(), n))
                        .flatMapToInt(OptionalInt::stream)
                        .boxed()
                        .toList()
                : List.of();
    }

    private static List<String> words(String text) {
        return Arrays.stream(text.split(",")).map(String::strip).filter(w -> !w.isEmpty()).toList();
    }
}
