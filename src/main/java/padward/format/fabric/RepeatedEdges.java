package padward.format.fabric;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.EdgeKind;
import padward.fabric.explicit.ParallelEdges;
import padward.format.json.JsonIn;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Finds where edges are stated for the second time. That there are such edges is known only once
 * all are sorted, when their places in the file are forgotten; so whoever reads a file reads it
 * again, and asks here at each edge.
 */
public final class RepeatedEdges {
    private final Set<List<String>> repeated;
    private final Set<List<String>> seen = new HashSet<>();

    /**
     * @param repeated the edges that are stated more than once
     */
    public RepeatedEdges(List<ParallelEdges> repeated) {
        this.repeated =
                repeated.stream().map(e -> List.of(e.from(), e.to())).collect(Collectors.toSet());
    }

    /** Whether an edge is repeated and has been asked about before. O(1). */
    public boolean isSecond(String from, String to) {
        List<String> ends = List.of(from, to);
        return repeated.contains(ends) && !seen.add(ends);
    }

    /** The fault of the first place in a JSON file at which one of the edges is stated again. */
    static BadInput describe(Source source, Progress progress, List<ParallelEdges> repeated)
            throws BadInput {
        RepeatedEdges edges = new RepeatedEdges(repeated);
        for (ParallelEdges edge : repeated) {
            if (edge.kept() == EdgeKind.PASS_THROUGH) {
                edges.isSecond(edge.from(), edge.to()); // stated first at its site
            }
        }
        try (JsonIn in = new JsonIn(source, progress)) {
            in.beginObject();
            while (in.more()) {
                String part = in.memberName();
                if (!part.equals("switches") && !part.equals("connections")) {
                    in.skip();
                    continue;
                }
                in.beginArray();
                while (in.more()) {
                    if (edges.readsSecond(in)) {
                        return in.fault("one connection between two ends", "a second one");
                    }
                }
                in.endArray();
            }
        }
        ParallelEdges first = repeated.get(0);
        return new BadInput(
                source.label(),
                "",
                "one connection between two ends",
                "a second one from " + Text.quote(first.from()) + " to " + Text.quote(first.to()));
    }

    private boolean readsSecond(JsonIn in) throws BadInput {
        in.beginArray();
        String from = in.name();
        String to = in.name();
        in.delayInside();
        while (in.more()) {
            in.skip();
        }
        in.endArray();
        return isSecond(from, to);
    }
}
