package padward.breakout;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Net;
import padward.fabric.Corner;
import padward.route.Engine;

/** What each net's way to each pad takes, alone. */
final class BusPrices {
    private final BusRequest request;
    private final List<Map<Integer, Answer>> alone;

    private BusPrices(BusRequest request, List<Map<Integer, Answer>> alone) {
        this.request = request;
        this.alone = alone;
    }

    /** Prices all pairs with one or two sweeps over the fabric for each net. */
    static BusPrices of(BusRequest request, Progress progress) {
        List<Map<Integer, Answer>> alone = new ArrayList<>();
        int count = request.nets().size();
        for (Net net : request.nets()) {
            progress.report((double) alone.size() / count, "pricing " + net.name());
            Map<Integer, Answer> byPad = new HashMap<>();
            if (!request.pads().isEmpty()) {
                Survey.of(
                                request.design(),
                                net,
                                request.pads(),
                                Corner.SLOW,
                                Engine.OWN,
                                Progress.NONE)
                        .answers()
                        .forEach(a -> byPad.put(a.question().pad(), a));
            }
            if (progress.cancelled()) {
                throw new CancellationException("stopped on request");
            }
            alone.add(byPad);
        }
        return new BusPrices(request, alone);
    }

    /** The quick answer for a net and a pad, by their places in the request. */
    Answer answer(int net, int pad) {
        return alone.get(net).get(request.pads().get(pad));
    }

    /** Delays of the ways over what is free, slow corner; {@link Matching#NONE} for no such way. */
    int[][] freePs() {
        int[][] result = new int[alone.size()][request.pads().size()];
        for (int i = 0; i < result.length; i++) {
            for (int j = 0; j < result[i].length; j++) {
                result[i][j] =
                        answer(i, j) instanceof Answer.Open open
                                ? open.way().total().slowPs()
                                : Matching.NONE;
            }
        }
        return result;
    }

    /** A net that got no pad, and why. */
    Bus.Left left(int net) {
        int open = 0;
        int blocked = 0;
        for (int j = 0; j < request.pads().size(); j++) {
            open += answer(net, j) instanceof Answer.Open ? 1 : 0;
            blocked += answer(net, j) instanceof Answer.Blocked ? 1 : 0;
        }
        String reason = "it has no way to any of the pads";
        if (open == 1) {
            reason = "the only pad that it reaches is taken by another";
        } else if (open > 1) {
            reason = "all " + open + " pads that it reaches are taken by the others";
        } else if (blocked > 0) {
            reason = "none of the pads is open to it, " + blocked + " are blocked";
        }
        return new Bus.Left(request.nets().get(net), reason, blocked > 0);
    }
}
