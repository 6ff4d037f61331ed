package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongOpenHashSet;
import it.unimi.dsi.fastutil.longs.LongSet;
import java.util.Comparator;
import java.util.Optional;
import java.util.PriorityQueue;
import padward.base.Progress;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.cost.SwitchRule;
import padward.route.cost.SwitchRuleCost;

/**
 * Finds the cheapest route of which no two switches exclude each other. To find a path without
 * forbidden pairs is NP-hard (Gabow, Maheshwari and Osterweil, "On two problems in the generation
 * of program test paths", IEEE Transactions on Software Engineering 2(3), 1976), but routes with
 * such pairs are rare. So another search does the work as if there were no groups; a route that
 * obeys is then the cheapest. Otherwise the search is repeated with what its switches cost by the
 * model's {@link SwitchRule}, and where a route still has two of a group, the routes are split into
 * those without the first of them and those without all others of the group (branch and bound, the
 * cheapest first).
 *
 * <p>After {@link #MOST_SEARCHES} searches it looks for any route that obeys; that it finds none is
 * then not proven, nor that it is the cheapest. Belongs to one thread.
 */
public final class SwitchGroupSearch implements RouteFinder {
    /** Searches within which the cheapest route is proven. */
    public static final int MOST_SEARCHES = 500;

    private final SwitchGroups groups;
    private final RouteFinder inner;
    private int searches;

    private SwitchGroupSearch(SwitchGroups groups, RouteFinder inner) {
        this.groups = groups;
        this.inner = inner;
    }

    /** A search that obeys a fabric's groups; the given one itself where there are none. */
    public static RouteFinder over(Fabric fabric, RouteFinder inner) {
        return fabric.switchGroups().isEmpty()
                ? inner
                : new SwitchGroupSearch(fabric.switchGroups(), inner);
    }

    /** Routes that may not use some switches, and the cheapest of them, which may not obey. */
    private record Branch(LongSet forbidden, SearchOutcome.Found best) {}

    /** Two switches of one group on a route, the first and the second. */
    private record Pair(long first, long second) {}

    /** One question to the search below. */
    private record Query(
            SearchSources sources, int goal, Corner corner, CostModel model, Progress progress) {}

    @Override
    public SearchOutcome find(
            SearchSources sources, int goal, Corner corner, CostModel model, Progress progress) {
        CostModel base = SwitchRuleCost.withoutRule(model);
        SearchOutcome first = inner.find(sources, goal, corner, base, progress);
        boolean decided =
                !(first instanceof SearchOutcome.Found found)
                        || obeys(found.path(), SwitchRuleCost.ruleOf(model));
        return decided ? first : branch(new Query(sources, goal, corner, model, progress));
    }

    /** Whether a route turns on no switch that a rule has a price for, nor two of one group. */
    public boolean obeys(VertexPath path, SwitchRule rule) {
        return isFree(path, rule) && findPair(groups, path).isEmpty();
    }

    /** Whether a route turns on no switch that a rule has a price for. */
    private static boolean isFree(VertexPath path, SwitchRule rule) {
        for (int i = 1; i < path.size(); i++) {
            if (rule.price(path.vertex(i - 1), path.vertex(i)) != 0) {
                return false;
            }
        }
        return true;
    }

    private SearchOutcome branch(Query query) {
        PriorityQueue<Branch> open =
                new PriorityQueue<>(Comparator.comparingLong((Branch b) -> b.best().cost()));
        searches = 0;
        SearchOutcome stopped = add(query, new LongOpenHashSet(), open);
        while (!open.isEmpty() && !(stopped instanceof SearchOutcome.Cancelled)) {
            Branch cheapest = open.poll();
            Optional<Pair> pair = findPair(groups, cheapest.best().path());
            if (pair.isEmpty()) {
                return cheapest.best();
            }
            if (searches >= MOST_SEARCHES) {
                open.add(cheapest);
                return anyOf(query, open);
            }
            LongSet without = new LongOpenHashSet(cheapest.forbidden());
            without.add(pair.get().first());
            stopped = add(query, without, open);
            if (!(stopped instanceof SearchOutcome.Cancelled)) {
                stopped = add(query, withOnly(pair.get().first(), cheapest.forbidden()), open);
            }
        }
        return stopped instanceof SearchOutcome.Cancelled
                ? stopped
                : new SearchOutcome.Unreachable(stopped.settled());
    }

    /** What is forbidden, and all others of a switch's group. */
    private LongSet withOnly(long edge, LongSet forbidden) {
        LongSet result = new LongOpenHashSet(forbidden);
        int group = groups.groupOf(EdgeKey.from(edge), EdgeKey.to(edge));
        for (long other : groups.switches(group)) {
            if (other != edge) {
                result.add(other);
            }
        }
        return result;
    }

    private SearchOutcome add(Query query, LongSet forbidden, PriorityQueue<Branch> open) {
        SearchOutcome outcome = search(query, forbidden);
        if (outcome instanceof SearchOutcome.Found found) {
            open.add(new Branch(forbidden, found));
        }
        return outcome;
    }

    private SearchOutcome search(Query query, LongSet forbidden) {
        searches++;
        SwitchRule rule = SwitchRuleCost.ruleOf(query.model());
        CostModel model =
                new SwitchRuleCost(
                        SwitchRuleCost.withoutRule(query.model()),
                        (from, to) ->
                                forbidden.contains(EdgeKey.of(from, to))
                                        ? CostModel.CLOSED
                                        : rule.price(from, to));
        return inner.find(query.sources(), query.goal(), query.corner(), model, query.progress());
    }

    /** Some route that obeys, found by keeping the first switch of each pair. */
    private SearchOutcome anyOf(Query query, PriorityQueue<Branch> open) {
        SearchOutcome last = new SearchOutcome.Unreachable(0);
        for (int tries = 0; tries < MOST_SEARCHES && !open.isEmpty(); tries++) {
            Branch branch = open.poll();
            Optional<Pair> pair = findPair(groups, branch.best().path());
            if (pair.isEmpty()) {
                SearchOutcome.Found best = branch.best();
                return new SearchOutcome.Found(best.path(), best.cost(), best.settled(), false);
            }
            last = search(query, withOnly(pair.get().first(), branch.forbidden()));
            if (last instanceof SearchOutcome.Found found) {
                open.clear();
                open.add(new Branch(withOnly(pair.get().first(), branch.forbidden()), found));
            } else if (last instanceof SearchOutcome.Cancelled) {
                return last;
            }
        }
        return new SearchOutcome.Unreachable(last.settled(), false);
    }

    private static Optional<Pair> findPair(SwitchGroups groups, VertexPath path) {
        Int2IntOpenHashMap stepOfGroup = new Int2IntOpenHashMap();
        for (int i = 1; i < path.size(); i++) {
            int group = groups.groupOf(path.vertex(i - 1), path.vertex(i));
            if (group != Fabric.NOTHING) {
                if (stepOfGroup.containsKey(group)) {
                    return Optional.of(new Pair(edge(path, stepOfGroup.get(group)), edge(path, i)));
                }
                stepOfGroup.put(group, i);
            }
        }
        return Optional.empty();
    }

    private static long edge(VertexPath path, int step) {
        return EdgeKey.of(path.vertex(step - 1), path.vertex(step));
    }

    /** Whether no two switches of a route exclude each other. */
    public static boolean isWithoutPairs(Fabric fabric, VertexPath path) {
        return fabric.switchGroups().isEmpty() || findPair(fabric.switchGroups(), path).isEmpty();
    }
}
