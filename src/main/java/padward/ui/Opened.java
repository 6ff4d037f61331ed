package padward.ui;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.breakout.Outlets;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;

/** An opened design with what the views need of it, made once off the UI thread. */
final class Opened {
    private final Design design;
    private final TileIndex index;
    private final TileLayout layout;
    private final List<String> netNames;
    private final List<String> padNames;
    private final List<String> placeNames;
    private Outlets outlets;

    Opened(Design design) {
        this.design = design;
        this.index = new TileIndex(design.fabric(), design.occupancy());
        this.layout = new TileLayout(design.fabric(), index);
        this.netNames = design.nets().stream().map(Net::name).sorted().toList();
        this.padNames =
                IntStream.range(0, design.fabric().pads().size())
                        .boxed()
                        .flatMap(i -> PadNames.namesOf(design, i).stream())
                        .distinct()
                        .toList();
        this.placeNames =
                Stream.concat(netNames.stream(), design.cells().stream().map(Cell::name))
                        .distinct()
                        .sorted()
                        .toList();
    }

    /** From where pads can be reached; worked out when first asked for. */
    synchronized Outlets outlets() {
        if (outlets == null) {
            outlets = Outlets.of(design.fabric());
        }
        return outlets;
    }

    /** Names of nets and cells, sorted. */
    List<String> placeNames() {
        return placeNames;
    }

    Design design() {
        return design;
    }

    TileIndex index() {
        return index;
    }

    TileLayout layout() {
        return layout;
    }

    List<String> netNames() {
        return netNames;
    }

    List<String> padNames() {
        return padNames;
    }
}
