package padward.fabric.pattern;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import padward.base.Lazy;
import padward.base.Progress;
import padward.fabric.DelayClasses;
import padward.fabric.DerivedData;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.Unusable;
import padward.fabric.VertexKind;
import padward.fabric.pad.PadUse;

/**
 * A fabric that exists as its pattern only: names, edges and sites are calculated from the tile's
 * template when asked for; nothing is stored per vertex or edge. Vertex numbers are the tile's base
 * plus a local number.
 */
public final class PatternFabric implements Fabric {
    /** Of numbers in names, which then fit into an {@code int}. */
    private static final int MOST_DIGITS = 9;

    private final DerivedData derived = new DerivedData();
    private final PatternSpec spec;
    private final TileGrid grid;
    private final TileTemplates out;

    /** Needed by searches from the pad and for drawing switches; made when first needed. */
    private final Lazy<TileTemplates> in;

    /** Needed by searches; made when first needed. */
    private final Lazy<BitsetAdjacency> maskedOut;

    private final List<Pad> pads;
    private final Unusable unusable;
    private final NameTable kindByName;

    private PatternFabric(PatternSpec spec, TileGrid grid, Progress progress) throws PatternFault {
        this.spec = spec;
        this.grid = grid;
        DelayClasses classes = new DelayClasses();
        TileTemplates outgoing = new TileTemplates(grid, classes, true, progress);
        this.out = outgoing;
        this.in =
                new Lazy<>(() -> new TileTemplates(grid, new DelayClasses(), false, Progress.NONE));
        this.maskedOut = new Lazy<>(() -> BitsetAdjacency.of(grid, outgoing, classes));
        Map<String, Integer> kinds = new HashMap<>();
        for (int i = 0; i < spec.wires().size(); i++) {
            kinds.put(spec.wires().get(i).name(), i);
        }
        this.kindByName = new NameTable(kinds);
        this.pads = List.copyOf(collectPads());
        this.unusable = findUnusable();
    }

    /**
     * Checks a pattern and makes it a fabric. O(tiles × kinds of wire) plus the work per distinct
     * template.
     *
     * @throws PatternFault when the pattern says something impossible
     */
    public static PatternFabric compile(PatternSpec spec) throws PatternFault {
        return compile(spec, Progress.NONE);
    }

