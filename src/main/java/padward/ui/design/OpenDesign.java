package padward.ui.design;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.base.Lazy;
import padward.breakout.survey.PadReachability;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;

/** The open design with what the views need to show it; created once, off the UI thread. */
public final class OpenDesign {
    private final Design design;
    private final TileIndex index;
    private final TileLayout layout;
    private final Lazy<ChannelFill> fill;
    private final TileKinds kinds;
    private final TreeParents parents = new TreeParents();
    private final Lazy<PadReachability> padReachability;
    private final BoxDiagrams diagrams;

    // Names are needed when the user types, not for the first picture.
    private final Lazy<SearchableNames> netNames;
    private final Lazy<SearchableNames> padNames;
    private final Lazy<SearchableNames> placeNames;

    /** Builds the indexes, O(vertices + tiles); call it off the UI thread. */
    public OpenDesign(Design design) {
        this(design, new TileIndex(design.fabric()));
    }

    private OpenDesign(Design design, TileIndex index) {
        this(
                design,
                index,
                new TileLayout(design.fabric(), index),
                new TileKinds(design.fabric()),
                new Lazy<>(() -> PadReachability.of(design)),
                new BoxDiagrams(),
                ready(ChannelFill.of(design.fabric(), index, design.occupancy())));
    }

    private static <T> Lazy<T> ready(T value) {
        Lazy<T> result = new Lazy<>(() -> value);
        result.get();
        return result;
    }

    private OpenDesign(
            Design design,
            TileIndex index,
            TileLayout layout,
            TileKinds kinds,
            Lazy<PadReachability> padReachability,
            BoxDiagrams diagrams,
            Lazy<ChannelFill> fill) {
        this.design = design;
        this.index = index;
        this.layout = layout;
        this.kinds = kinds;
        this.padReachability = padReachability;
        this.diagrams = diagrams;
        this.fill = fill;
        this.netNames =
                new Lazy<>(
                        () ->
                                new SearchableNames(
                                        design.nets().stream().map(Net::name).sorted().toList()));
        this.padNames = new Lazy<>(() -> new SearchableNames(padNames(design)));
        this.placeNames =
                new Lazy<>(
                        () ->
                                new SearchableNames(
                                        Stream.concat(
                                                        netNames().stream(),
                                                        design.cells().stream().map(Cell::name))
                                                .distinct()
                                                .sorted()
                                                .toList()));
    }

    private static List<String> padNames(Design design) {
        return IntStream.range(0, design.fabric().pads().size())
                .boxed()
                .flatMap(i -> PadNames.namesOf(design, i).stream())
                .distinct()
                .toList();
    }

    /**
     * Calculates now what would otherwise be calculated on first use, so that no frame and no
     * typing has to wait for it. Call it off the UI thread.
     */
    public void prepare() {
        design.fabric().edgesIn();
        netNames().prepare();
        placeNames().prepare();
        padNames().prepare();
    }

    /**
     * The same for this design after some edits; what depends on the fabric alone is shared. O(1),
     * the rest is calculated on first use.
     *
     * @throws IllegalArgumentException when it is on another fabric
     */
    public OpenDesign with(Design next) {
        if (next.fabric() != design.fabric()) {
            throw new IllegalArgumentException("a design on another fabric");
        }
        return new OpenDesign(
                next,
                index,
                layout,
                kinds,
                next.locks().closed().equals(design.locks().closed())
                        ? padReachability
                        : new Lazy<>(() -> PadReachability.of(next)),
                diagrams,
                new Lazy<>(() -> fill.get().with(design.occupancy(), next.occupancy())));
    }

    /** The vertex before each vertex in the trees of nets. */
    public TreeParents parents() {
        return parents;
    }

    /** The kinds of tile, numbered. */
    public TileKinds kinds() {
        return kinds;
    }

    /** The inside of a tile's switch box; kept for the boxes seen last. */
    public BoxDiagram diagram(int tile) {
        return diagrams.of(this, tile);
    }

    /** How full tiles and channels are. */
    public ChannelFill fill() {
        return fill.get();
    }

    /** From where pads can be reached; calculated on first use. */
    public PadReachability padReachability() {
        return padReachability.get();
    }

    /** Names of nets and cells, sorted. */
    public SearchableNames placeNames() {
        return placeNames.get();
    }

    /** The design with all kept changes. */
    public Design design() {
        return design;
    }

    /** The vertices of each tile. */
    public TileIndex index() {
        return index;
    }

    /** Where things are drawn. */
    public TileLayout layout() {
        return layout;
    }

    /** Names of all nets, sorted. */
    public SearchableNames netNames() {
        return netNames.get();
    }

    /** All names of pads: full names, package pins, ports, header pins. */
    public SearchableNames padNames() {
        return padNames.get();
    }
}
