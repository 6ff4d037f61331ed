package padward.fabric;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongOpenHashSet;
import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A fabric of which every wire, switch, site and pad was listed. Edges are compressed rows; names
 * and places are arrays by vertex.
 */
public final class ExplicitFabric implements Fabric {
    private final FabricInfo info;
    private final int columns;
    private final int rows;
    private final String[] tileTypes;
    private final String[] names;
    private final int[] tiles;
    private final int[] headTiles;
    private final String[] wireKinds;
    private final byte[] kinds;
    private final int[] siteOfVertex;
    private final Object2IntOpenHashMap<String> vertexByName;
    private final Object2IntOpenHashMap<String> siteByName;
    private final List<SiteView> sites;
    private final int[] firstSite;
    private final List<Pad> pads;
    private final EdgeRows out;
    private final EdgeRows in;

    private ExplicitFabric(Builder from) {
        int count = from.names.size();
        info = from.info;
        columns = from.columns;
        rows = from.rows;
        tileTypes = from.tileTypes;
        names = from.names.toArray(new String[0]);
        tiles = from.tiles.toIntArray();
        headTiles = from.headTiles.toIntArray();
        wireKinds = from.wireKinds.toArray(new String[0]);
        kinds = new byte[count];
        for (int i = 0; i < count; i++) {
            kinds[i] = (byte) from.kinds.getInt(i);
        }
        siteOfVertex = from.siteOfVertex.toIntArray();
        vertexByName = from.vertexByName;
        siteByName = from.siteByName;
        sites = List.copyOf(from.sites);
        pads = List.copyOf(from.pads);
        firstSite = new int[columns * rows + 1];
        for (SiteView site : sites) {
            firstSite[site.tile() + 1]++;
        }
        for (int t = 0; t < columns * rows; t++) {
            firstSite[t + 1] += firstSite[t];
        }
        int[] sources = from.edgeFrom.toIntArray();
        int[] targets = from.edgeTo.toIntArray();
        int[] edgeClass = from.edgeClass.toIntArray();
        out = EdgeRows.of(count, sources, targets, edgeClass, from.classes);
        in = EdgeRows.of(count, targets, sources, edgeClass, from.classes);
    }

    /**
     * Collects the parts of an explicit fabric. Sites must come tile by tile in rising order, pads
     * after wires and sites; {@link #build} says so otherwise.
     */
    public static final class Builder {
        private final FabricInfo info;
        private final int columns;
        private final int rows;
        private final String[] tileTypes;
        private final List<String> names = new ArrayList<>();
        private final IntArrayList tiles = new IntArrayList();
        private final IntArrayList headTiles = new IntArrayList();
        private final List<String> wireKinds = new ArrayList<>();
        private final IntArrayList kinds = new IntArrayList();
        private final IntArrayList siteOfVertex = new IntArrayList();
        private final Object2IntOpenHashMap<String> vertexByName = new Object2IntOpenHashMap<>();
        private final Object2IntOpenHashMap<String> siteByName = new Object2IntOpenHashMap<>();
        private final List<SiteView> sites = new ArrayList<>();
        private final List<Pad> pads = new ArrayList<>();
        private final IntArrayList edgeFrom = new IntArrayList();
        private final IntArrayList edgeTo = new IntArrayList();
        private final IntArrayList edgeClass = new IntArrayList();
        private final LongOpenHashSet edges = new LongOpenHashSet();
        private final DelayClasses classes = new DelayClasses();

        /** Starts a fabric of {@code columns × rows} tiles, all of the type {@code empty}. */
        public Builder(FabricInfo info, int columns, int rows) {
            this.info = info;
            this.columns = columns;
            this.rows = rows;
            this.tileTypes = new String[columns * rows];
            Arrays.fill(tileTypes, "empty");
            vertexByName.defaultReturnValue(NOTHING);
            siteByName.defaultReturnValue(NOTHING);
        }

        /** Sets the type of a tile; its number. */
        public int addTile(int column, int row, String type) {
            tileTypes[row * columns + column] = type;
            return row * columns + column;
        }

        private int addVertex(
                String name, VertexKind kind, int tile, int head, String wireKind, int site) {
            if (vertexByName.containsKey(name)) {
                return NOTHING;
            }
            int vertex = names.size();
            vertexByName.put(name, vertex);
            names.add(name);
            kinds.add(kind.ordinal());
            tiles.add(tile);
            headTiles.add(head);
            wireKinds.add(wireKind);
            siteOfVertex.add(site);
            return vertex;
        }

