package padward.place;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import java.util.ArrayList;
import java.util.List;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * Wires that feed pins of several cells by fixed connections and alone, as one clock for all
 * registers of a tile does: such a wire carries one net, so cells there need the same one. Counts
 * how many nets too many a placement brings to them, while blocks are put and moved. For one
 * thread.
 */
final class SharedSignalWires {
    /** A signal that a cell of a block takes. */
    private record Input(int cell, String pin, int net) {}

    private final Fabric fabric;
    private final CellPlaces places;
    private final PlacementSites sites;
    private final PackedNetlist packed;
    private final EdgeCursor into;
    private final List<List<Input>> inputsOfBlock = new ArrayList<>();
    private final Int2IntOpenHashMap feeders = new Int2IntOpenHashMap();
    private final Int2ObjectOpenHashMap<Int2IntOpenHashMap> netsOnFeeder =
            new Int2ObjectOpenHashMap<>();
    private int tooMany;

    SharedSignalWires(
            Fabric fabric, PackedNetlist packed, CellPlaces places, PlacementSites sites) {
        this.fabric = fabric;
        this.places = places;
        this.sites = sites;
        this.packed = packed;
        this.into = fabric.edgesIn();
        for (int b = 0; b < packed.blockCount(); b++) {
            inputsOfBlock.add(new ArrayList<>());
        }
        List<Netlist.LogicalNet> nets = packed.netlist().nets();
        for (int n = 0; n < nets.size(); n++) {
            for (Terminal sink : nets.get(n).sinks()) {
                if (sink instanceof Terminal.CellPin at) {
                    inputsOfBlock
                            .get(packed.blockOfCell()[at.cell()])
                            .add(new Input(at.cell(), at.pin(), n));
                }
            }
        }
    }

    /** How many nets come to such wires beyond the one that each of them can carry. */
    int tooMany() {
        return tooMany;
    }

    /** Notes that a block is on a spot, {@code by} 1, or no longer is, {@code by} -1. */
    void count(int block, int spot, int by) {
        if (sites.isPad(spot)) {
            return;
        }
        for (Input input : inputsOfBlock.get(block)) {
            int feeder = feeder(input, spot);
            if (feeder != Fabric.NOTHING) {
                Int2IntOpenHashMap nets =
                        netsOnFeeder.computeIfAbsent(feeder, f -> new Int2IntOpenHashMap());
                int before = Math.max(0, nets.size() - 1);
                if (nets.addTo(input.net, by) + by == 0) {
                    nets.remove(input.net);
                }
                tooMany += Math.max(0, nets.size() - 1) - before;
            }
        }
    }

    /** The wire that alone feeds a cell's pin on a spot. */
    private int feeder(Input input, int spot) {
        String kind = packed.netlist().cells().get(input.cell).kind();
        int site =
                packed.firstOfCell()[input.cell] == Fabric.NOTHING
                        ? places.siteFor(spot, kind)
                        : places.secondOf(spot);
        if (site == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        SiteView view = fabric.site(site);
        int pin = view.findPin(input.pin);
        return pin == Fabric.NOTHING
                ? Fabric.NOTHING
                : feeders.computeIfAbsent(pin, this::feederOf);
    }

    private int feederOf(int pin) {
        int at = pin;
        for (int steps = 0; steps < 8; steps++) {
            into.reset(at);
            if (!into.next() || into.kind() != EdgeKind.CONNECTION) {
                break;
            }
            int from = into.other();
            if (into.next()) {
                break;
            }
            at = from;
        }
        return at == pin ? Fabric.NOTHING : at;
    }
}
