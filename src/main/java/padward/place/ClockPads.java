package padward.place;

import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import padward.base.Progress;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.pad.PadUse;

/**
 * The pads from which a clock can come: on many fabrics, wires to clock pins begin at a few pads
 * only. Found by searching back from a clock pin of a site of each kind.
 */
final class ClockPads {
    private ClockPads() {}

    /**
     * Indices of the pads that reach a pin of every kind of cell that a clock feeds; where some of
     * these are meant for clocks, only they.
     *
     * @param asked pads that somebody wants for ports, whatever they are meant for
     */
    static Set<Integer> of(
            Fabric fabric,
            Netlist netlist,
            BitSet closed,
            Collection<Integer> asked,
            Progress progress) {
        Set<Integer> result = new HashSet<>();
        for (int p = 0; p < fabric.pads().size(); p++) {
            result.add(p);
        }
        Map<Integer, Integer> padByVertex = new HashMap<>();
        for (int p = 0; p < fabric.pads().size(); p++) {
            padByVertex.put(fabric.pads().get(p).vertex(), p);
        }
        for (int pin : clockPins(fabric, netlist)) {
            Set<Integer> reached = new HashSet<>();
            BitSet seen = Reachability.from(pin, fabric.edgesIn(), closed, progress);
            for (Pad pad : fabric.pads()) {
                if (seen.get(pad.vertex())) {
                    reached.add(padByVertex.get(pad.vertex()));
                }
            }
            result.retainAll(reached);
        }
        // Where some of them are meant for clocks, a clock comes in there.
        Set<Integer> meant = new HashSet<>(result);
        meant.removeIf(p -> !isMeant(fabric.pads().get(p)));
        if (meant.isEmpty()) {
            return result;
        }
        result.retainAll(asked);
        meant.addAll(result);
        return meant;
    }

    private static boolean isMeant(Pad pad) {
        return pad.use().role() == PadUse.Role.CLOCK && pad.use().isOffered();
    }

    /** One pin for each kind of cell and name of pin: that of its middle site. */
    private static Set<Integer> clockPins(Fabric fabric, Netlist netlist) {
        Map<String, String> pinByKind = new HashMap<>();
        for (Netlist.LogicalNet net : netlist.nets()) {
            for (Terminal sink : net.sinks()) {
                if (net.clock() && sink instanceof Terminal.CellPin at) {
                    pinByKind.put(netlist.cells().get(at.cell()).kind(), at.pin());
                }
            }
        }
        Set<Integer> pins = new HashSet<>();
        for (Map.Entry<String, String> kind : pinByKind.entrySet()) {
            int middle = fabric.siteCount() / 2;
            for (int i = 0; i < fabric.siteCount(); i++) {
                SiteView site = fabric.site((middle + i) % fabric.siteCount());
                if (site.accepts().contains(kind.getKey())) {
                    pins.add(site.findPin(kind.getValue()));
                    break;
                }
            }
        }
        return pins;
    }
}
