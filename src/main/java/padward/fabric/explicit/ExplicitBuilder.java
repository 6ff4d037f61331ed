package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.Long2IntMap;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import padward.base.SideWork;
import padward.fabric.DelayClasses;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.Interner;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/**
 * Collects the parts of an explicit fabric. Parts may come in any order, but what an edge or pad
 * refers to comes before it. Numbers that the builder returns are its own; the finished fabric
 * numbers vertices and sites tile by tile, those of one tile in the order in which they were added.
 * That is also how a pattern numbers them, if each tile's wires are added before its sites, and
 * these before its pads.
 *
 * <p>Memory, in addition to the fabric's: some 35 bytes a vertex, and 6 an edge. Belongs to one
 * thread and builds once.
 */
public final class ExplicitBuilder {
    /** Vertices of a fabric of which other threads would not make the edges sooner. */
    private static final int SMALL = 10_000;

    private FabricInfo info;
    private final int columns;
    private final int rows;
    private final String[] tileTypes;
    private final TileRelativeName split;
    private final InternedBytes pool = new InternedBytes();
    private final NameIndex vertices;
    private final IntArrayList tiles = new IntArrayList();
    private final IntArrayList heads = new IntArrayList();
    private final IntArrayList sortOf = new IntArrayList();
    private final Interner<VertexClasses.Sort> sorts = new Interner<>();
    private final NameIndex sites;
    private final IntArrayList siteTiles = new IntArrayList();
    private final IntArrayList modelOf = new IntArrayList();
    private final IntArrayList firstPins = new IntArrayList();
    private final Interner<SiteList.Model> models = new Interner<>();
    private final Set<String> partNames = new LinkedHashSet<>();
    private final List<Pad> pads = new ArrayList<>();
    private final TapBag taps;
    private final Long2IntOpenHashMap switchTiles = new Long2IntOpenHashMap();
    private final SwitchGroupBag switchGroups;
    private final EdgeBag edges = new EdgeBag();
    private final DelayClasses classes = new DelayClasses();
    private List<ParallelEdges> repeated = List.of();
    private List<NoSwitch> noSwitches = List.of();
    private final BitSet unusableWires = new BitSet();
    private final BitSet unusableSites = new BitSet();
    private boolean built;

    /** Starts a fabric of {@code columns × rows} tiles, all of the type {@code empty}. */
    public ExplicitBuilder(FabricInfo info, int columns, int rows) {
        this.info = info;
        this.columns = columns;
        this.rows = rows;
        this.tileTypes = new String[columns * rows];
        this.split = new TileRelativeName(columns, rows);
        this.vertices = new NameIndex(columns, pool);
        this.sites = new NameIndex(columns, pool);
        this.taps = new TapBag(columns, pool);
        this.switchGroups = new SwitchGroupBag(columns);
        Arrays.fill(tileTypes, "empty");
    }

    /** States what the fabric says of itself, where that is known late. */
    public void setInfo(FabricInfo stated) {
        info = stated;
    }

    /** Sets the type of a tile; its number. */
    public int addTile(int column, int row, String type) {
        tileTypes[row * columns + column] = type;
        return row * columns + column;
    }

