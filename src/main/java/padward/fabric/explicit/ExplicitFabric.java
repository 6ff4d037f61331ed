package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.Int2ObjectMap;
import java.io.IOException;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import padward.base.Lazy;
import padward.fabric.DelayClasses;
import padward.fabric.DerivedData;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.FabricLimits;
import padward.fabric.Pad;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.SwitchGroups;
import padward.fabric.Tap;
import padward.fabric.Unusable;
import padward.fabric.VertexKind;
import padward.fabric.array.InternedBytes;
import padward.fabric.compact.CompactFabricInfo;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;
import padward.fabric.compact.PadParts;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * A fabric of which every wire, switch, site and pad was listed, as compressed arrays: what tiles
 * have in common (which wires they have, their names, sites and edges, relative to the tile) is
 * stored once, what they do not have in common tile by tile. A fabric of repeated tiles thus costs
 * little more than its pattern would; where every tile lacks some switches that others have, some
 * 20 bytes a vertex at ten edges each; where edges have no order at all, 20 and some 5 an edge in
 * each direction. Names come in addition. Made by an {@link ExplicitBuilder}.
 */
public final class ExplicitFabric implements Fabric {
    private final DerivedData derived = new DerivedData();
    private final FabricInfo info;
    private final int columns;
    private final int rows;
    private final String[] tileTypes;
    private final TileOffsets bases;
    private final VertexClasses sorts;
    private final TileNames names;
    private final SiteList sites;
    private final boolean hasWideSites;
    private final Lazy<Int2ObjectMap<List<Integer>>> reaching;
    private final TileNames siteNames;
    private final List<Pad> pads;
    private final EdgeRows out;
    private final EdgeRows in;
    private final InternedBytes namePool;
    private final TapNames otherNames;
    private final SwitchTiles statedTiles;
    private final Optional<TileSwitchGroups> switchGroups;
    private final Unusable unusable;

    ExplicitFabric(
            FabricInfo info,
            int columns,
            int rows,
            String[] tileTypes,
            TileOffsets bases,
            VertexClasses sorts,
            TileNames names,
            SiteList sites,
            TileNames siteNames,
            List<Pad> pads,
            EdgeRows out,
            EdgeRows in,
            InternedBytes namePool,
            TapNames otherNames,
            SwitchTiles statedTiles,
            Optional<TileSwitchGroups> switchGroups,
            BitSet unusableWires,
            BitSet unusableSites) {
        this.info = info;
        this.columns = columns;
        this.rows = rows;
        this.tileTypes = tileTypes;
        this.bases = bases;
        this.sorts = sorts;
        this.names = names;
        this.sites = sites;
        this.hasWideSites = sites.hasWide();
        this.reaching = new Lazy<>(sites::reaching);
        this.siteNames = siteNames;
        this.pads = pads;
        this.out = out;
        this.in = in;
        this.namePool = namePool;
        this.otherNames = otherNames;
        this.statedTiles = statedTiles;
        this.switchGroups = switchGroups;
        this.unusable = Unusable.of(this, unusableWires, unusableSites);
    }

    /** Writes all that it consists of. */
    public void write(CompactOut out) throws IOException {
        CompactFabricInfo.write(out, info);
        out.number(columns);
        out.number(rows);
        for (String type : tileTypes) {
            out.text(type);
        }
        namePool.write(out);
        bases.write(out);
        sorts.write(out);
        names.write(out);
        sites.write(out);
        siteNames.write(out);
        PadParts.write(out, pads);
        writeClasses(out, this.out.classes());
        this.out.write(out);
        in.write(out);
        otherNames.write(out);
        statedTiles.write(out);
        TileSwitchGroups.write(out, switchGroups);
        out.bits(unusable.vertices());
        out.bits(unusable.sites());
    }

    /**
     * Reads what was written. Every number is checked to be that of something there is.
     *
     * @throws padward.fabric.compact.Damaged when it is anything else than what was written
     */
    public static ExplicitFabric read(CompactIn in) throws IOException {
        FabricInfo info = CompactFabricInfo.read(in);
        int columns = in.number(1, FabricLimits.GRID_SIDE);
        int rows = in.number(1, FabricLimits.GRID_SIDE);
        String[] tileTypes = in.texts(columns * rows);
        InternedBytes pool = InternedBytes.read(in, true);
        for (int text = 0; text < pool.size(); text++) {
            Damaged.unless(
                    TileRelativeName.isWhole(pool.bytes(), pool.start(text), pool.end(text)),
                    "a name");
        }
        TileOffsets bases = TileOffsets.read(in, tileTypes.length);
        int count = bases.count();
        VertexClasses sorts = VertexClasses.read(in, bases, pool);
        TileNames names = TileNames.read(in, columns, rows, pool, bases);
        SiteList sites = SiteList.read(in, bases);
        TileNames siteNames = TileNames.read(in, columns, rows, pool, sites.bases());
        List<Pad> pads = PadParts.read(in, tileTypes.length, count, sites.count());
        for (int pad = 1; pad < pads.size(); pad++) {
            Damaged.unless(pads.get(pad - 1).vertex() < pads.get(pad).vertex(), "order of pads");
        }
        DelayClasses classes = readClasses(in);
        EdgeRows out = EdgeRows.read(in, bases, classes);
        EdgeRows incoming = EdgeRows.read(in, bases, classes);
        TapNames otherNames = TapNames.read(in, columns, rows, pool, count);
        SwitchTiles statedTiles = SwitchTiles.read(in, count, tileTypes.length);
        Optional<TileSwitchGroups> groups =
                TileSwitchGroups.read(in, columns, rows, pool, bases, incoming);
        BitSet unusableWires = in.bits(count);
        BitSet unusableSites = in.bits(sites.count());
        return new ExplicitFabric(
                info,
                columns,
                rows,
                tileTypes,
                bases,
                sorts,
                names,
                sites,
                siteNames,
                List.copyOf(pads),
                out,
                incoming,
                pool,
                otherNames,
                statedTiles,
                groups,
                unusableWires,
                unusableSites);
    }

