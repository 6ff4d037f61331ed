package padward.clearance;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.timing.EdgeFinder;

/** What one net holds: the vertices of its tree, and the pins of the sites that it goes through. */
final class HeldByNet {
    private static final int MIXED = -2;

    private final Design design;
    private final Net net;
    private final Int2IntOpenHashMap placeByVertex = new Int2IntOpenHashMap();
    private final boolean[] through;

    HeldByNet(Design design, Net net) {
        this.design = design;
        this.net = net;
        placeByVertex.defaultReturnValue(Fabric.NOTHING);
        RouteTree tree = net.route();
        through = new boolean[tree.size()];
        EdgeFinder finder = new EdgeFinder(design.fabric());
        for (int place = 0; place < tree.size(); place++) {
            placeByVertex.put(tree.vertex(place), place);
            through[place] =
                    place > 0
                            && design.fabric().siteOf(tree.vertex(place)) != Fabric.NOTHING
                            && finder.get(tree.vertex(tree.parent(place)), tree.vertex(place))
                                            .kind()
                                    == EdgeKind.THROUGH;
        }
    }

    /** The place of a vertex in the net's tree, or {@link Fabric#NOTHING}. */
    int placeOf(int vertex) {
        return placeByVertex.get(vertex);
    }

    /** Whether the tree reaches a place by way of a through-path. */
    boolean goesThroughInto(int place) {
        return through[place];
    }

    /** The places that the tree reaches by through-paths of one site. */
    IntArrayList throughPlaces(int site) {
        IntArrayList result = new IntArrayList();
        for (int place = 1; place < through.length; place++) {
            if (through[place] && design.fabric().siteOf(net.route().vertex(place)) == site) {
                result.add(place);
            }
        }
        return result;
    }

    /** All vertices that the net holds. */
    IntSet vertices() {
        IntSet result = new IntOpenHashSet(placeByVertex.keySet());
        for (int place = 1; place < through.length; place++) {
            if (through[place]) {
                SiteView site =
                        design.fabric().site(design.fabric().siteOf(net.route().vertex(place)));
                for (int pin = 0; pin < site.pins().size(); pin++) {
                    int vertex = site.firstPin() + pin;
                    if (design.occupancy().occupantId(vertex) == net.id()) {
                        result.add(vertex);
                    }
                }
            }
        }
        return result;
    }

    /**
     * For each place, the one cell that everything below it serves, {@link Fabric#NOTHING} for
     * none: when that cell leaves, the place is given back. Follows {@link
     * padward.design.Branches}.
     *
     * @param without what a port that gives up its pad lets go; counted as gone already
     */
    int[] soleCells(Optional<LetGo> without) {
        RouteTree tree = net.route();
        int[] sole = new int[tree.size()];
        java.util.Arrays.fill(sole, Fabric.NOTHING);
        boolean[] gone = new boolean[tree.size()];
        without.filter(l -> l.net().id() == net.id())
                .ifPresent(
                        l ->
                                l.vertices().stream()
                                        .map(v -> placeOf(v))
                                        .filter(p -> p >= 0)
                                        .forEach(p -> gone[p] = true));
        for (Terminal sink : net.sinks()) {
            int place = placeOf(design.vertexOf(sink));
            boolean letGo =
                    without.isPresent()
                            && sink instanceof Terminal.PortEnd end
                            && end.port() == without.get().port().id();
            if (place >= 0 && !letGo) {
                sole[place] =
                        sink instanceof Terminal.CellPin at
                                ? joined(sole[place], at.cell())
                                : MIXED;
            }
        }
        boolean[] hasChild = new boolean[tree.size()];
        for (int place = tree.size() - 1; place > 0; place--) {
            if (gone[place]) {
                continue;
            }
            if (!hasChild[place] && sole[place] == Fabric.NOTHING) {
                sole[place] = MIXED;
            }
            int parent = tree.parent(place);
            hasChild[parent] = true;
            sole[parent] = joined(sole[parent], sole[place]);
        }
        for (int place = 0; place < sole.length; place++) {
            sole[place] = place == 0 || sole[place] == MIXED ? Fabric.NOTHING : sole[place];
        }
        return sole;
    }

    private static int joined(int one, int other) {
        if (one == Fabric.NOTHING || one == other) {
            return other;
        }
        return other == Fabric.NOTHING ? one : MIXED;
    }
}