    private int addVertex(String name, VertexKind kind, int tile, int head, String wireKind) {
        if (taps.find(split.of(name)) != Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        int vertex = vertices.add(split);
        if (vertex != Fabric.NOTHING) {
            tiles.add(tile);
            heads.add(head);
            sortOf.add(sorts.number(new VertexClasses.Sort(kind, wireKind)));
        }
        return vertex;
    }

    /** Adds a wire; its vertex, or {@link Fabric#NOTHING} when the name is taken. */
    public int addWire(String name, int startTile, int endTile, String kind) {
        return addVertex(name, VertexKind.WIRE, startTile, endTile, kind);
    }

    /**
     * Adds a place at which a wire can be entered or left. The taps of a wire come in their order
     * along it; one that has any has no others, so begin and end are listed as well where it can be
     * entered or left there.
     *
     * @param name what the wire is called there, {@code ""} for its own name
     * @return whether the name is free or the wire's already; else nothing is added
     */
    public boolean addTap(int wire, int tile, String name) {
        if (name.isEmpty()) {
            taps.add(wire, tile);
            return true;
        }
        int own = vertices.find(split.of(name));
        if (own == wire) {
            taps.add(wire, tile);
            return true;
        }
        int other = taps.find(split);
        if (own != Fabric.NOTHING || other != Fabric.NOTHING && other != wire) {
            return false;
        }
        taps.add(wire, tile, split);
        return true;
    }

    /** Adds a site and its pins; its number, or {@link Fabric#NOTHING} when a name is taken. */
    public int addSite(
            String name, int tile, String kind, List<String> accepts, List<SitePin> pins) {
        return addSite(name, List.of(tile), kind, accepts, pins);
    }

    /**
     * Adds a site over several tiles and its pins.
     *
     * @param itsTiles its tiles, the one in which its pins are first
     * @return its number, or {@link Fabric#NOTHING} when a name is taken
     */
    public int addSite(
            String name,
            List<Integer> itsTiles,
            String kind,
            List<String> accepts,
            List<SitePin> pins) {
        return hasParts(name) ? Fabric.NOTHING : add(name, "", itsTiles, kind, accepts, pins);
    }

    /** Whether a part of a site of that full name has been added. */
    public boolean hasParts(String site) {
        return partNames.stream().anyMatch(part -> hasPart(site, part));
    }

    private boolean hasPart(String site, String part) {
        int found = findSite(site + SiteView.BEFORE_PART + part);
        return found != Fabric.NOTHING && models.value(modelOf.getInt(found)).part().equals(part);
    }

    /**
     * Adds a part of a site and its pins, whose full names state the site and no part. The parts of
     * a site are added one directly after the other, with the same kind and tiles.
     *
     * @return its number, or {@link Fabric#NOTHING} when a name is taken
     */
    public int addPart(
            String site,
            String part,
            List<Integer> itsTiles,
            String kind,
            List<String> accepts,
            List<SitePin> pins) {
        partNames.add(part);
        return findSite(site) >= 0
                ? Fabric.NOTHING
                : add(site, part, itsTiles, kind, accepts, pins);
    }

    private int add(
            String site,
            String part,
            List<Integer> itsTiles,
            String kind,
            List<String> accepts,
            List<SitePin> pins) {
        String name = part.isEmpty() ? site : site + SiteView.BEFORE_PART + part;
        if (findSite(name) != Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        int tile = itsTiles.get(0);
        int firstPin = vertices.size();
        for (SitePin pin : pins) {
            if (addVertex(site + "." + pin.name(), VertexKind.PIN, tile, tile, "")
                    == Fabric.NOTHING) {
                return Fabric.NOTHING;
            }
        }
        siteTiles.add(tile);
        List<Integer> steps = itsTiles.stream().skip(1).map(other -> other - tile).toList();
        modelOf.add(models.number(new SiteList.Model(part, kind, steps, accepts, pins)));
        firstPins.add(firstPin);
        return sites.add(split.of(name));
    }

    /** Adds a pad of which neither a use nor anything of its enable is stated. */
    public int addPad(
            String name,
            int tile,
            String packagePin,
            String bank,
            PadDirections directions,
            int dataSite,
            int enableSite,
            String setting) {
        return addPad(
                name,
                tile,
                packagePin,
                bank,
                directions,
                dataSite,
                enableSite,
                setting,
                PadUse.UNSTATED,
                PadEnable.UNKNOWN);
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
            String setting,
            PadUse use,
            PadEnable enable) {
        int vertex = addVertex(name, VertexKind.PAD, tile, tile, "");
        if (vertex != Fabric.NOTHING) {
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
                            setting,
                            use,
                            enable));
        }
        return vertex;
    }

    /** Marks a wire as not to be used. */
    public void setWireUnusable(int wire) {
        unusableWires.set(wire);
    }

    /** Marks a site as not to be used. */
    public void setSiteUnusable(int site) {
        unusableSites.set(site);
    }

    /** The vertex of that name, its own or one at a tap, or {@link Fabric#NOTHING}. */
    public int findVertex(String name) {
        return findVertex(split.of(name));
    }

