package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;

/**
 * The request for a group.
 *
 * @param design the design
 * @param nets the nets to be served, in the order of the bits
 * @param pads indices of pads that may be taken, in their order on the board
 * @param aim what the choice of pads minimizes
 * @param there nets that are already on one of the pads, which is then not available
 */
record BusRequest(
        Design design, List<Net> nets, List<Integer> pads, Bus.Aim aim, List<Bus.Left> there) {
    /** Copies the lists. */
    BusRequest {
        nets = List.copyOf(nets);
        pads = List.copyOf(pads);
        there = List.copyOf(there);
    }

    /** Separates the nets that are already on one of the pads. */
    static BusRequest of(Design design, List<Net> nets, List<Integer> pads, Bus.Aim aim) {
        List<Net> toServe = new ArrayList<>();
        List<Integer> mayTake = new ArrayList<>(pads);
        List<Bus.Left> there = new ArrayList<>();
        for (Net net : nets) {
            Optional<Integer> on = padOn(design, net, pads);
            if (on.isPresent()) {
                mayTake.remove(on.get());
                String pad = design.fabric().pads().get(on.get()).name();
                there.add(new Bus.Left(net, "it is already on pad " + pad, false));
            } else {
                toServe.add(net);
            }
        }
        return new BusRequest(design, toServe, mayTake, aim, there);
    }

    private static Optional<Integer> padOn(Design design, Net net, List<Integer> pads) {
        return pads.stream()
                .filter(
                        p ->
                                net.route().placeOf(design.fabric().pads().get(p).vertex())
                                        != Fabric.NOTHING)
                .findFirst();
    }

    /** A pad for each net according to the aim; {@link Matching#NONE} for nets without one. */
    int[] choose(int[][] costs) {
        return switch (aim) {
            case SUM -> Matching.leastSum(costs);
            case WORST -> Matching.leastWorst(costs);
            case SKEW -> Matching.leastSpread(costs);
            case ORDER -> Matching.inOrder(costs);
        };
    }
}
