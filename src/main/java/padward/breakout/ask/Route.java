package padward.breakout.ask;

import java.util.List;
import java.util.Optional;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.route.search.VertexPath;

/**
 * A route from a net's driver to a pad: first along the net's own tree, then over new edges.
 *
 * @param hops from the driver's vertex to the pad's, both included
 * @param branchHop index of the hop at which the new part leaves the net's own tree
 * @param setting the pad driver's setting that the sum includes; empty when none is known
 * @param toPadVertex delay from the net's driver to the pad driver's input
 * @param total delay to the pin: {@code toPadVertex}, the pad driver at its rated load, and the
 *     package
 * @param proven whether the search looked at all free routes; one among switches that exclude each
 *     other may stop before. Then a free route may be faster, or of a blocked answer, may exist
 */
public record Route(
        List<Hop> hops,
        int branchHop,
        Optional<DriverSetting> setting,
        Delay toPadVertex,
        Delay total,
        boolean proven) {
    /** Copies the hops. */
    public Route {
        hops = List.copyOf(hops);
    }

    /** The delay of what two routes of one net have in common, from its driver on. */
    public Delay shared(Route other) {
        int last = -1;
        int most = Math.min(hops.size(), other.hops.size());
        while (last + 1 < most
                && hops.get(last + 1).vertex() == other.hops.get(last + 1).vertex()) {
            last++;
        }
        return last < 0 ? Delay.ZERO : hops.get(last).total();
    }

    /** The vertices of the new part, from the net's own tree to the pad. */
    VertexPath newPart() {
        return new VertexPath(hops.stream().skip(branchHop).mapToInt(Hop::vertex).toArray());
    }
}
