package padward.breakout.group;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.IntStream;
import padward.base.Lazy;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.breakout.survey.OneToAllRoutes;
import padward.breakout.survey.Survey;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;

/**
 * The cost of each net's route to each pad, alone. Everything is found on demand: the most nets at
 * once are found without most of it. Thread-safe.
 */
final class BusCosts {
    /** Beyond so many pads more, one search to all pads is quicker. */
    private static final int MOST_ASKED_SINGLY = 8;

    private final BusRequest request;
    private final Lazy<Asker> asker;

    /** Whole rows only, so that they can be read while a search has the lock. */
    private final Map<Integer, List<Optional<Answer.FreeRoute>>> open = new ConcurrentHashMap<>();

    private final Map<Integer, Map<Integer, Optional<Answer.FreeRoute>>> pairs = new HashMap<>();

    /** Whole rows only, by net and pad. */
    private final Map<Integer, Map<Integer, Answer>> full = new ConcurrentHashMap<>();

    /** The pad that was blocked last; it often is for the next net too. */
    private int lastBlocked;

    BusCosts(BusRequest request) {
        this.request = request;
        this.asker = new Lazy<>(() -> new Asker(request.design().fabric(), SearchEngineKind.OWN));
    }

    /** The same for other nets and pads on the same design; what is known of both stays known. */
    synchronized BusCosts changedTo(BusRequest other, Progress progress) {
        BusCosts result = new BusCosts(other);
        List<Integer> pads = other.pads();
        long more = pads.stream().filter(p -> !request.pads().contains(p)).count();
        for (int now = 0; now < other.nets().size() && more <= MOST_ASKED_SINGLY; now++) {
            int before = request.nets().indexOf(other.nets().get(now));
            if (open.containsKey(before)) {
                List<Optional<Answer.FreeRoute>> row = new ArrayList<>();
                for (int pad = 0; pad < pads.size(); pad++) {
                    int at = request.pads().indexOf(pads.get(pad));
                    row.add(
                            at < 0
                                    ? result.asker.get().ifFree(other.question(now, pad), progress)
                                    : open.get(before).get(at));
                }
                result.open.put(now, List.copyOf(row));
            }
            if (full.containsKey(before)) {
                Map<Integer, Answer> answers = new HashMap<>();
                for (int pad = 0; pad < pads.size(); pad++) {
                    Answer known = full.get(before).get(pads.get(pad));
                    answers.put(
                            pads.get(pad),
                            known == null
                                    ? result.asker.get().answer(other.question(now, pad), progress)
                                    : known);
                }
                result.full.put(now, Map.copyOf(answers));
            }
        }
        return result;
    }

    /**
     * The free routes of a net to all pads: one one-to-all search when they are first asked for.
     */
    private synchronized List<Optional<Answer.FreeRoute>> open(int net, Progress progress) {
        List<Optional<Answer.FreeRoute>> known = open.get(net);
        if (known == null) {
            int count = request.nets().size();
            Net searched = request.nets().get(net);
            progress.report((double) net / count, "searching routes of " + searched.name());
            progress.check();
            known = openTo(searched, progress);
            open.put(net, known);
        }
        return known;
    }

    private List<Optional<Answer.FreeRoute>> openTo(Net net, Progress progress) {
        List<Optional<Answer.FreeRoute>> result = new ArrayList<>();
        OneToAllRoutes routes =
                OneToAllRoutes.from(asker.get().own(request.design(), net), Corner.SLOW, progress);
        for (int pad : request.pads()) {
            Question question =
                    new Question(request.design(), net, pad, Corner.SLOW, request.driver());
            Asker.Finder finder = routes.finderFor(question, progress);
            result.add(asker.get().ifFree(question, finder, progress));
        }
        return List.copyOf(result);
    }

    /** The free route of a net to a pad, by their positions: by one search if it is not known. */
    private synchronized Optional<Answer.FreeRoute> open(int net, int pad, Progress progress) {
        if (open.containsKey(net)) {
            return open.get(net).get(pad);
        }
        return pairs.computeIfAbsent(net, n -> new HashMap<>())
                .computeIfAbsent(
                        pad, p -> asker.get().ifFree(request.question(net, pad), progress));
    }

    /**
     * Delay of the free route of a net to a pad, slow corner, ps; {@link Matching#NONE} where there
     * is none.
     */
    int freePs(int net, int pad, Progress progress) {
        return request.isAllowed(pad)
                ? open(net, pad, progress)
                        .map(a -> a.route().total().slowPs())
                        .orElse(Matching.NONE)
                : Matching.NONE;
    }

    /** Positions of the pads that may be taken, and to which some net may come. */
    Set<Integer> usablePads() {
        return usablePads(IntStream.range(0, request.pads().size()).boxed().toList());
    }

