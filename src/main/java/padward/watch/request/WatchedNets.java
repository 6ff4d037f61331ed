package padward.watch.request;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import padward.base.BadInput;
import padward.breakout.group.GroupNames;
import padward.design.Design;
import padward.design.Glob;
import padward.design.Net;
import padward.watch.condition.ConditionNetNames;
import padward.watch.condition.ConditionParser;

/** The nets that a circuit observes, by names as conditions have them, or by patterns. */
public final class WatchedNets {
    private WatchedNets() {}

    /**
     * The full names of the nets, each once; the bits of a vector in ascending order.
     *
     * @param texts names of nets and vectors, bits of vectors ({@code count[7:4]}), or patterns
     *     with * and ?; of names and patterns the last parts are enough
     * @param source the option or field that they stand in
     * @throws BadInput when one names none, or several without being a pattern
     */
    public static List<String> of(Design design, List<String> texts, String source)
            throws BadInput {
        Set<String> result = new LinkedHashSet<>();
        ConditionNetNames names = ConditionNetNames.of(design);
        for (String text : texts) {
            boolean pattern = text.contains("*") || text.contains("?");
            if (pattern && !names.isNet(text)) {
                GroupNames.nets(design, List.of(whole(design, text)), source).stream()
                        .map(Net::name)
                        .forEach(result::add);
            } else {
                result.addAll(ConditionParser.nets(source, text, names));
            }
        }
        return List.copyOf(result);
    }

    /** A pattern of last parts, where no whole name fits it. */
    private static String whole(Design design, String pattern) {
        Glob glob = Glob.of(pattern);
        boolean fits = design.nets().stream().anyMatch(n -> glob.matches(n.name()));
        Glob ends = Glob.of("*/" + pattern);
        boolean endsFit = !fits && design.nets().stream().anyMatch(n -> ends.matches(n.name()));
        return endsFit ? "*/" + pattern : pattern;
    }
}
