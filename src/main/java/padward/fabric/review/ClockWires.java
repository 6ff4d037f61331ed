package padward.fabric.review;

import java.util.HashSet;
import java.util.Set;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.pad.PadUse;

/** Wires that are for clocks: those of kinds that pads for clocks lead to, and no other pads. */
public final class ClockWires {
    private ClockWires() {}

    /** Their kinds; empty when there are none. O(edges of pads). */
    public static Set<String> kinds(Fabric fabric) {
        Set<String> fromClockPads = new HashSet<>();
        Set<String> fromOthers = new HashSet<>();
        EdgeCursor edges = fabric.edgesOut();
        for (Pad pad : fabric.pads()) {
            boolean clock = pad.use().role() == PadUse.Role.CLOCK;
            edges.reset(pad.vertex());
            while (edges.next()) {
                (clock ? fromClockPads : fromOthers).add(fabric.wireKind(edges.other()));
            }
        }
        fromClockPads.removeAll(fromOthers);
        fromClockPads.remove("");
        return fromClockPads;
    }
}