    private static void writeClasses(CompactOut out, DelayClasses classes) throws IOException {
        out.number(classes.count());
        for (int i = 0; i < classes.count(); i++) {
            out.constant(classes.kind(i));
            out.number(classes.delayPs(i, Corner.FAST));
            out.number(classes.delayPs(i, Corner.SLOW));
        }
    }

    private static DelayClasses readClasses(CompactIn in) throws IOException {
        DelayClasses classes = new DelayClasses();
        int count = in.number(0, Integer.MAX_VALUE);
        for (int i = 0; i < count; i++) {
            EdgeKind kind = in.constant(EdgeKind.class);
            int fast = in.number(0, FabricLimits.EDGE_DELAY_PS);
            int slow = in.number(fast, FabricLimits.EDGE_DELAY_PS);
            Damaged.unless(classes.intern(kind, new Delay(fast, slow)) == i, "delays of edges");
        }
        return classes;
    }

    /**
     * Bytes of all arrays that say which vertices, sites and edges there are: edges in both
     * directions with their delays, kinds, places; without names and the list of pads.
     */
    public long graphBytes() {
        return 4L * tileTypes.length
                + bases.memory()
                + sorts.memory()
                + sites.memory()
                + statedTiles.memory()
                + switchGroups().memory()
                + out.memory()
                + in.memory();
    }

    /** Bytes of all arrays for names and for finding them. */
    public long nameBytes() {
        return namePool.memory()
                + names.memory()
                + siteNames.memory()
                + otherNames.memory()
                + switchGroups().nameMemory();
    }

    /** The incoming edges made again with slices of another size, for tests. */
    EdgeRows incomingInSlicesOf(int edges) {
        return Transposer.transpose(bases, out, out.classes(), edges);
    }

    /** How many different rows its edges need, out and in. */
    public int rowCount() {
        return out.rowCount() + in.rowCount();
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
        return bases.count();
    }

    @Override
    public VertexKind kind(int vertex) {
        return sorts.kind(vertex);
    }

    @Override
    public String vertexName(int vertex) {
        return names.name(vertex);
    }

    @Override
    public int findVertex(String name) {
        int own = names.find(name);
        return own == NOTHING ? otherNames.find(name) : own;
    }

    @Override
    public List<Tap> taps(int vertex) {
        List<TapStep> steps = sorts.taps(vertex);
        if (steps.isEmpty()) {
            return Fabric.super.taps(vertex);
        }
        int tile = tile(vertex);
        return steps.stream()
                .map(s -> new Tap(tile + s.tileStep(), otherNames.name(vertex, tile, s, names)))
                .toList();
    }

    @Override
    public int[] tapTiles(int vertex) {
        List<TapStep> steps = sorts.taps(vertex);
        if (steps.isEmpty()) {
            return Fabric.super.tapTiles(vertex);
        }
        int tile = tile(vertex);
        return steps.stream().mapToInt(s -> tile + s.tileStep()).toArray();
    }

    @Override
    public boolean listsTaps(int vertex) {
        return !sorts.taps(vertex).isEmpty();
    }

    @Override
    public int switchTile(int from, int to) {
        int stated = statedTiles.find(from, to);
        return stated == NOTHING ? Fabric.super.switchTile(from, to) : stated;
    }

    @Override
    public Unusable unusable() {
        return unusable;
    }

    @Override
    public SwitchGroups switchGroups() {
        return switchGroups.isPresent() ? switchGroups.get() : SwitchGroups.NONE;
    }

    @Override
    public int tile(int vertex) {
        return bases.tileOf(vertex);
    }

    @Override
    public int headTile(int vertex) {
        return sorts.headTile(vertex);
    }

    @Override
    public String wireKind(int vertex) {
        return sorts.wireKind(vertex);
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
        return sites.count();
    }

    @Override
    public SiteView site(int site) {
        return sites.site(site, siteNames.name(site));
    }

    @Override
    public List<String> acceptedBy(int site) {
        return sites.model(site).accepts();
    }

    @Override
    public List<SitePin> pinsOf(int site) {
        return sites.model(site).pins();
    }

    @Override
    public int firstPin(int site) {
        return sites.firstPin(site);
    }

    @Override
    public int siteOf(int vertex) {
        return sites.siteOf(vertex);
    }

    @Override
    public int findSite(String name) {
        return siteNames.find(name);
    }

    @Override
    public List<Integer> sitesReaching(int tile) {
        return hasWideSites() ? reaching.get().get(tile) : List.of();
    }

    @Override
    public boolean hasWideSites() {
        return hasWideSites;
    }

    @Override
    public List<Integer> findParts(String site) {
        return sites.partNames().stream()
                .map(part -> findSite(site + SiteView.BEFORE_PART + part))
                .filter(part -> part != NOTHING && site(part).wholeName().equals(site))
                .sorted()
                .toList();
    }

    @Override
    public int firstSite(int tile) {
        return sites.first(tile);
    }

    @Override
    public DerivedData derived() {
        return derived;
    }

    @Override
    public List<Pad> pads() {
        return pads;
    }
}
