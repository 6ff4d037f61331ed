package padward.format.fabric;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.EdgeKind;
import padward.fabric.explicit.RepeatedEdge;
import padward.format.json.JsonIn;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Finds where a file states an edge for the second time. That there is such an edge shows only once
 * all are sorted, when their places are forgotten; so the file is read again.
 */
final class RepeatedEdges {
    private RepeatedEdges() {}

    /** The fault of the first place at which one of these edges is stated again. */
    static BadInput describe(Source source, Progress progress, List<RepeatedEdge> repeated)
            throws BadInput {
        Set<List<String>> doubled = new HashSet<>();
        Set<List<String>> seen = new HashSet<>();
        for (RepeatedEdge edge : repeated) {
            doubled.add(List.of(edge.from(), edge.to()));
            if (edge.kept() == EdgeKind.PASS_THROUGH) {
                seen.add(List.of(edge.from(), edge.to()));
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
                    List<String> ends = readEnds(in);
                    if (doubled.contains(ends) && !seen.add(ends)) {
                        return in.fault("one connection between two ends", "a second one");
                    }
                }
                in.endArray();
            }
        }
        RepeatedEdge first = repeated.get(0);
        return new BadInput(
                source.label(),
                "",
                "one connection between two ends",
                "a second one from " + Text.quote(first.from()) + " to " + Text.quote(first.to()));
    }

    private static List<String> readEnds(JsonIn in) throws BadInput {
        in.beginArray();
        String from = in.name();
        String to = in.name();
        in.delayInside();
        in.endArray();
        return List.of(from, to);
    }
}
