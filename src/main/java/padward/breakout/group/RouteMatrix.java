package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.design.Net;

/**
 * What a group could do: each net's way to each pad, alone, from which pads are chosen. It can be
 * laid again and again with other choices pinned. For any thread.
 */
public final class RouteMatrix {
    private final BusRequest request;
    private final BusCosts prices;

    private RouteMatrix(BusRequest request, BusCosts prices) {
        this.request = request;
        this.prices = prices;
    }

    /**
     * Prices all pairs. Nets that are on one of the pads already are sorted out.
     *
     * @param nets the nets, in the order of the bits
     * @param pads indices of pads that may be taken, in their order on the board
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RouteMatrix of(
            Design design, List<Net> nets, List<Integer> pads, Bus.Aim aim, Progress progress) {
        BusRequest request = BusRequest.of(design, nets, pads, aim);
        return new RouteMatrix(request, BusCosts.of(request, progress));
    }

    /**
     * Works out whatever {@link #answer} can be asked for, so that it never has to be waited for.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public void complete(Progress progress) {
        prices.complete(progress);
    }

    /** The design. */
    public Design design() {
        return request.design();
    }

    /** The nets to be served. */
    public List<Net> nets() {
        return request.nets();
    }

    /** Indices of the pads that may be taken. */
    public List<Integer> pads() {
        return request.pads();
    }

    /** The quick answer for a net and a pad, by their places in the lists. */
    public Answer answer(int net, int pad) {
        return prices.answer(net, pad);
    }

    /**
     * Chooses pads, but for those that are pinned, and lays the ways.
     *
     * @param pinned places of pads by places of nets; what is not open is not laid, pinned or not
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public Bus route(Map<Integer, Integer> pinned, Progress progress) {
        return route(pinned, Optional.empty(), progress);
    }

    /** The same, watched: is told what each round of negotiation left. */
    Bus route(
            Map<Integer, Integer> pinned,
            Optional<Consumer<Bus.Round>> watcher,
            Progress progress) {
        int[][] alonePs = prices.freePs();
        for (int i = 0; i < alonePs.length; i++) {
            for (int j = 0; j < alonePs[i].length; j++) {
                boolean other = pinned.containsKey(i) && pinned.get(i) != j;
                boolean taken = !pinned.containsKey(i) && pinned.containsValue(j);
                alonePs[i][j] = other || taken ? Matching.NONE : alonePs[i][j];
            }
        }
        int[] choice = request.choose(alonePs);
        List<Bus.Left> left = new ArrayList<>(request.there());
        BusRouting routing = new BusRouting(request.design());
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] == Matching.NONE) {
                left.add(prices.left(i));
            } else {
                int pad = request.pads().get(choice[i]);
                routing.add(request.nets().get(i), pad, alonePs[i][choice[i]]);
            }
        }
        return routing.route(left, watcher, progress);
    }
}
