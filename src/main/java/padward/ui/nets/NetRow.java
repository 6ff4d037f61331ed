package padward.ui.nets;

import java.util.Optional;
import padward.breakout.survey.PadReachability;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Delay;
import padward.timing.TreeDelays;

/**
 * What the nets browser shows of a net, or of a group of nets.
 *
 * @param label the last part of its name
 * @param name its full name; empty for a group
 * @param fanOut number of sinks; of a group, of nets
 * @param length number of wires that it uses
 * @param latest delay to its latest sink; empty for a group
 * @param remark {@code clock}, or how many nets a group has; may be empty
 * @param leadsOut whether some pad could be reached if everything else were removed
 */
public record NetRow(
        String label,
        String name,
        int fanOut,
        int length,
        String latest,
        String remark,
        boolean leadsOut) {
    static NetRow of(Design design, Net net, PadReachability reachability, String label) {
        return new NetRow(
                label,
                net.name(),
                net.sinks().size(),
                wires(design.fabric(), net.route()),
                findLatest(design, net).map(Delay::toText).orElse(""),
                net.clock() ? "clock" : "",
                reachability.leadOutOf(net));
    }

    private static int wires(Fabric fabric, RouteTree tree) {
        int count = 0;
        for (int place = 0; place < tree.size(); place++) {
            count += fabric.kind(tree.vertex(place)) == VertexKind.WIRE ? 1 : 0;
        }
        return count;
    }

    static NetRow group(String label, int nets) {
        return new NetRow(label, "", nets, 0, "", nets == 1 ? "1 net" : nets + " nets", true);
    }

    boolean isGroup() {
        return name.isEmpty();
    }

    /** Delay from the driver to its latest sink; empty without a sink. */
    public static Optional<Delay> findLatest(Design design, Net net) {
        if (net.sinks().isEmpty()) {
            return Optional.empty();
        }
        TreeDelays delays = TreeDelays.of(design.fabric(), net.route());
        Delay latest = Delay.ZERO;
        for (Terminal sink : net.sinks()) {
            int place = net.route().placeOf(design.vertexOf(sink));
            if (place >= 0 && delays.at(place).slowPs() > latest.slowPs()) {
                latest = delays.at(place);
            }
        }
        return Optional.of(latest);
    }
}
