package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.Optional;
import java.util.OptionalInt;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.timing.TreeDelays;
import padward.unblock.release.NetResources;

/**
 * What a move does to one net.
 *
 * @param net the net's name
 * @param sink the sink whose delay at the slow corner grows the most
 * @param before delay from the driver to that sink, before the move
 * @param after the same, after the move
 * @param slackBeforePs least of required time less arrival at the slow corner, ps; empty when the
 *     design states no required time
 * @param slackAfterPs the same, after the move
 * @param earlierSink the sink whose signal arrives earlier by the most at the fast corner
 * @param earlierPs by how much, ps; 0 when none arrives earlier
 */
public record DelayChange(
        String net,
        String sink,
        Delay before,
        Delay after,
        OptionalInt slackBeforePs,
        OptionalInt slackAfterPs,
        String earlierSink,
        int earlierPs) {
    /** Whether the net meets its required time before the move and misses it after. */
    public boolean breaksTiming() {
        return slackAfterPs.orElse(0) < 0 && slackBeforePs.orElse(0) >= 0;
    }

    /**
     * What an edit does to a net that it puts on other wires.
     *
     * @param design the design before the edit
     * @param net the net there
     * @param with the cell that goes to another site with it, if one does
     */
    public static DelayChange of(
            Design design, Net net, Edit.RouteNet edit, Optional<Edit.RelocateCell> with) {
        NetEnds ends = with.map(cell -> NetEnds.relocated(design, cell)).orElse(design::vertexOf);
        return of(
                design,
                net,
                new NetResources(design, net),
                edit.route(),
                NetEnds.swapped(design, ends, edit.swaps()));
    }

    /**
     * Calculates what it means for a net to lie elsewhere. O(wires of the net, before and after).
     *
     * @param used what the net uses before
     * @param endsAfter where its ends are after the move
     */
    static DelayChange of(
            Design design, Net net, NetResources used, RouteTree after, NetEnds endsAfter) {
        Fabric fabric = design.fabric();
        TreeDelays old = TreeDelays.of(fabric, net.route());
        TreeDelays fresh = TreeDelays.of(fabric, after);
        String worst = "";
        Delay worstBefore = Delay.ZERO;
        Delay worstAfter = Delay.ZERO;
        int most = Integer.MIN_VALUE;
        String earlierSink = "";
        int earlierPs = 0;
        OptionalInt slackBefore = OptionalInt.empty();
        OptionalInt slackAfter = OptionalInt.empty();
        Int2IntOpenHashMap placeAfter = new Int2IntOpenHashMap();
        placeAfter.defaultReturnValue(Fabric.NOTHING);
        for (int place = 0; place < after.size(); place++) {
            placeAfter.put(after.vertex(place), place);
        }
        for (Terminal sink : net.sinks()) {
            int placeBefore = used.placeOf(design.vertexOf(sink));
            int now = placeAfter.get(endsAfter.vertexOf(sink));
            if (placeBefore == Fabric.NOTHING || now == Fabric.NOTHING) {
                continue;
            }
            Delay one = old.at(placeBefore);
            Delay other = fresh.at(now);
            slackBefore = least(slackBefore, net.requiredPs(sink), one);
            slackAfter = least(slackAfter, net.requiredPs(sink), other);
            if (one.fastPs() - other.fastPs() > earlierPs) {
                earlierPs = one.fastPs() - other.fastPs();
                earlierSink = design.textOf(sink);
            }
            if (other.slowPs() - one.slowPs() > most) {
                most = other.slowPs() - one.slowPs();
                worst = design.textOf(sink);
                worstBefore = one;
                worstAfter = other;
            }
        }
        return new DelayChange(
                net.name(),
                worst,
                worstBefore,
                worstAfter,
                slackBefore,
                slackAfter,
                earlierSink,
                earlierPs);
    }

    private static OptionalInt least(OptionalInt known, OptionalInt required, Delay arrival) {
        if (required.isEmpty()) {
            return known;
        }
        int slack = required.getAsInt() - arrival.slowPs();
        return OptionalInt.of(Math.min(known.orElse(Integer.MAX_VALUE), slack));
    }
}
