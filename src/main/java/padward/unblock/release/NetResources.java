package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Arrays;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.timing.EdgeFinder;

/** What one net uses: the vertices of its tree, and the pins of the sites that it goes through. */
public final class NetResources {
    /** Stands, itself and no copy of it, for a place that serves more than cells. */
    static final int[] OTHERS = {};

    /** Stands, itself and no copy of it, for a place that serves more cells than are asked for. */
    static final int[] MANY = new int[0];

    private static final int[] NO_CELLS = {};

    private final Design design;
    private final Net net;
    private final Int2IntOpenHashMap placeByVertex = new Int2IntOpenHashMap();
    private final boolean[] through;

    /** By site: a net of thousands of sinks is asked for the site of each. */
    private final Int2ObjectOpenHashMap<IntArrayList> throughBySite = new Int2ObjectOpenHashMap<>();

    public NetResources(Design design, Net net) {
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
                            && finder.isThrough(
                                    tree.vertex(tree.parent(place)), tree.vertex(place));
            if (through[place]) {
                int site = design.fabric().siteOf(tree.vertex(place));
                throughBySite.computeIfAbsent(site, s -> new IntArrayList()).add(place);
            }
        }
    }

    /** The place of a vertex in the net's tree, or {@link Fabric#NOTHING}. */
    public int placeOf(int vertex) {
        return placeByVertex.get(vertex);
    }

    /** Whether the tree reaches a place by way of a pass-through. */
    public boolean goesThroughInto(int place) {
        return through[place];
    }

    /** The places that the tree reaches by pass-throughs of one site. */
    IntList throughPlaces(int site) {
        IntArrayList places = throughBySite.get(site);
        return places == null ? IntList.of() : places;
    }

    /** All vertices that the net uses. */
    public IntSet vertices() {
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
     * For each place, the cells that everything below it serves: when all of them leave, the place
     * is given back. {@link #OTHERS} where other things are served too, and at the root; {@link
     * #MANY} where it is only cells, but more than are asked for. Follows {@link
     * padward.design.RouteTreeBranches}.
     *
     * @param without the branch of a port that loses its pad; counted as gone already
     * @param most more cells than this count as too many
     */
    int[][] servedCells(Optional<DisconnectedBranch> without, int most) {
        RouteTree tree = net.route();
        // Sets of a few members, which places on one branch share: a clock has thousands of places.
        int[][] served = new int[tree.size()][];
        boolean[] other = new boolean[tree.size()];
        boolean[] many = new boolean[tree.size()];
        boolean[] gone = new boolean[tree.size()];
        boolean[] hasChild = new boolean[tree.size()];
        Arrays.fill(served, NO_CELLS);
        Optional<DisconnectedBranch> ours = without.filter(l -> l.net().id() == net.id());
        without.ifPresent(
                l -> {
                    for (int vertex : l.verticesOf(net.id())) {
                        int place = placeOf(vertex);
                        if (place >= 0) {
                            gone[place] = true;
                        }
                    }
                });
        for (Terminal sink : net.sinks()) {
            int place = placeOf(design.vertexOf(sink));
            boolean disconnected =
                    sink instanceof Terminal.PortEnd end
                            && without.filter(l -> end.isOf(l.port())).isPresent();
            if (place >= 0 && !disconnected) {
                if (sink instanceof Terminal.CellPin at) {
                    served[place] = union(served[place], new int[] {at.cell()});
                } else {
                    other[place] = true;
                }
            }
        }
        boolean[] ledToDisconnected = new boolean[tree.size()];
        for (int place = tree.size() - 1; place > 0; place--) {
            boolean bare = !hasChild[place] && served[place].length == 0 && !other[place];
            // What led only to what is disconnected is used by its site alone, and serves nothing.
            gone[place] |= bare && ledToDisconnected[place];
            if (gone[place]) {
                ledToDisconnected[tree.parent(place)] = true;
                continue;
            }
            boolean stub = bare;
            other[place] |= stub;
            many[place] |= served[place].length > most;
            int parent = tree.parent(place);
            hasChild[parent] = true;
            other[parent] |= other[place];
            many[parent] |= many[place];
            boolean counts = !other[parent] && !many[parent] && served[parent].length <= most;
            if (counts) {
                served[parent] = union(served[parent], served[place]);
            }
        }
        int[][] result = new int[tree.size()][];
        result[0] = OTHERS;
        for (int place = 1; place < result.length; place++) {
            if (gone[place]) {
                result[place] = NO_CELLS;
            } else if (other[place]) {
                result[place] = OTHERS;
            } else {
                result[place] = many[place] ? MANY : served[place];
            }
        }
        return result;
    }

    /** All members of two sets. O(product of their sizes): they are small. */
    private static int[] union(int[] some, int[] more) {
        if (some.length == 0) {
            return more;
        }
        int[] result = Arrays.copyOf(some, some.length + more.length);
        int size = some.length;
        for (int one : more) {
            if (!ReleaseRules.contains(some, one)) {
                result[size++] = one;
            }
        }
        return size == some.length ? some : Arrays.copyOf(result, size);
    }
}
