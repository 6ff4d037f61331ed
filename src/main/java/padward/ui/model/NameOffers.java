package padward.ui.model;

import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.NameLookup.Match;
import padward.design.Net;

/**
 * What to do next about a name in a question that does not mean one thing: names to choose from, in
 * place of an error.
 *
 * @param forPad whether it is about the pad; else about the net
 * @param sentence what is the matter, and what to do
 * @param names names to choose from; may be empty
 * @param group the text that means all of several nets, for a group; empty where that is not
 *     possible
 */
public record NameOffers(
        boolean forPad, String sentence, List<String> names, Optional<String> group) {
    /** As many as can be read at a glance. */
    private static final int MOST = 8;

    /** Copies the names. */
    public NameOffers {
        names = List.copyOf(names);
    }

    /**
     * What a text for a net means.
     *
     * @param name the full name, or the text itself where it means no one net
     * @param offers what is offered instead; empty when both texts mean one thing
     */
    record NamedNet(String name, Optional<NameOffers> offers) {
        /** Looks at all names. O(nets). */
        static NamedNet find(Design design, String net, String pad) {
            return new NamedNet(
                    NameLookup.net(design, net) instanceof Match.Found<Net> found
                            ? found.value().name()
                            : net,
                    NameOffers.find(design, net, pad));
        }
    }

    /** The offers for the texts of a question; empty when both mean one thing. */
    static Optional<NameOffers> find(Design design, String net, String pad) {
        if (net.isEmpty() && GroupFieldsParser.anyOf(design, pad).size() == 1) {
            return Optional.empty();
        }
        Optional<NameOffers> forNet = forNet(design, net);
        return forNet.isPresent() ? forNet : forPad(design, pad);
    }

    private static Optional<NameOffers> forNet(Design design, String text) {
        if (text.isEmpty()) {
            return Optional.of(
                    new NameOffers(
                            false,
                            "Which net? Type its name, or choose one under Nets.",
                            List.of(),
                            Optional.empty()));
        }
        Match<?> match = NameLookup.net(design, text);
        if (match instanceof Match.Several<?> several) {
            return Optional.of(
                    new NameOffers(
                            false,
                            matches(text, several.names(), "nets")
                                    + " Choose one, or bring them out as a group.",
                            first(several.names()),
                            Optional.of(text)));
        }
        return match instanceof Match.None<?> none
                ? Optional.of(
                        new NameOffers(
                                false,
                                "No net is called “"
                                        + text
                                        + "”. "
                                        + (none.nearest().isEmpty()
                                                ? "Nets lists them all."
                                                : "Did you mean one of these?"),
                                none.nearest(),
                                Optional.empty()))
                : Optional.empty();
    }

    private static Optional<NameOffers> forPad(Design design, String text) {
        if (text.isEmpty() || !GroupFieldsParser.anyOf(design, text).isEmpty()) {
            return Optional.empty();
        }
        List<String> nearest =
                NameLookup.pad(design, text) instanceof Match.None<?> none
                        ? none.nearest()
                        : List.of();
        return Optional.of(
                new NameOffers(
                        true,
                        "No pad, package pin, port or header pin is called “"
                                + text
                                + "”. "
                                + (nearest.isEmpty()
                                        ? "With the field empty, all pads are listed."
                                        : "Did you mean one of these?"),
                        nearest,
                        Optional.empty()));
    }

    private static String matches(String text, List<String> names, String what) {
        return "“" + text + "” matches " + names.size() + " " + what + ".";
    }

    private static List<String> first(List<String> names) {
        return names.subList(0, Math.min(MOST, names.size()));
    }
}
