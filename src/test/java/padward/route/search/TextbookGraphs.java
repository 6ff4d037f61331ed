package padward.route.search;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.fabric.EdgeKind;
import padward.fabric.FabricInfo;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.explicit.ExplicitFabric;

/** Textbook graphs written as fabrics: every vertex a wire in one tile, every edge a switch. */
public final class TextbookGraphs {
    /** Cormen, Leiserson, Rivest, Stein, 3rd ed., Fig. 24.6. */
    public static final String CLRS_24_6 =
            "s>t 10, s>y 5, t>x 1, t>y 2, y>t 3, y>x 9, y>z 2, x>z 4, z>x 6, z>s 7";

    /** Russell and Norvig, 3rd ed., Fig. 3.2, the part of the map around Arad and Bucharest; km. */
    public static final String ROADS =
            "Arad-Zerind 75, Arad-Sibiu 140, Arad-Timisoara 118, Zerind-Oradea 71, Oradea-Sibiu"
                    + " 151, Sibiu-Fagaras 99, Sibiu-Rimnicu 80, Rimnicu-Pitesti 97, Rimnicu-Craiova"
                    + " 146, Fagaras-Bucharest 211, Pitesti-Bucharest 101, Pitesti-Craiova 138";

    /** Its straight-line distances to Bucharest, Fig. 3.22; km. */
    public static final Map<String, Integer> STRAIGHT_LINES =
            Map.of(
                    "Arad",
                    366,
                    "Zerind",
                    374,
                    "Timisoara",
                    329,
                    "Oradea",
                    380,
                    "Sibiu",
                    253,
                    "Fagaras",
                    176,
                    "Rimnicu",
                    193,
                    "Pitesti",
                    100,
                    "Craiova",
                    160,
                    "Bucharest",
                    0);

    private TextbookGraphs() {}

    /**
     * Edges as words {@code from>to weight}, separated by commas; {@code -} instead of {@code >}:
     * both directions.
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
