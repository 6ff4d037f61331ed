package padward.route.search;

import java.util.Optional;
import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.fabric.pattern.PatternFabric;
import padward.route.cost.CostModel;
import padward.route.cost.SmallCostModel;

/**
 * A* from several starts to one goal (Hart, Nilsson, Raphael 1968); with {@link LowerBound#NONE} it
 * is Dijkstra's search (Numer. Math. 1, 1959, 269-271). Ties go to the vertex that has come
 * farther, which is nearer to the goal.
 *
 * <p>The goal's way is final when the goal is taken from the queue, not when it is first seen: the
 * bound being consistent, nothing that is still queued can lead there at less.
 *
 * <p>Three engines stand behind it, chosen by what is asked: one over the masked edges of a pattern
 * fabric, one over the rows of any other, both in small whole numbers; and a general one, made when
 * first needed, for cost models of the caller's own and for costs that do not fit.
 *
 * <p>The quick ones take 4.5 bytes per vertex, and up to 0.3 for what was touched, and 8 per queued
 * entry; what is kept between runs is reset in O(touched). One object belongs to one thread.
 */
public final class PathSearch {
    private static final int NO_LIMIT = Integer.MAX_VALUE;

    private final Fabric fabric;
    private final IntSearch quick;
    private final Optional<SearchListener> watcher;
    private GeneralSearch general;
    private boolean lastWasGeneral;

    /** A search over one fabric, to be used again and again. O(V). */
    public PathSearch(Fabric fabric) {
        this.fabric = fabric;
        this.watcher = Optional.empty();
        this.quick =
                fabric instanceof PatternFabric pattern
                        ? new BitParallelSearch(pattern)
                        : new EdgeRowSearch(fabric);
    }

    /**
     * The same search, watched: its ways and counts are the very same, it only takes longer. Whole
     * sweeps are not told.
     */
    public PathSearch(Fabric fabric, SearchListener watcher) {
        this.fabric = fabric;
        this.watcher = Optional.of(watcher);
        this.quick =
                fabric instanceof PatternFabric pattern
                        ? new ListenedBitParallelSearch(pattern, watcher)
                        : new ListenedEdgeRowSearch(fabric, watcher);
    }

    /**
     * The cheapest way.
     *
     * @param starts where it may begin
     * @param goal where it ends
     * @param corner corner whose delays count
     * @param model what edges cost
     * @param bound a consistent lower bound towards {@code goal}
     * @param progress asked now and then whether to stop
     */
    public SearchOutcome run(
            SearchSources starts,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
            Progress progress) {
        return run(starts, goal, corner, model, bound, NO_LIMIT, progress);
    }

    /**
     * The cheapest way, if it is found before so many vertices are settled; otherwise {@link
     * SearchOutcome.Cancelled}.
     */
    public SearchOutcome run(
            SearchSources starts,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
            int mostSettled,
            Progress progress) {
        if (model instanceof SmallCostModel known && quick.canAnswer(known.small(), starts)) {
            watcher.ifPresent(w -> w.begun(starts, goal, bound));
            IntSearch.End end =
                    quick.run(starts, goal, corner, known.small(), bound, mostSettled, progress);
            if (end != IntSearch.End.TOO_COSTLY) {
                lastWasGeneral = false;
                return told(
                        switch (end) {
                            case FOUND ->
                                    new SearchOutcome.Found(
                                            quick.pathTo(goal), quick.cost(goal), quick.settled());
                            case UNREACHABLE -> new SearchOutcome.Unreachable(quick.settled());
                            default -> new SearchOutcome.Cancelled(quick.settled());
                        });
            }
        }
        if (general == null) {
            general =
                    watcher.isPresent()
                            ? new ListenedGeneralSearch(fabric, watcher.get())
                            : new GeneralSearch(fabric);
        }
        lastWasGeneral = true;
        watcher.ifPresent(w -> w.begun(starts, goal, bound));
        return told(general.run(starts, goal, corner, model, bound, mostSettled, progress));
    }

    /** Tells the end of a run; of the goal, which is settled last, nothing was told so far. */
    private SearchOutcome told(SearchOutcome outcome) {
        watcher.ifPresent(
                w -> {
                    if (outcome instanceof SearchOutcome.Found found) {
                        w.settled(found.path().last(), found.cost());
                    }
                    w.ended(outcome);
                });
        return outcome;
    }

    /**
     * The cheapest ways to every vertex that can be reached; {@link #cost} and {@link #pathTo} tell
     * them until the next run.
     *
     * @return false when {@code progress} cancelled
     */
    public boolean sweep(SearchSources starts, Corner corner, CostModel model, Progress progress) {
        SearchOutcome outcome =
                run(starts, Fabric.NOTHING, corner, model, LowerBound.NONE, progress);
        return !(outcome instanceof SearchOutcome.Cancelled);
    }

    /** After a sweep: the cost of a vertex; {@link CostModel#CLOSED} when it cannot be reached. */
    public long cost(int vertex) {
        return lastWasGeneral ? general.cost(vertex) : quick.cost(vertex);
    }

    /** After a sweep: the way to a vertex that was reached. */
    public VertexPath pathTo(int goal) {
        return lastWasGeneral ? general.pathTo(goal) : quick.pathTo(goal);
    }

    /** Bytes that the search's state holds now, its queue included. */
    public long stateBytes() {
        return quick.bytes();
    }
}
