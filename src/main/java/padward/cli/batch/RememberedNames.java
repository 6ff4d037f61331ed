package padward.cli.batch;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.breakout.group.GroupNames;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;

/**
 * The nets and pads that questions name, each name looked up once as long as it is among the last
 * few thousand: a look-up of a pad goes through all pads.
 */
final class RememberedNames {
    private static final int REMEMBERED = 4096;

    private final Design design;
    private final Map<String, List<Net>> nets = new Recent<>();
    private final Map<String, List<Integer>> pads = new Recent<>();

    RememberedNames(Design design) {
        this.design = design;
    }

    Design design() {
        return design;
    }

    /** The one net of a name, or all that a pattern means. */
    List<Net> nets(String text) throws BadInput {
        List<Net> known = nets.get(text);
        if (known == null) {
            known =
                    isPattern(text)
                            ? GroupNames.nets(design, List.of(text), "net")
                            : List.of(NameLookup.requireNet(design, text, "net"));
            nets.put(text, known);
        }
        return known;
    }

    /** The one pad of a name, or all that a pattern, a header or a bank means. */
    List<Integer> pads(String text) throws BadInput {
        List<Integer> known = pads.get(text);
        if (known == null) {
            known =
                    GroupNames.pads(
                            design,
                            List.of(text),
                            (of, name) -> NameLookup.requirePad(of, name, "pad"),
                            "pad");
            pads.put(text, known);
        }
        return known;
    }

    private static boolean isPattern(String text) {
        return text.contains("*") || text.contains("?");
    }

    /** What was used last. */
    private static final class Recent<V> extends LinkedHashMap<String, V> {
        private static final long serialVersionUID = 1;

        Recent() {
            super(16, 0.75f, true);
        }

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, V> eldest) {
            return size() > REMEMBERED;
        }
    }
}
