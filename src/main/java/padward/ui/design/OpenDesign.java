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

/** An opened design with what the views need of it, made once off the UI thread. */
public final class OpenDesign {
    private final Design design;
    private final TileIndex index;
    private final TileLayout layout;
    private final ChannelFill fill;
    private final TileKinds kinds;
    private final TreeParents parents = new TreeParents();
    private final Lazy<PadReachability> outlets;

    // Names are wanted by whoever types, not by the first picture.
    private final Lazy<List<String>> netNames;
    private final Lazy<List<String>> padNames;
    private final Lazy<List<String>> placeNames;

    /** Makes the indexes, O(vertices + tiles): to be done off the UI thread. */
    public OpenDesign(Design design) {
        this(design, new TileIndex(design.fabric()));
    }

    private OpenDesign(Design design, TileIndex index) {
        this(
                design,
                index,
                new TileLayout(design.fabric(), index),
                new TileKinds(design.fabric()),
                new Lazy<>(() -> PadReachability.of(design.fabric())));
    }

    private OpenDesign(
            Design design,
            TileIndex index,
            TileLayout layout,
            TileKinds kinds,
            Lazy<PadReachability> outlets) {
        this.design = design;
        this.index = index;
        this.layout = layout;
        this.kinds = kinds;
        this.outlets = outlets;
        this.fill = new ChannelFill(design.fabric(), index, design.occupancy());
        this.netNames = new Lazy<>(() -> design.nets().stream().map(Net::name).sorted().toList());
        this.padNames = new Lazy<>(() -> padNames(design));
        this.placeNames =
                new Lazy<>(
                        () ->
                                Stream.concat(
                                                netNames().stream(),
                                                design.cells().stream().map(Cell::name))
                                        .distinct()
                                        .sorted()
                                        .toList());
    }

    private static List<String> padNames(Design design) {
        return IntStream.range(0, design.fabric().pads().size())
                .boxed()
                .flatMap(i -> PadNames.namesOf(design, i).stream())
                .distinct()
                .toList();
    }

    /**
     * Works out now what would be worked out when it is first asked for, so that no frame and no
     * typing has to wait for it. To be done off the UI thread.
     */
    public void prepare() {
        design.fabric().edgesIn();
        placeNames();
        padNames();
    }

    /** The same with another design; what follows from the fabric alone is not made again. */
    public OpenDesign with(Design next) {
        return next.fabric() == design.fabric()
                ? new OpenDesign(next, index, layout, kinds, outlets)
                : new OpenDesign(next);
    }

    /** From where nets come to vertices. */
    public TreeParents parents() {
        return parents;
    }

    /** The kinds of tile. */
    public TileKinds kinds() {
        return kinds;
    }

    /** How full tiles and channels are. */
    public ChannelFill fill() {
        return fill;
    }

    /** From where pads can be reached; worked out when first asked for. */
    public PadReachability outlets() {
        return outlets.get();
    }

    /** Names of nets and cells, sorted. */
    public List<String> placeNames() {
        return placeNames.get();
    }

    /** The design as it stands with all that is kept. */
    public Design design() {
        return design;
    }

    /** What each tile holds. */
    public TileIndex index() {
        return index;
    }

    /** Where things stand. */
    public TileLayout layout() {
        return layout;
    }

    /** Names of all nets, sorted. */
    public List<String> netNames() {
        return netNames.get();
    }

    /** All that pads are called: full names, package pins, ports, header pins. */
    public List<String> padNames() {
        return padNames.get();
    }
}