    /**
     * As {@link #compile(PatternSpec)}, with a way to stop it.
     *
     * @param progress asked at each tile whether to stop
     * @throws PatternFault when the pattern says something impossible
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static PatternFabric compile(PatternSpec spec, Progress progress) throws PatternFault {
        int[] modelOfTile = PatternLayout.typeOfTiles(spec);
        TileModel[] models = new TileModel[spec.tileTypes().size()];
        TileSizes sizes = new TileSizes();
        for (int i = 0; i < models.length; i++) {
            models[i] =
                    new TileModelBuilder(
                                    spec.tileTypes().get(i),
                                    "$.tiles[" + i + "]",
                                    spec.wires(),
                                    sizes)
                            .build();
        }
        return new PatternFabric(
                spec,
                new TileGrid(spec.columns(), spec.rows(), spec.wires(), models, modelOfTile),
                progress);
    }

    private Unusable findUnusable() throws PatternFault {
        BitSet wires = new BitSet();
        BitSet sites = new BitSet();
        List<String> wireNames = spec.unusable().wires();
        for (int i = 0; i < wireNames.size(); i++) {
            int wire = findVertex(wireNames.get(i));
            if (wire == NOTHING || kind(wire) != VertexKind.WIRE) {
                throw notFound("wires", i, "the full name of a wire", wireNames.get(i));
            }
            wires.set(wire);
        }
        List<String> siteNames = spec.unusable().sites();
        for (int i = 0; i < siteNames.size(); i++) {
            int site = findSite(siteNames.get(i));
            if (site == NOTHING) {
                throw notFound("sites", i, "the full name of a site", siteNames.get(i));
            }
            sites.set(site);
        }
        return Unusable.of(this, wires, sites);
    }

    private static PatternFault notFound(String list, int at, String expected, String name) {
        return new PatternFault("$.unusable." + list + "[" + at + "]", expected, "“" + name + "”");
    }

    private List<Pad> collectPads() throws PatternFault {
        Map<String, PatternSpec.PadOverride> overrides = new HashMap<>();
        for (PatternSpec.PadOverride override : spec.padOverrides()) {
            overrides.put(override.pad(), override);
        }
        List<Pad> result = new ArrayList<>();
        for (int tile = 0; tile < tileCount(); tile++) {
            TileShape shape = grid.shape(tile);
            for (int i = 0; i < shape.model.pads.size(); i++) {
                TileModel.LocalPad local = shape.model.pads.get(i);
                String name = tileName(tile) + "/" + local.name();
                int vertex = grid.vertexBase[tile] + shape.pad(i);
                result.add(pad(name, vertex, tile, local, overrides.remove(name)));
            }
        }
        if (!overrides.isEmpty()) {
            throw new PatternFault(
                    "$.pads", "names of pads", "“" + overrides.keySet().iterator().next() + "”");
        }
        Set<String> names = new HashSet<>();
        result.forEach(p -> names.add(p.name()));
        for (Pad pad : result) {
            String partner = pad.use().driving().partner();
            if (!partner.isEmpty() && (partner.equals(pad.name()) || !names.contains(partner))) {
                throw new PatternFault(
                        "$.pads", "the full name of another pad", "“" + partner + "”");
            }
        }
        return result;
    }

    private Pad pad(
            String name,
            int vertex,
            int tile,
            TileModel.LocalPad local,
            PatternSpec.PadOverride override) {
        int data = local.dataSite() < 0 ? NOTHING : grid.siteBase[tile] + local.dataSite();
        int enable = local.enableSite() < 0 ? NOTHING : grid.siteBase[tile] + local.enableSite();
        if (override == null) {
            return new Pad(
                    name,
                    vertex,
                    tile,
                    "",
                    "",
                    local.directions(),
                    data,
                    enable,
                    local.setting(),
                    PadUse.UNSTATED,
                    local.enable());
        }
        return new Pad(
                name,
                vertex,
                tile,
                override.packagePin(),
                override.bank(),
                override.directions().orElse(local.directions()),
                data,
                enable,
                override.setting().isEmpty() ? local.setting() : override.setting(),
                override.use(),
                local.enable());
    }

    /** The pattern it was made from. */
    public PatternSpec spec() {
        return spec;
    }

    /** How many different templates its edges need, in and out. */
    public int templateCount() {
        return out.count() + in.get().count();
    }

    /**
     * Bytes of all arrays that say which vertices and edges there are: the graph, without the list
     * of pads and the pattern that it was made from.
     */
    public long graphBytes() {
        return grid.bytes() + out.bytes() + in.get().bytes() + maskedOut.get().bytes();
    }

    /** The outgoing edges in the form for searches. */
    public BitsetAdjacency maskedEdges() {
        return maskedOut.get();
    }

    @Override
    public FabricInfo info() {
        return spec.info();
    }

    @Override
    public int columns() {
        return grid.columns;
    }

    @Override
    public int rows() {
        return grid.rows;
    }

    @Override
    public String tileType(int tile) {
        return grid.shape(tile).model.typeName;
    }

    @Override
    public String tileName(int tile) {
        return "x" + column(tile) + "y" + row(tile);
    }

    @Override
    public int vertexCount() {
        return grid.vertexCount();
    }

    @Override
    public Unusable unusable() {
        return unusable;
    }

    @Override
    public VertexKind kind(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int local = vertex - grid.vertexBase[tile];
        if (local < shape.wireCount) {
            return VertexKind.WIRE;
        }
        return local < shape.pad(0) ? VertexKind.PIN : VertexKind.PAD;
    }

    @Override
    public String vertexName(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int local = vertex - grid.vertexBase[tile];
        String rest;
        if (local < shape.wireCount) {
            int kind = shape.kindOfWire(local);
            PatternSpec.WireKind wire = grid.wires.get(kind);
            rest =
                    TileModelBuilder.member(
                            wire.name(), local - shape.wireStart(kind), wire.count());
        } else {
            rest = shape.model.fixedNames.get(local - shape.wireCount);
        }
        return tileName(tile) + "/" + rest;
    }

