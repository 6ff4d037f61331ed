package padward.ui.model;

import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.PadNames;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.ui.design.TileName;

/**
 * Something of the open design that a text names.
 *
 * @param kind what it is
 * @param name its name, by which the map finds it
 */
public record NamedThing(Kind kind, String name) {
    /** Kinds of things, each with its word. */
    public enum Kind {
        NET("net"),
        CELL("cell"),
        PAD("pad"),
        SITE("site"),
        WIRE("wire"),
        TILE("tile");

        private final String word;

        Kind(String word) {
            this.word = word;
        }

        /** The word on screen. */
        public String word() {
            return word;
        }
    }

    /**
     * Words before a name of letters or digits alone; without one, such a name is taken for a word
     * or a number.
     */
    private static final List<String> BEFORE =
            List.of("net", "nets", "clock", "cell", "port", "pin", "pad", "wire", "site", "from");

    /**
     * What a word of a text names.
     *
     * @param before the word before it, in lower case; it tells a pin E2 from a wire E2
     */
    public static Optional<NamedThing> find(Design design, String before, String word) {
        if (word.isEmpty() || isPlainWord(word) && !BEFORE.contains(before)) {
            return Optional.empty();
        }
        boolean padFirst = before.equals("pin") || before.equals("pad") || before.equals("port");
        if (padFirst) {
            Optional<NamedThing> pad = findPad(design, word);
            if (pad.isPresent()) {
                return pad;
            }
        }
        if (design.findNet(word).isPresent()) {
            return Optional.of(new NamedThing(Kind.NET, word));
        }
        if (design.findCell(word).isPresent()) {
            return Optional.of(new NamedThing(Kind.CELL, word));
        }
        Fabric fabric = design.fabric();
        int vertex = fabric.findVertex(word);
        if (vertex != Fabric.NOTHING) {
            return Optional.of(new NamedThing(kind(fabric.kind(vertex)), word));
        }
        if (fabric.findSite(word) != Fabric.NOTHING) {
            return Optional.of(new NamedThing(Kind.SITE, word));
        }
        // Last, because it looks at all pads.
        return findPad(design, word)
                .or(() -> cellOfPin(design, word))
                .or(
                        () ->
                                TileName.find(fabric, word).isEmpty()
                                        ? Optional.empty()
                                        : Optional.of(new NamedThing(Kind.TILE, word)));
    }

    /** A pin of a cell, as in {@code pump/level/hi_sync.in[0]}, stands for its cell. */
    private static Optional<NamedThing> cellOfPin(Design design, String word) {
        int dot = word.lastIndexOf('.');
        return dot > 0 && design.findCell(word.substring(0, dot)).isPresent()
                ? Optional.of(new NamedThing(Kind.CELL, word.substring(0, dot)))
                : Optional.empty();
    }

    /** By its full name where something else has the same: the map looks for nets first. */
    private static Optional<NamedThing> findPad(Design design, String word) {
        List<Integer> pads = PadNames.find(design, word);
        if (pads.size() != 1) {
            return Optional.empty();
        }
        String full = design.fabric().pads().get(pads.get(0)).name();
        return Optional.of(new NamedThing(Kind.PAD, namesMore(design, word) ? full : word));
    }

    private static boolean namesMore(Design design, String word) {
        return design.findNet(word).isPresent()
                || design.findCell(word).isPresent()
                || design.fabric().findVertex(word) != Fabric.NOTHING
                || design.fabric().findSite(word) != Fabric.NOTHING;
    }

    private static Kind kind(VertexKind vertex) {
        return switch (vertex) {
            case WIRE -> Kind.WIRE;
            case PIN -> Kind.SITE;
            case PAD -> Kind.PAD;
        };
    }

    private static boolean isPlainWord(String word) {
        return word.chars().allMatch(Character::isLetter)
                || word.chars().allMatch(Character::isDigit);
    }
}