    /**
     * Finds vertices as {@link #findVertex(String)} does. Belongs to one thread, but several can
     * find at a time, and one may add edges meanwhile.
     */
    public final class Finder {
        private final TileRelativeName own = new TileRelativeName(columns, rows);

        private Finder() {}

        /** By characters from one position to before another. */
        public int find(char[] name, int from, int to) {
            return findVertex(own.of(name, from, to));
        }
    }

    /** A new finder of vertices. */
    public Finder finder() {
        return new Finder();
    }

    private int findVertex(TileRelativeName name) {
        int own = vertices.find(name);
        return own == Fabric.NOTHING ? taps.find(name) : own;
    }

    /** The site or part of that full name, or {@link Fabric#NOTHING}. */
    public int findSite(String name) {
        return sites.find(split.of(name));
    }

    /**
     * Adds an edge. A second one between the same ends is left out, and reported after building.
     */
    public void addEdge(int from, int to, EdgeKind kind, Delay delay) {
        edges.add(from, to, classes.intern(kind, delay));
    }

    /** States the tile that contains the switch or connection between two vertices. */
    public void setSwitchTile(int from, int to, int tile) {
        switchTiles.put(EdgeKey.of(from, to), tile);
    }

    /**
     * Puts the switch between two vertices into a group of which at most one can be on.
     *
     * @return whether it is in no other group; else nothing is changed
     */
    public boolean addToSwitchGroup(String group, int from, int to) {
        return switchGroups.add(split.of(group), EdgeKey.of(from, to));
    }

    /** The same, for a group whose name stands from one position to before another. */
    public boolean addToSwitchGroup(char[] text, int start, int end, int from, int to) {
        return switchGroups.add(split.of(text, start, end), EdgeKey.of(from, to));
    }

    /**
     * The finished fabric. O(vertices + edges).
     *
     * @throws IllegalStateException when called again
     */
    public ExplicitFabric build() {
        if (built) {
            throw new IllegalStateException("a builder builds once");
        }
        built = true;
        int count = vertices.size();
        TileOffsets bases = TileOffsets.counting(columns * rows, tiles.elements(), count);
        int[] order = bases.order(tiles.elements(), count);
        int[] number = inverse(order);
        EdgeSorter sorter = new EdgeSorter(edges, bases, number, classes);
        SideWork<EdgeRows, RuntimeException> outgoing = new SideWork<>(sorter::rows);
        SideWork<EdgeRows, RuntimeException> incoming =
                new SideWork<>(
                        () ->
                                Transposer.transpose(
                                        bases, outgoing.get(), classes, Transposer.SLICE));
        if (count > SMALL) {
            outgoing.offer();
            incoming.offer();
        }
        int[] sortWithTaps = taps.sortsWithTaps(sorts, sortOf, tiles);
        VertexClasses kinds =
                new VertexClasses(sorts.values(), sortWithTaps, heads.elements(), order, bases);
        TileNames names = new TileNames(columns, rows, pool, vertices, order, bases);
        TapNames otherNames = taps.freeze(columns, rows, pool, number);
        TileOffsets siteBases =
                TileOffsets.counting(columns * rows, siteTiles.elements(), sites.size());
        int[] siteOrder = siteBases.order(siteTiles.elements(), sites.size());
        SiteList list =
                new SiteList(
                        models.values(),
                        modelOf.elements(),
                        pins(number),
                        siteOrder,
                        siteBases,
                        bases);
        TileNames siteNames = new TileNames(columns, rows, pool, sites, siteOrder, siteBases);
        NameIndex groupNames = switchGroups.namesIn(pool);
        pool.trim(true);
        int[] siteNumber = inverse(siteOrder);
        List<Pad> padList =
                pads.stream()
                        .map(p -> renumbered(p, number, siteNumber))
                        .sorted(Comparator.comparingInt(Pad::vertex))
                        .toList();
        SwitchGroupBag.Sorted sortedGroups = switchGroups.sorted(groupNames, number, bases);
        EdgeRows out = outgoing.get();
        repeated = sorter.repeated().stream().map(r -> named(r, names)).toList();
        noSwitches = switchGroups.noSwitches(out.cursor(), number, names);
        EdgeRows in = incoming.get();
        Optional<TileSwitchGroups> groups =
                sortedGroups.freeze(columns, rows, pool, groupNames, bases, in);
        Function<SwitchTiles, ExplicitFabric> withStatedTiles =
                stated ->
                        new ExplicitFabric(
                                info,
                                columns,
                                rows,
                                tileTypes,
                                bases,
                                kinds,
                                names,
                                list,
                                siteNames,
                                padList,
                                out,
                                in,
                                pool,
                                otherNames,
                                stated,
                                groups,
                                renumbered(unusableWires, number),
                                renumbered(unusableSites, siteNumber));
        ExplicitFabric result =
                withStatedTiles.apply(notInferred(withStatedTiles.apply(SwitchTiles.NONE), number));
        return result;
    }