    /** Those of some pads, by their positions. */
    synchronized Set<Integer> usablePads(Collection<Integer> pads) {
        Set<Integer> undecided = new TreeSet<>();
        for (int pad : pads) {
            int index = request.pads().get(pad);
            boolean drivable =
                    request.design().fabric().pads().get(index).directions().canDrive()
                            && !DriverFit.of(request.design(), index, request.driver()).hopeless();
            if (drivable && request.isAllowed(pad)) {
                undecided.add(pad);
            }
        }
        Set<Integer> result = new TreeSet<>();
        for (int net = 0; net < request.nets().size() && !undecided.isEmpty(); net++) {
            int of = net;
            List<Integer> found =
                    undecided.stream().filter(p -> Asker.mayEnd(request.question(of, p))).toList();
            result.addAll(found);
            found.forEach(undecided::remove);
        }
        return result;
    }

    /**
     * The quick answer for a net and a pad, by their positions in the request. The first call for a
     * pair that is not open calculates all answers of that net: two one-to-all searches, and one
     * search for each pad whose port must be disconnected.
     */
    Answer answer(int net, int pad) {
        Optional<Answer.FreeRoute> known = open(net, Progress.NONE).get(pad);
        return known.isPresent()
                ? known.get()
                : all(net, Progress.NONE).get(request.pads().get(pad));
    }

    /** The quick answer for a net and a pad, if it is known. Never waits for a search. */
    Optional<Answer> known(int net, int pad) {
        Optional<Answer> free =
                Optional.ofNullable(open.get(net)).flatMap(row -> row.get(pad)).map(a -> a);
        return free.isPresent()
                ? free
                : Optional.ofNullable(full.get(net)).map(a -> a.get(request.pads().get(pad)));
    }

    /** Calculates all answers, so that later calls return at once. */
    void complete(Progress progress) {
        int count = request.nets().size();
        for (int net = 0; net < count; net++) {
            progress.report((double) net / count, "asking for " + request.nets().get(net).name());
            progress.check();
            if (open(net, progress).stream().anyMatch(Optional::isEmpty)) {
                all(net, progress);
            }
        }
    }

    private synchronized Map<Integer, Answer> all(int net, Progress progress) {
        Map<Integer, Answer> known = full.get(net);
        if (known == null) {
            Map<Integer, Answer> byPad = new HashMap<>();
            Survey.of(
                            request.design(),
                            request.nets().get(net),
                            request.pads(),
                            Corner.SLOW,
                            request.driver(),
                            SearchEngineKind.OWN,
                            progress)
                    .answers()
                    .forEach(a -> byPad.put(a.question().pad(), a));
            known = Map.copyOf(byPad);
            full.put(net, known);
        }
        return known;
    }

    /** Delays of all free routes, slow corner, ps; {@link Matching#NONE} where there is none. */
    int[][] freePs(Progress progress) {
        int[][] result = new int[request.nets().size()][request.pads().size()];
        for (int i = 0; i < result.length; i++) {
            List<Optional<Answer.FreeRoute>> row = open(i, progress);
            for (int j = 0; j < result[i].length; j++) {
                boolean allowed = request.isAllowed(j);
                result[i][j] =
                        row.get(j)
                                .filter(a -> allowed)
                                .map(a -> a.route().total().slowPs())
                                .orElse(Matching.NONE);
            }
        }
        return result;
    }

    /** A net without a pad, for a reason that is known. */
    Bus.Left left(int net, String reason) {
        return new Bus.Left(
                request.nets().get(net), reason, progress -> isAnyBlocked(net, progress));
    }

    /** A net without a pad, with the reason. */
    Bus.Left left(int net, Progress progress) {
        int reached = 0;
        int withPort = 0;
        for (int j = 0; j < request.pads().size(); j++) {
            if (open(net, progress).get(j).isPresent()) {
                reached += request.isAllowed(j) ? 1 : 0;
                withPort += request.isAllowed(j) ? 0 : 1;
            }
        }
        String reason = "it has no route to any of the pads";
        if (reached == 1) {
            reason = "the only pad that it reaches is taken by another net";
        } else if (reached > 1) {
            reason = "all " + reached + " pads that it reaches are taken by other nets";
        } else if (withPort > 0) {
            reason =
                    "each pad that it reaches has a port that would lose it; it is taken only if"
                            + " ports may be disconnected";
        } else if (isAnyBlocked(net, progress)) {
            reason = "none of the pads is open to it, but removing what blocks it would open some";
        }
        return left(net, reason);
    }

    /** Whether some pad is Blocked for a net. Asks pad by pad, because usually the first one is. */
    synchronized boolean isAnyBlocked(int net, Progress progress) {
        if (full.containsKey(net)) {
            return IntStream.range(0, request.pads().size())
                    .filter(request::isAllowed)
                    .anyMatch(j -> answer(net, j) instanceof Answer.Blocked);
        }
        int count = request.pads().size();
        for (int i = 0; i < count; i++) {
            int pad = (lastBlocked + i) % count;
            boolean isOpen = open.containsKey(net) && open.get(net).get(pad).isPresent();
            if (request.isAllowed(pad)
                    && !isOpen
                    && asker.get().answer(request.question(net, pad), progress)
                            instanceof Answer.Blocked) {
                lastBlocked = pad;
                return true;
            }
        }
        return false;
    }
}
