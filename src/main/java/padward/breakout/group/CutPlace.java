package padward.breakout.group;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import padward.base.Listing;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.flow.FlowCut;

/**
 * Where a bottleneck lies, and who uses the other wires there. These are the wires in its tiles
 * that other nets use, and that one switch connects to where the limited nets get without passing
 * the bottleneck: to a wire of theirs, or a free one.
 *
 * @param tiles its tile, or the column or row that all its tiles lie in, or the tiles, in words;
 *     pads do not count
 * @param users those other nets, the one with the most such wires first
 */
record CutPlace(String tiles, List<Net> users) {
    private static final int MOST_NAMED = 6;

    /** Also stands for what is no wire. */
    private static final int NO_TILE = Fabric.NOTHING;

    /** Copies the list. */
    CutPlace {
        users = List.copyOf(users);
    }

    /**
     * The place of a bottleneck; empty when it consists of pads only, whose names say where it is.
     *
     * @param nets the limited nets
     */
    static Optional<CutPlace> of(Design design, List<Net> nets, FlowCut cut) {
        Fabric fabric = design.fabric();
        TreeSet<Integer> tiles = new TreeSet<>();
        for (int vertex : cut.vertices()) {
            if (fabric.kind(vertex) != VertexKind.PAD && fabric.tile(vertex) != Fabric.NOTHING) {
                tiles.add(fabric.tile(vertex));
            }
        }
        if (tiles.isEmpty()) {
            return Optional.empty();
        }
        List<Integer> columns = tiles.stream().map(fabric::column).distinct().toList();
        List<Integer> rows = tiles.stream().map(fabric::row).distinct().toList();
        boolean inColumn = tiles.size() > 1 && columns.size() == 1;
        boolean inRow = tiles.size() > 1 && rows.size() == 1;
        String words = "tile " + fabric.tileName(tiles.first());
        if (inColumn) {
            words = "tile column x" + columns.get(0);
        } else if (inRow) {
            words = "tile row y" + rows.get(0);
        } else if (tiles.size() > 1) {
            words = "tiles " + named(tiles.stream().map(fabric::tileName).toList());
        }
        Map<Net, Integer> wires = new HashMap<>();
        for (int vertex : cut.near().beside()) {
            int tile = fabric.kind(vertex) == VertexKind.WIRE ? fabric.tile(vertex) : NO_TILE;
            boolean there =
                    tile != NO_TILE
                            && (inColumn
                                    ? fabric.column(tile) == columns.get(0)
                                    : inRow
                                            ? fabric.row(tile) == rows.get(0)
                                            : tiles.contains(tile));
            int user = design.occupancy().occupantId(vertex);
            if (there && user != Fabric.NOTHING && !Occupant.isCell(user)) {
                wires.merge(design.nets().get(Occupant.netOf(user)), 1, Integer::sum);
            }
        }
        wires.keySet().removeAll(nets);
        Comparator<Net> order = Comparator.comparing(n -> -wires.get(n));
        return Optional.of(
                new CutPlace(
                        words,
                        wires.keySet().stream().sorted(order.thenComparing(Net::name)).toList()));
    }

    /** A list of which only the first are named. */
    static String named(List<String> names) {
        return Listing.first(names, MOST_NAMED);
    }
}