    @Override
    public int findVertex(String name) {
        int slash = name.indexOf('/');
        int tile = tileNamed(name, slash);
        if (tile == NOTHING) {
            return NOTHING;
        }
        TileShape shape = grid.shape(tile);
        int from = slash + 1;
        // In one tile, no two of these have the same name.
        int local = findWire(shape, name, from);
        if (local == NOTHING) {
            int fixed = shape.model.fixed.find(name, from, name.length());
            local = fixed == NOTHING ? findSingleWire(shape, name, from) : shape.wireCount + fixed;
        }
        return local == NOTHING ? NOTHING : grid.vertexBase[tile] + local;
    }

    /** The wire whose name in its tile, with its number, is the rest of a text. */
    private int findWire(TileShape shape, String name, int from) {
        int bracket = name.endsWith("]") ? name.lastIndexOf('[') : NOTHING;
        int kind = bracket <= from ? NOTHING : kindByName.find(name, from, bracket);
        if (kind == NOTHING || shape.wireStart(kind) < 0) {
            return NOTHING;
        }
        int index = number(name, bracket + 1, name.length() - 1);
        int count = grid.wires.get(kind).count();
        // A single wire of its kind is called without a number.
        return index != NOTHING && index < count && count > 1
                ? shape.wireStart(kind) + index
                : NOTHING;
    }

    private int findSingleWire(TileShape shape, String name, int from) {
        int kind = kindByName.find(name, from, name.length());
        boolean single = kind != NOTHING && grid.wires.get(kind).count() == 1;
        return single ? shape.wireStart(kind) : NOTHING;
    }

    /** The tile whose name comes before a slash, or {@link #NOTHING}. */
    private int tileNamed(String name, int slash) {
        int between = slash < 0 || name.charAt(0) != 'x' ? NOTHING : name.indexOf('y');
        if (between < 0 || between > slash) {
            return NOTHING;
        }
        int x = number(name, 1, between);
        int y = number(name, between + 1, slash);
        boolean inside = x != NOTHING && y != NOTHING && x < grid.columns && y < grid.rows;
        return inside ? y * grid.columns + x : NOTHING;
    }

    /**
     * The number that a part of a name spells as this class prints it, without zeros before it, or
     * {@link #NOTHING}.
     */
    private static int number(String text, int from, int to) {
        boolean leadingZero = to - from > 1 && text.charAt(from) == '0';
        if (from >= to || to - from > MOST_DIGITS || leadingZero) {
            return NOTHING;
        }
        int result = 0;
        for (int i = from; i < to; i++) {
            int digit = text.charAt(i) - '0';
            if (digit < 0 || digit > 9) {
                return NOTHING;
            }
            result = 10 * result + digit;
        }
        return result;
    }

    @Override
    public int tile(int vertex) {
        return grid.tileOf(vertex);
    }

    @Override
    public int headTile(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int local = vertex - grid.vertexBase[tile];
        if (local >= shape.wireCount) {
            return tile;
        }
        PatternSpec.WireKind wire = grid.wires.get(shape.kindOfWire(local));
        return grid.step(tile, wire.dx(), wire.dy());
    }

    @Override
    public int[] tapTiles(int vertex) {
        if (!listsTaps(vertex)) {
            return Fabric.super.tapTiles(vertex);
        }
        PatternSpec.WireKind wire = grid.wires.get(findWireKind(vertex));
        int tile = grid.tileOf(vertex);
        int[] result = new int[wire.exits() + 1];
        result[0] = tile;
        for (int exit = 0; exit < wire.exits(); exit++) {
            result[exit + 1] = grid.step(tile, wire.exitDx(exit), wire.exitDy(exit));
        }
        return result;
    }

    @Override
    public boolean listsTaps(int vertex) {
        int kind = findWireKind(vertex);
        return kind != NOTHING && !grid.wires.get(kind).taps().isEmpty();
    }

