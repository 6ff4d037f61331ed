package padward.breakout.group;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.OneToAllRoutes;
import padward.breakout.survey.Survey;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.search.Engine;

/**
 * The cost of each net's route to each pad, alone. Open pairs are known from the start; everything
 * else about a net is calculated on demand, because most groups never need it. Thread-safe.
 */
final class BusCosts {
    private final BusRequest request;
    private final List<List<Optional<Answer.FreeRoute>>> open;
    private final Map<Integer, Map<Integer, Answer>> full = new HashMap<>();

    private BusCosts(BusRequest request, List<List<Optional<Answer.FreeRoute>>> open) {
        this.request = request;
        this.open = open;
    }

    /** Finds the open pairs, with one one-to-all search per net. */
    static BusCosts of(BusRequest request, Progress progress) {
        Asker asker = new Asker(request.design().fabric(), Engine.OWN);
        List<List<Optional<Answer.FreeRoute>>> open = new ArrayList<>();
        int count = request.nets().size();
        for (Net net : request.nets()) {
            progress.report((double) open.size() / count, "searching routes of " + net.name());
            progress.check();
            open.add(openTo(asker, request, net, progress));
        }
        return new BusCosts(request, open);
    }

    private static List<Optional<Answer.FreeRoute>> openTo(
            Asker asker, BusRequest request, Net net, Progress progress) {
        List<Optional<Answer.FreeRoute>> result = new ArrayList<>();
        Optional<OneToAllRoutes> oneToAll = Optional.empty();
        for (int pad : request.pads()) {
            Question question =
                    new Question(request.design(), net, pad, Corner.SLOW, request.driver());
            if (oneToAll.isEmpty()) {
                oneToAll =
                        Optional.of(
                                OneToAllRoutes.from(
                                        asker.own(request.design(), net), Corner.SLOW, progress));
            }
            Asker.Finder finder = oneToAll.get().finderFor(question, progress);
            result.add(asker.ifFree(question, finder, progress));
        }
        return result;
    }

    /**
     * The quick answer for a net and a pad, by their positions in the request. The first call for a
     * pair that is not open calculates all answers of that net: two one-to-all searches, and one
     * search for each pad whose port must be disconnected.
     */
    Answer answer(int net, int pad) {
        Optional<Answer.FreeRoute> known = open.get(net).get(pad);
        return known.isPresent() ? known.get() : all(net).get(request.pads().get(pad));
    }

    /** Calculates all answers, so that later calls return at once. */
    void complete(Progress progress) {
        int count = request.nets().size();
        for (int net = 0; net < count; net++) {
            progress.report((double) net / count, "asking for " + request.nets().get(net).name());
            progress.check();
            if (open.get(net).stream().anyMatch(Optional::isEmpty)) {
                all(net);
            }
        }
    }

    private synchronized Map<Integer, Answer> all(int net) {
        return full.computeIfAbsent(
                net,
                n -> {
                    Map<Integer, Answer> byPad = new HashMap<>();
                    Survey.of(
                                    request.design(),
                                    request.nets().get(n),
                                    request.pads(),
                                    Corner.SLOW,
                                    request.driver(),
                                    Engine.OWN,
                                    Progress.NONE)
                            .answers()
                            .forEach(a -> byPad.put(a.question().pad(), a));
                    return byPad;
                });
    }

    /** Delays of the free routes, slow corner, ps; {@link Matching#NONE} where there is none. */
    int[][] freePs() {
        int[][] result = new int[open.size()][request.pads().size()];
        for (int i = 0; i < result.length; i++) {
            for (int j = 0; j < result[i].length; j++) {
                boolean allowed = request.isAllowed(j);
                result[i][j] =
                        open.get(i)
                                .get(j)
                                .filter(a -> allowed)
                                .map(a -> a.route().total().slowPs())
                                .orElse(Matching.NONE);
            }
        }
        return result;
    }

    /** A net without a pad, with the reason. */
    Bus.Left left(int net) {
        int reached = 0;
        int withPort = 0;
        for (int j = 0; j < request.pads().size(); j++) {
            if (open.get(net).get(j).isPresent()) {
                reached += request.isAllowed(j) ? 1 : 0;
                withPort += request.isAllowed(j) ? 0 : 1;
            }
        }
        boolean blocked = isAnyBlocked(net);
        String reason = "it has no route to any of the pads";
        if (reached == 1) {
            reason = "the only pad that it reaches is taken by another net";
        } else if (reached > 1) {
            reason = "all " + reached + " pads that it reaches are taken by other nets";
        } else if (withPort > 0) {
            reason =
                    "each pad that it reaches has a port that would lose it; it is taken only if"
                            + " ports may be disconnected";
        } else if (blocked) {
            reason = "none of the pads is open to it, but removing what blocks it would open some";
        }
        return new Bus.Left(request.nets().get(net), reason, blocked);
    }

    /** Whether some pad is Blocked for a net. Asks pad by pad, because usually the first one is. */
    private synchronized boolean isAnyBlocked(int net) {
        if (full.containsKey(net)) {
            return IntStream.range(0, request.pads().size())
                    .filter(request::isAllowed)
                    .anyMatch(j -> answer(net, j) instanceof Answer.Blocked);
        }
        Asker asker = new Asker(request.design().fabric(), Engine.OWN);
        for (int j = 0; j < request.pads().size(); j++) {
            if (request.isAllowed(j) && open.get(net).get(j).isEmpty()) {
                Question question = request.question(net, j);
                if (asker.answer(question, Progress.NONE) instanceof Answer.Blocked) {
                    return true;
                }
            }
        }
        return false;
    }
}