        /** Adds a wire; its vertex, or {@link Fabric#NOTHING} when the name is taken. */
        public int addWire(String name, int startTile, int endTile, String kind) {
            return addVertex(name, VertexKind.WIRE, startTile, endTile, kind, NOTHING);
        }

        /** Adds a site and its pins; its number, or {@link Fabric#NOTHING} when a name is taken. */
        public int addSite(
                String name, int tile, String kind, List<String> accepts, List<SitePin> pins) {
            if (siteByName.containsKey(name)) {
                return NOTHING;
            }
            int site = sites.size();
            int firstPin = names.size();
            for (SitePin pin : pins) {
                String full = name + "." + pin.name();
                if (addVertex(full, VertexKind.PIN, tile, tile, "", site) == NOTHING) {
                    return NOTHING;
                }
            }
            siteByName.put(name, site);
            sites.add(new SiteView(site, name, kind, tile, accepts, firstPin, pins));
            return site;
        }

        /** Adds a pad; its vertex, or {@link Fabric#NOTHING} when the name is taken. */
        public int addPad(
                String name,
                int tile,
                String packagePin,
                String bank,
                PadDirections directions,
                int dataSite,
                int enableSite,
                String setting) {
            int vertex = addVertex(name, VertexKind.PAD, tile, tile, "", NOTHING);
            if (vertex != NOTHING) {
                pads.add(
                        new Pad(
                                name,
                                vertex,
                                tile,
                                packagePin,
                                bank,
                                directions,
                                dataSite,
                                enableSite,
                                setting));
            }
            return vertex;
        }

        /** The vertex of that name, or {@link Fabric#NOTHING}. */
        public int findVertex(String name) {
            return vertexByName.getInt(name);
        }

        /** The site of that name, or {@link Fabric#NOTHING}. */
        public int findSite(String name) {
            return siteByName.getInt(name);
        }

        /** Adds an edge; false when there is one already between the two. */
        public boolean addEdge(int from, int to, EdgeKind kind, Delay delay) {
            if (!edges.add((long) from << 32 | to)) {
                return false;
            }
            edgeFrom.add(from);
            edgeTo.add(to);
            edgeClass.add(classes.intern(kind, delay));
            return true;
        }

        /**
         * The finished fabric.
         *
         * @throws IllegalStateException when sites do not come tile by tile
         */
        public ExplicitFabric build() {
            for (int i = 1; i < sites.size(); i++) {
                if (sites.get(i).tile() < sites.get(i - 1).tile()) {
                    throw new IllegalStateException("sites must be added tile by tile");
                }
            }
            return new ExplicitFabric(this);
        }
    }

    @Override
    public FabricInfo info() {
        return info;
    }

    @Override
    public int columns() {
        return columns;
    }

    @Override
    public int rows() {
        return rows;
    }

    @Override
    public String tileType(int tile) {
        return tileTypes[tile];
    }

    @Override
    public String tileName(int tile) {
        return "x" + column(tile) + "y" + row(tile);
    }

    @Override
    public int vertexCount() {
        return names.length;
    }

    @Override
    public VertexKind kind(int vertex) {
        return VertexKind.values()[kinds[vertex]];
    }

    @Override
    public String vertexName(int vertex) {
        return names[vertex];
    }

    @Override
    public int findVertex(String name) {
        return vertexByName.getInt(name);
    }

    @Override
    public int tile(int vertex) {
        return tiles[vertex];
    }

    @Override
    public int headTile(int vertex) {
        return headTiles[vertex];
    }

    @Override
    public String wireKind(int vertex) {
        return wireKinds[vertex];
    }

    @Override
    public EdgeCursor edgesOut() {
        return out.cursor();
    }

    @Override
    public EdgeCursor edgesIn() {
        return in.cursor();
    }

    @Override
    public int siteCount() {
        return sites.size();
    }

    @Override
    public SiteView site(int site) {
        return sites.get(site);
    }

    @Override
    public int siteOf(int vertex) {
        return siteOfVertex[vertex];
    }

    @Override
    public int findSite(String name) {
        return siteByName.getInt(name);
    }

    @Override
    public int firstSite(int tile) {
        return firstSite[tile];
    }

    @Override
    public List<Pad> pads() {
        return pads;
    }
}
