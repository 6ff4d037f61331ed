package padward.ui.design;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import padward.design.Design;
import padward.design.PadNames;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/** What a name stands for, in a few words beside it in a list. */
public final class NameRemark {
    private NameRemark() {}

    /**
     * What a name on the map is: its sort and, of a pad, what else it is called; empty for what
     * nothing has. Sought in the order in which the map shows what has it. O(log names), and
     * O(pads) for a name that only a pad has, or a tile.
     */
    public static String of(OpenDesign opened, String name) {
        Design design = opened.design();
        Fabric fabric = design.fabric();
        if (design.findNet(name).isPresent()) {
            return "net";
        }
        if (design.findCell(name).isPresent()) {
            return "cell";
        }
        int vertex = fabric.findVertex(name);
        if (vertex != Fabric.NOTHING) {
            return switch (fabric.kind(vertex)) {
                case WIRE -> "wire";
                case PIN -> "pin of a site";
                case PAD -> joined("pad", ofPad(opened, name));
            };
        }
        if (fabric.findSite(name) != Fabric.NOTHING || !fabric.findParts(name).isEmpty()) {
            return "site";
        }
        if (!PadNames.find(design, name).isEmpty()) {
            return joined("pad", ofPad(opened, name));
        }
        return TileName.find(fabric, name).isPresent() ? "tile" : "";
    }

    private static String joined(String sort, String more) {
        return more.isEmpty() ? sort : sort + ": " + more;
    }

    /**
     * What else a pad is called: its pin, its place for a lead, its port; how many pads share the
     * name, if several do; empty where there is nothing to say. O(log pads) for a pad's own name,
     * else O(pads).
     */
    public static String ofPad(OpenDesign opened, String name) {
        Design design = opened.design();
        List<Pad> pads = design.fabric().pads();
        int vertex = design.fabric().findVertex(name);
        List<Integer> found =
                vertex == Fabric.NOTHING
                        ? PadNames.find(design, name)
                        : design.fabric().findPadAt(vertex).map(pads::indexOf).stream().toList();
        if (found.size() != 1) {
            return found.isEmpty() ? "" : found.size() + " pads";
        }
        int pad = found.get(0);
        return Stream.of(
                        pads.get(pad).packagePin(),
                        PadNames.placeOf(design, pad),
                        design.findPortOn(pad).map(p -> "port " + p.name()).orElse(""))
                .distinct()
                .filter(t -> !t.isEmpty() && !t.equals(name) && !t.equals("port " + name))
                .collect(Collectors.joining(", "));
    }
}
