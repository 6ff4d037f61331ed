package padward.fabric.pattern;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.base.Lazy;
import padward.fabric.DelayClasses;
import padward.fabric.DerivedData;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.PadUse;
import padward.fabric.SiteView;
import padward.fabric.Unusable;
import padward.fabric.VertexKind;

/**
 * A fabric that exists as its pattern only: names, edges and sites are calculated from the tile's
 * template when asked for; nothing is stored per vertex or edge. Vertex numbers are the tile's base
 * plus a local number.
 */
public final class PatternFabric implements Fabric {
    private static final Pattern NAME = Pattern.compile("x(\\d{1,6})y(\\d{1,6})/(.+)");
    private static final Pattern INDEXED = Pattern.compile("(.+)\\[(\\d{1,9})]");

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
    private final Map<String, Integer> kindByName = new HashMap<>();

    private PatternFabric(PatternSpec spec, TileGrid grid) throws PatternFault {
        this.spec = spec;
        this.grid = grid;
        DelayClasses classes = new DelayClasses();
        TileTemplates outgoing = new TileTemplates(grid, classes, true);
        this.out = outgoing;
        this.in = new Lazy<>(() -> new TileTemplates(grid, new DelayClasses(), false));
        this.maskedOut = new Lazy<>(() -> BitsetAdjacency.of(grid, outgoing, classes));
        for (int i = 0; i < spec.wires().size(); i++) {
            kindByName.put(spec.wires().get(i).name(), i);
        }
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
        int[] modelOfTile = PatternLayout.typeOfTiles(spec);
        TileModel[] models = new TileModel[spec.tileTypes().size()];
        for (int i = 0; i < models.length; i++) {
            models[i] =
                    new TileModelBuilder(
                                    spec.tileTypes().get(i), "$.tiles[" + i + "]", spec.wires())
                            .build();
        }
        return new PatternFabric(
                spec, new TileGrid(spec.columns(), spec.rows(), spec.wires(), models, modelOfTile));
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
        Matcher matcher = NAME.matcher(name);
        int tile = matcher.matches() ? tileAt(matcher) : NOTHING;
        if (tile == NOTHING) {
            return NOTHING;
        }
        TileShape shape = grid.shape(tile);
        String rest = matcher.group(3);
        Integer fixed = shape.model.fixedByName.get(rest);
        if (fixed != null) {
            return grid.vertexBase[tile] + shape.wireCount + fixed;
        }
        int local = findWire(shape, rest);
        int vertex = local == NOTHING ? NOTHING : grid.vertexBase[tile] + local;
        // Spellings such as x03y4 or wire[01] lead here too; only the name we print is a name.
        return vertex != NOTHING && vertexName(vertex).equals(name) ? vertex : NOTHING;
    }

    private int findWire(TileShape shape, String name) {
        Integer single = kindByName.get(name);
        if (single != null && shape.wireStart(single) >= 0 && grid.wires.get(single).count() == 1) {
            return shape.wireStart(single);
        }
        Matcher indexed = INDEXED.matcher(name);
        Integer kind = indexed.matches() ? kindByName.get(indexed.group(1)) : null;
        if (kind == null || shape.wireStart(kind) < 0) {
            return NOTHING;
        }
        int index = Integer.parseInt(indexed.group(2));
        boolean inside = index < grid.wires.get(kind).count();
        return inside ? shape.wireStart(kind) + index : NOTHING;
    }

    private int tileAt(Matcher matcher) {
        int x = Integer.parseInt(matcher.group(1));
        int y = Integer.parseInt(matcher.group(2));
        return x < grid.columns && y < grid.rows ? y * grid.columns + x : NOTHING;
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

    /**
     * A rule leads from wires that end in a tile to what begins there, so that is where its switch
     * is. Where wires of both directions could meet at either end, the pattern leaves it open.
     */
    @Override
    public int switchTile(int from, int to) {
        return isTwoWay(from) || isTwoWay(to) ? Fabric.super.switchTile(from, to) : tile(to);
    }

    private boolean isTwoWay(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int local = vertex - grid.vertexBase[tile];
        return local < shape.wireCount && grid.wires.get(shape.kindOfWire(local)).twoWay();
    }

    @Override
    public String wireKind(int vertex) {
        int tile = grid.tileOf(vertex);
        TileShape shape = grid.shape(tile);
        int local = vertex - grid.vertexBase[tile];
        return local < shape.wireCount ? grid.wires.get(shape.kindOfWire(local)).name() : "";
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
        int tile = tileOfSite(site);
        TileShape shape = grid.shape(tile);
        TileModel.LocalSite local = shape.model.sites.get(site - grid.siteBase[tile]);
        return new SiteView(
                site,
                tileName(tile) + "/" + local.name(),
                local.kind(),
                tile,
                local.accepts(),
                grid.vertexBase[tile] + shape.pin(local.firstPin()),
                local.pins());
    }

    private int tileOfSite(int site) {
        int low = 0;
        int high = tileCount() - 1;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (grid.siteBase[middle + 1] <= site) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
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
        Matcher matcher = NAME.matcher(name);
        int tile = matcher.matches() ? tileAt(matcher) : NOTHING;
        if (tile == NOTHING) {
            return NOTHING;
        }
        Integer local = grid.shape(tile).model.siteByName.get(matcher.group(3));
        return local == null || !name.startsWith(tileName(tile) + "/")
                ? NOTHING
                : grid.siteBase[tile] + local;
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