    /**
     * The stated tiles of switches that a fabric without them does not know: a description that
     * states all of them would else take more memory than the rest of the fabric.
     */
    private SwitchTiles notInferred(Fabric fabric, int[] number) {
        Long2IntOpenHashMap result = new Long2IntOpenHashMap();
        for (Long2IntMap.Entry entry : switchTiles.long2IntEntrySet()) {
            int from = number[EdgeKey.from(entry.getLongKey())];
            int to = number[EdgeKey.to(entry.getLongKey())];
            if (fabric.switchTile(from, to) != entry.getIntValue()) {
                result.put(EdgeKey.of(from, to), entry.getIntValue());
            }
        }
        return SwitchTiles.of(result);
    }

    private static ParallelEdges named(EdgeSorter.Repeated edge, TileNames names) {
        return new ParallelEdges(names.name(edge.from()), names.name(edge.to()), edge.kept());
    }

    private static int[] inverse(int[] order) {
        int[] number = new int[order.length];
        for (int i = 0; i < order.length; i++) {
            number[order[i]] = i;
        }
        return number;
    }

    private static BitSet renumbered(BitSet numbers, int[] number) {
        BitSet result = new BitSet();
        numbers.stream().forEach(n -> result.set(number[n]));
        return result;
    }

    /** First pins in final numbers; of sites without pins any number. */
    private int[] pins(int[] number) {
        return firstPins.intStream().map(p -> p < number.length ? number[p] : 0).toArray();
    }

    private static Pad renumbered(Pad pad, int[] number, int[] siteNumber) {
        return new Pad(
                pad.name(),
                number[pad.vertex()],
                pad.tile(),
                pad.packagePin(),
                pad.bank(),
                pad.directions(),
                pad.dataSite() == Fabric.NOTHING ? Fabric.NOTHING : siteNumber[pad.dataSite()],
                pad.enableSite() == Fabric.NOTHING ? Fabric.NOTHING : siteNumber[pad.enableSite()],
                pad.defaultSetting(),
                pad.use(),
                pad.enable());
    }

    /** After building: edges of which a second was left out, some thousands at most. */
    public List<ParallelEdges> repeated() {
        return repeated;
    }

    /** After building: pads whose partner is no other pad. */
    public List<NoPartner> noPartners() {
        Map<String, Integer> numbers = new HashMap<>();
        pads.forEach(p -> numbers.put(p.name(), numbers.size()));
        List<NoPartner> result = new ArrayList<>();
        for (int i = 0; i < pads.size(); i++) {
            String partner = pads.get(i).use().driving().partner();
            if (!partner.isEmpty() && numbers.getOrDefault(partner, i) == i) {
                result.add(new NoPartner(i, partner));
            }
        }
        return result;
    }

    /**
     * A pad whose partner is no other pad.
     *
     * @param pad its number, in the order in which pads were added
     * @param partner what it names
     */
    public record NoPartner(int pad, String partner) {
        /** What should have stood there. */
        public static final String EXPECTED = "the full name of another pad";
    }

    /** After building: members of switch groups between whose ends there is no switch. */
    public List<NoSwitch> noSwitches() {
        return noSwitches;
    }

    /**
     * A member of a switch group that is no switch of the fabric.
     *
     * @param group number of the group, in the order in which groups were added
     * @param member number of the member in the group, in the order in which they were added
     * @param from full name of the vertex where it would begin
     * @param to full name of the one where it would end
     */
    public record NoSwitch(int group, int member, String from, String to) {}
}
