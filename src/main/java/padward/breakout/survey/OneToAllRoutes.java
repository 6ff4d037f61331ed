package padward.breakout.survey;

import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Lazy;
import padward.base.Progress;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.cost.ObstacleCost;
import padward.route.cost.SwitchRuleCost;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.RouteFinder;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.route.search.SwitchGroupSearch;
import padward.route.search.VertexPath;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.OwnNet;
import padward.unblock.release.QuestionContext;

/**
 * The routes from one net to every vertex, found by two one-to-all searches: over what is free, and
 * at a price. They hold for each pad until a port is disconnected there, after which some vertices
 * F are free. A route that uses none of F costs what the searches found. A route that does has a
 * first vertex in F; up to it, the cost found is the least, so a search that starts from the
 * vertices of F, at the cost of entering them, finds the best of these. The better of the two is
 * the answer; it costs what a search of its own would find.
 *
 * <p>Belongs to one thread.
 */
public final class OneToAllRoutes {
    private final Fabric fabric;
    private final Corner corner;
    private final OneToAll free;

    /** Search over what is free; not the one at a price, as each keeps what is closed to it. */
    private final RouteFinder localFree;

    private final Lazy<RouteFinder> localPriced;
    private final RouteFinder obeying;
    private final EdgeCursor into;
    private final OwnNet own;
    private Optional<OneToAll> priced = Optional.empty();

    private OneToAllRoutes(OwnNet own, Corner corner, Progress progress) {
        this.own = own;
        this.fabric = own.design().fabric();
        this.corner = corner;
        this.localFree = local();
        this.localPriced = new Lazy<>(this::local);
        this.into = fabric.edgesIn();
        this.obeying = SwitchGroupSearch.over(fabric, localFree);
        this.free = sweep(SwitchRuleCost.withoutRule(situation().overFree()), progress);
    }

    /** Searches from a net. */
    public static OneToAllRoutes from(OwnNet own, Corner corner, Progress progress) {
        return new OneToAllRoutes(own, corner, progress);
    }

    private RouteFinder local() {
        return new PerimeterSearch(new PathSearch(fabric));
    }

    private QuestionContext situation() {
        return new QuestionContext(own, Optional.empty());
    }

    private OneToAll sweep(CostModel model, Progress progress) {
        return new PathSearch(fabric).sweep(own.starts(corner), corner, model, progress);
    }

    /** The search at a price is done when the first pad is not open. */
    private OneToAll priced(Progress progress) {
        if (priced.isEmpty()) {
            CostModel model = SwitchRuleCost.withoutRule(situation().atAPrice());
            priced =
                    Optional.of(
                            sweep(
                                    model instanceof ObstacleCost obstacles
                                            ? obstacles.forSweep(fabric.vertexCount(), progress)
                                            : model,
                                    progress));
        }
        return priced.get();
    }

    /** Finds routes to the pad of a question about the same net. */
    public Asker.Finder finderFor(Question question, Progress progress) {
        int goal = question.padValue().vertex();
        return (starts, whole, disconnected) -> {
            CostModel model = SwitchRuleCost.withoutRule(whole);
            OneToAll swept = model instanceof FreeOnlyCost ? free : priced(progress);
            IntSet freed =
                    disconnected.map(DisconnectedBranch::allVertices).orElse(IntSets.EMPTY_SET);
            Optional<SearchOutcome.Found> best =
                    swept.cost(goal) == CostModel.CLOSED
                            ? Optional.empty()
                            : Optional.of(
                                    new SearchOutcome.Found(
                                            swept.pathTo(goal), swept.cost(goal), 0));
            if (!freed.isEmpty()) {
                best = better(best, through(swept, freed, goal, model, progress));
            }
            if (best.isPresent()
                    && obeying instanceof SwitchGroupSearch groups
                    && !groups.obeys(best.get().path(), SwitchRuleCost.ruleOf(whole))) {
                return groups.find(starts, goal, corner, whole, progress);
            }
            return best.<SearchOutcome>map(f -> f).orElse(new SearchOutcome.Unreachable(0));
        };
    }

    private static Optional<SearchOutcome.Found> better(
            Optional<SearchOutcome.Found> one, Optional<SearchOutcome.Found> other) {
        if (one.isEmpty() || other.isEmpty()) {
            return one.or(() -> other);
        }
        return one.get().cost() <= other.get().cost() ? one : other;
    }

    private Optional<SearchOutcome.Found> through(
            OneToAll swept, IntSet freed, int goal, CostModel model, Progress progress) {
        List<Integer> entries = new ArrayList<>();
        List<Long> costs = new ArrayList<>();
        for (int vertex : freed) {
            long cost = entryCost(swept, vertex, model);
            if (cost != CostModel.CLOSED) {
                entries.add(vertex);
                costs.add(cost);
            }
        }
        SearchSources starts =
                new SearchSources(
                        entries.stream().mapToInt(Integer::intValue).toArray(),
                        costs.stream().mapToLong(Long::longValue).toArray());
        RouteFinder local = swept == free ? localFree : localPriced.get();
        SearchOutcome outcome = local.find(starts, goal, corner, model, progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        if (outcome instanceof SearchOutcome.Found found) {
            VertexPath tail = found.path();
            VertexPath head = swept.pathTo(entrance(swept, tail.first(), model));
            return Optional.of(new SearchOutcome.Found(joined(head, tail), found.cost(), 0));
        }
        return Optional.empty();
    }

    private long entryCost(OneToAll swept, int vertex, CostModel model) {
        long least = CostModel.CLOSED;
        into.reset(vertex);
        while (into.next()) {
            least = Math.min(least, costOver(swept, into.other(), vertex, model));
        }
        return least;
    }

    /** The vertex from which {@code vertex} is entered at the least cost. */
    private int entrance(OneToAll swept, int vertex, CostModel model) {
        int best = Fabric.NOTHING;
        long least = CostModel.CLOSED;
        into.reset(vertex);
        while (into.next()) {
            long cost = costOver(swept, into.other(), vertex, model);
            if (cost < least) {
                least = cost;
                best = into.other();
            }
        }
        return best;
    }

    private long costOver(OneToAll swept, int from, int to, CostModel model) {
        long step = model.cost(from, to, into.delayPs(corner));
        boolean possible = swept.cost(from) != CostModel.CLOSED && step != CostModel.CLOSED;
        return possible ? swept.cost(from) + step : CostModel.CLOSED;
    }

    private static VertexPath joined(VertexPath head, VertexPath tail) {
        int[] vertices = new int[head.size() + tail.size()];
        for (int i = 0; i < head.size(); i++) {
            vertices[i] = head.vertex(i);
        }
        for (int i = 0; i < tail.size(); i++) {
            vertices[head.size() + i] = tail.vertex(i);
        }
        return new VertexPath(vertices);
    }
}
