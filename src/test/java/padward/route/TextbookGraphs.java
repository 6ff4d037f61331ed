package padward.route;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import padward.fabric.Delay;
import padward.fabric.EdgeKind;
import padward.fabric.ExplicitBuilder;
import padward.fabric.ExplicitFabric;
import padward.fabric.FabricInfo;

/** Textbook graphs written as fabrics: every vertex a wire in one tile, every edge a switch. */
public final class TextbookGraphs {
    private TextbookGraphs() {}

    /**
     * Edges as words {@code from>to weight}, separated by commas; {@code -} instead of {@code >}:
     * both ways.
     */
    public static ExplicitFabric of(String edges) {
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("textbook", "", List.of(), List.of(), List.of()), 1, 1);
        List<String[]> parsed =
                Arrays.stream(edges.split(",")).map(e -> e.trim().split("[>\\- ]")).toList();
        Set<String> names = new LinkedHashSet<>();
        parsed.forEach(e -> names.addAll(List.of(e[0], e[1])));
        names.forEach(n -> builder.addWire(n, 0, 0, "wire"));
        String[] raw = edges.split(",");
        for (int i = 0; i < raw.length; i++) {
            int weight = Integer.parseInt(parsed.get(i)[2]);
            int from = builder.findVertex(parsed.get(i)[0]);
            int to = builder.findVertex(parsed.get(i)[1]);
            builder.addEdge(from, to, EdgeKind.SWITCH, new Delay(weight, weight));
            if (raw[i].contains("-")) {
                builder.addEdge(to, from, EdgeKind.SWITCH, new Delay(weight, weight));
            }
        }
        return builder.build();
    }
}
