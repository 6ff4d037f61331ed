package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import padward.base.Listing;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.search.SearchSources;

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

    /** After how many vertices it is asked whether to stop. */
    private static final int CHECK_EVERY = 256;

    /** Copies the list. */
    CutPlace {
        users = List.copyOf(users);
    }

    /**
     * The place of a bottleneck; empty when it consists of pads only, whose names say where it is.
     *
     * @param closed what no free route may enter
     * @param progress when it says so, no users are named
     */
    static Optional<CutPlace> of(
            Design design,
            List<Net> nets,
            List<Integer> vertices,
            BitSet closed,
            Progress progress) {
        Fabric fabric = design.fabric();
        TreeSet<Integer> tiles = new TreeSet<>();
        for (int vertex : vertices) {
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
        IntOpenHashSet used = usedBeside(design, nets, vertices, closed, progress);
        Map<Net, Integer> wires = new HashMap<>();
        for (int vertex : used) {
            int tile = fabric.tile(vertex);
            boolean there =
                    tile != Fabric.NOTHING
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

    /** The used wires that could be entered from where the nets get without passing the cut. */
    private static IntOpenHashSet usedBeside(
            Design design, List<Net> nets, List<Integer> cut, BitSet closed, Progress progress) {
        Fabric fabric = design.fabric();
        IntOpenHashSet seen = new IntOpenHashSet(cut);
        IntOpenHashSet used = new IntOpenHashSet();
        IntArrayList todo = new IntArrayList();
        for (Net net : nets) {
            SearchSources tree = SearchSources.along(fabric, net.route(), Corner.SLOW);
            for (int i = 0; i < tree.size(); i++) {
                if (seen.add(tree.vertex(i))) {
                    todo.add(tree.vertex(i));
                }
            }
        }
        EdgeCursor edges = fabric.edgesOut();
        int looked = 0;
        while (!todo.isEmpty()) {
            if (++looked % CHECK_EVERY == 0 && progress.cancelled()) {
                return new IntOpenHashSet();
            }
            edges.reset(todo.popInt());
            while (edges.next()) {
                int other = edges.other();
                if (closed.get(other)) {
                    if (fabric.kind(other) == VertexKind.WIRE) {
                        used.add(other);
                    }
                } else if (seen.add(other)) {
                    todo.add(other);
                }
            }
        }
        return used;
    }

    /** A list of which only the first are named. */
    static String named(List<String> names) {
        return Listing.first(names, MOST_NAMED);
    }
}
