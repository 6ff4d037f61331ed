package padward.bench;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;

import padward.fabric.delay.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CongestionCost;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;

import java.util.BitSet;
import java.util.Random;

/**
 * A fabric with an occupancy, for benchmarks: what is closed, what wires cost, and the same as
 * plain arrays (edges of vertex v are {@code start[v]} to before {@code start[v + 1]}) for the
 * peers.
 */
final class Terrain {
    /** Corner of all benchmarks. */
    static final Corner CORNER = Corner.SLOW;

    private static final int MOST_PRICE_PS = 200;

    final Fabric fabric;
    final String name;
    final CostModel model;
    final BitSet closed;
    int[] start;
    int[] target;
    int[] weight;

    private Terrain(Fabric fabric, String name, BitSet closed, CostModel model) {
        this.fabric = fabric;
        this.name = name;
        this.closed = closed;
        this.model = model;
    }

    /** 15 in 100 vertices closed at random. */
    static Terrain random(Fabric fabric, long seed) {
        Random random = new Random(seed);
        IntSet open = padRoutes(fabric);
        BitSet closed = new BitSet(fabric.vertexCount());
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (random.nextInt(100) < 15 && !open.contains(v)) {
                closed.set(v);
            }
        }
        return new Terrain(fabric, "random", closed, new FreeOnlyCost(closed));
    }

    /**
     * 30 in 100 closed, three quarters of these in hot spots over a quarter of the area; and a
     * price on what is open there, as negotiation leaves it where nets have fought.
     */
    static Terrain congested(Fabric fabric, long seed) {
        Random random = new Random(seed);
        IntSet open = padRoutes(fabric);
        BitSet hot = hotTiles(fabric, random);
        BitSet closed = new BitSet(fabric.vertexCount());
        int[] price = new int[fabric.vertexCount()];
        int[] times = new int[fabric.vertexCount()];
        for (int v = 0; v < fabric.vertexCount(); v++) {
            boolean isHot = hot.get(fabric.tile(v));
            int share = isHot ? 90 : 10;
            if (random.nextInt(100) < share && !open.contains(v)) {
                closed.set(v);
            }
            price[v] = isHot ? random.nextInt(MOST_PRICE_PS) : 0;
            times[v] = 1;
        }
        return new Terrain(
                fabric,
                "congested",
                closed,
                new CongestionCost(BlockedVertices.of(closed), price, times));
    }

    /** Discs of random places that cover a quarter of the tiles. */
    private static BitSet hotTiles(Fabric fabric, Random random) {
        BitSet hot = new BitSet();
        int radius = Math.max(2, fabric.columns() / 16);
        while (hot.cardinality() * 4 < fabric.tileCount()) {
            int x = random.nextInt(fabric.columns());
            int y = random.nextInt(fabric.rows());
            for (int dy = -radius; dy <= radius; dy++) {
                for (int dx = -radius; dx <= radius; dx++) {
                    boolean inside =
                            dx * dx + dy * dy <= radius * radius
                                    && x + dx >= 0
                                    && x + dx < fabric.columns()
                                    && y + dy >= 0
                                    && y + dy < fabric.rows();
                    if (inside) {
                        hot.set((y + dy) * fabric.columns() + x + dx);
                    }
                }
            }
        }
        return hot;
    }

    /** Pads and their registers stay open: the port there is disconnected. */
    private static IntSet padRoutes(Fabric fabric) {
        IntSet open = new IntOpenHashSet();
        for (Pad pad : fabric.pads()) {
            open.add(pad.vertex());
            if (pad.dataSite() != Fabric.NOTHING) {
                SiteView site = fabric.site(pad.dataSite());
                for (int pin = 0; pin < site.pins().size(); pin++) {
                    open.add(site.firstPin() + pin);
                }
            }
        }
        return open;
    }

    /** Writes all edges that may be used into arrays. */
    void buildArrays() {
        int n = fabric.vertexCount();
        start = new int[n + 1];
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < n; v++) {
            edges.reset(v);
            int count = 0;
            while (edges.next()) {
                count += closed.get(edges.other()) ? 0 : 1;
            }
            start[v + 1] = start[v] + count;
        }
        target = new int[start[n]];
        weight = new int[start[n]];
        int at = 0;
        for (int v = 0; v < n; v++) {
            edges.reset(v);
            while (edges.next()) {
                if (!closed.get(edges.other())) {
                    target[at] = edges.other();
                    weight[at++] = (int) model.cost(v, edges.other(), edges.delayPs(CORNER));
                }
            }
        }
    }

    /** Lets the arrays go. */
    void dropArrays() {
        start = null;
        target = null;
        weight = null;
    }
}