    /**
     * A rule leads from wires that end or have a tap in a tile to what begins there, so that is
     * where its switch is. Where wires of both directions could meet at either end, the pattern
     * leaves it open.
     */
    @Override
    public int switchTile(int from, int to) {
        return isTwoWay(from) || isTwoWay(to) ? Fabric.super.switchTile(from, to) : tile(to);
    }

    private boolean isTwoWay(int vertex) {
        int kind = findWireKind(vertex);
        return kind != NOTHING && grid.wires.get(kind).twoWay();
    }

    /** The number of a wire's kind, {@link #NOTHING} for other vertices. */
    private int findWireKind(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int local = vertex - grid.vertexBase[tile];
        return local < shape.wireCount ? shape.kindOfWire(local) : NOTHING;
    }

    @Override
    public String wireKind(int vertex) {
        int kind = findWireKind(vertex);
        return kind == NOTHING ? "" : grid.wires.get(kind).name();
    }

    @Override
    public EdgeCursor edgesOut() {
        return out.cursor();
    }

    @Override
    public EdgeCursor edgesIn() {
        return in.get().cursor();
    }

    @Override
    public int siteCount() {
        return grid.siteBase[tileCount()];
    }

    @Override
    public SiteView site(int site) {
        int tile = grid.tileOfSite(site);
        TileShape shape = grid.shape(tile);
        TileModel.LocalSite local = localSite(tile, site);
        return new SiteView(
                site,
                tileName(tile) + "/" + local.name(),
                local.part(),
                local.kind(),
                tile,
                List.of(),
                local.accepts(),
                grid.vertexBase[tile] + shape.pin(local.firstPin()),
                local.pins());
    }

    @Override
    public List<String> acceptedBy(int site) {
        return localSite(grid.tileOfSite(site), site).accepts();
    }

    @Override
    public List<SitePin> pinsOf(int site) {
        return localSite(grid.tileOfSite(site), site).pins();
    }

    @Override
    public int findPin(int site, String pinName) {
        int tile = grid.tileOfSite(site);
        TileModel.LocalSite local = localSite(tile, site);
        int pin = SitePin.find(local.pins(), pinName);
        return pin == NOTHING
                ? NOTHING
                : grid.vertexBase[tile] + grid.shape(tile).pin(local.firstPin() + pin);
    }

    @Override
    public int firstPin(int site) {
        int tile = grid.tileOfSite(site);
        int offset = localSite(tile, site).firstPin();
        return grid.vertexBase[tile] + grid.shape(tile).pin(offset);
    }

    private TileModel.LocalSite localSite(int tile, int site) {
        return grid.shape(tile).model.sites.get(site - grid.siteBase[tile]);
    }

    @Override
    public int siteOf(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int offset = vertex - grid.vertexBase[tile] - shape.wireCount;
        boolean isPin = offset >= 0 && offset < shape.model.pinCount;
        return isPin ? grid.siteBase[tile] + shape.model.siteOfPin[offset] : NOTHING;
    }

    @Override
    public int findSite(String name) {
        int slash = name.indexOf('/');
        int tile = tileNamed(name, slash);
        if (tile == NOTHING) {
            return NOTHING;
        }
        Integer local = grid.shape(tile).model.siteByName.get(name.substring(slash + 1));
        return local == null ? NOTHING : grid.siteBase[tile] + local;
    }

    @Override
    public List<Integer> findParts(String site) {
        int slash = site.indexOf('/');
        int tile = tileNamed(site, slash);
        if (tile == NOTHING) {
            return List.of();
        }
        String whole = site.substring(slash + 1) + SiteView.BEFORE_PART;
        List<TileModel.LocalSite> sites = grid.shape(tile).model.sites;
        return IntStream.range(0, sites.size())
                .filter(i -> !sites.get(i).part().isEmpty())
                .filter(i -> sites.get(i).name().equals(whole + sites.get(i).part()))
                .mapToObj(i -> grid.siteBase[tile] + i)
                .toList();
    }

    @Override
    public int firstSite(int tile) {
        return grid.siteBase[tile];
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
