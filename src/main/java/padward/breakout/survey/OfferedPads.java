package padward.breakout.survey;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * The pads on which nets are brought out without being asked to: not those that the package
 * connects to nothing, nor those that are for configuration, testing or a reference voltage.
 */
public final class OfferedPads {
    private OfferedPads() {}

    /** Indices of the pads that are offered. */
    public static List<Integer> of(Fabric fabric) {
        List<Pad> pads = fabric.pads();
        return IntStream.range(0, pads.size())
                .filter(i -> pads.get(i).use().isOffered())
                .boxed()
                .toList();
    }

    /** How many pads are left out for each reason, in words; empty when none is. */
    public static String leftOut(Fabric fabric) {
        Map<String, Long> counts =
                fabric.pads().stream()
                        .map(p -> p.use().whyNotOffered())
                        .filter(why -> !why.isEmpty())
                        .collect(
                                Collectors.groupingBy(
                                        why -> why, TreeMap::new, Collectors.counting()));
        return counts.entrySet().stream()
                .map(e -> e.getValue() + " " + e.getKey())
                .collect(Collectors.joining(", "));
    }
}
