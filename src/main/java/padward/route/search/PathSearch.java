package padward.route.search;

import java.util.concurrent.CancellationException;
import padward.base.Lazy;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.SmallCostModel;

/**
 * A* from several sources to one goal (Hart, Nilsson, Raphael 1968); with {@link LowerBound#NONE}
 * it is Dijkstra's search (Numer. Math. 1, 1959, 269-271). Ties go to the vertex that has come
 * farther, which is nearer to the goal.
 *
 * <p>The route to the goal is final when the goal is taken from the queue, not when it is first
 * seen: the bound being consistent, nothing that is still queued can lead there at less.
 *
 * <p>Three engines stand behind it: a bit-parallel one for pattern fabrics and one over the edge
 * rows of any other fabric, both in costs of 31 bits over a bucket queue; and a general one, made
 * when first needed, for {@link padward.route.cost.CustomCost} and for costs that do not fit into
 * 31 bits.
 *
 * <p>The fast ones take 4.5 bytes per vertex, and up to 0.3 for what was touched, and 8 per queued
 * entry; a bit a vertex and 5 bytes a tile more once a question was long enough for a {@link
 * padward.route.bound.TileSearch}; what is kept between runs is reset in O(touched). One object
 * belongs to one thread. Each run overwrites the state of the one before: see {@link OneToAll}.
 */
public final class PathSearch {
    private static final int NO_LIMIT = Integer.MAX_VALUE;

    /**
     * After how many settled vertices a question gets a sharper bound at the latest, and on large
     * fabrics after one for so many tiles: with fewer, questions that would soon be answered get
     * slower.
     */
    private static final int SHARPEN_AFTER = 16_000;

    private static final int TILES_A_VERTEX = 8;

    private final Fabric fabric;
    private final IntSearch fast;
    private final SearchListener listener;
    private final Lazy<GeneralSearch> general;

    /** The engine that answered the last run. */
    private SearchEngine answering;

    private long runs;

    /** What the last run was asked. */
    private Question question =
            new Question(
                    new SearchSources(new int[0], new long[0]),
                    Fabric.NOTHING,
                    Corner.SLOW,
                    CostModel.EMPTY_FABRIC,
                    LowerBound.NONE);

    private boolean atLimit;

    private record Question(
            SearchSources sources, int goal, Corner corner, CostModel model, LowerBound bound) {}

    /** A search over one fabric, to be used again and again. O(V). */
    public PathSearch(Fabric fabric) {
        this(fabric, SearchListener.NONE);
    }

    /**
     * The same search with a listener: its routes and counts are the very same, it only takes
     * longer. Of a whole sweep over a pattern fabric, only begin and end are reported.
     */
    public PathSearch(Fabric fabric, SearchListener listener) {
        this(fabric, listener, Math.max(SHARPEN_AFTER, fabric.tileCount() / TILES_A_VERTEX));
    }

    /**
     * The same search, whose bound gets sharper on a crowded fabric after so many settled vertices.
     */
    PathSearch(Fabric fabric, SearchListener listener, int sharpenAfter) {
        this.fabric = fabric;
        this.listener = listener;
        this.fast =
                fabric instanceof PatternFabric pattern
                        ? new BitParallelSearch(pattern, listener, sharpenAfter)
                        : new EdgeRowSearch(fabric, listener);
        this.general = new Lazy<>(() -> new GeneralSearch(fabric, listener));
        this.answering = fast;
    }

    /** The fabric. */
    public Fabric fabric() {
        return fabric;
    }

    /**
     * The cheapest route.
     *
     * @param sources where it may begin
     * @param goal where it ends
     * @param corner corner whose delays count
     * @param model what edges cost
     * @param bound a consistent lower bound towards {@code goal}
     * @param progress asked now and then whether to stop
     */
    public SearchOutcome run(
            SearchSources sources,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
            Progress progress) {
        return run(sources, goal, corner, model, bound, NO_LIMIT, progress);
    }

    /**
     * The cheapest route, if it is found among so many settled vertices; otherwise {@link
     * SearchOutcome.Cancelled}, and {@link #isAtLimit}: then the run can {@link #goOn}.
     */
    public SearchOutcome run(
            SearchSources sources,
            int goal,
            Corner corner,
            CostModel model,
            LowerBound bound,
            int mostSettled,
            Progress progress) {
        runs++;
        atLimit = false;
        question = new Question(sources, goal, corner, model, bound);
        boolean isFast;
        try {
            isFast =
                    model instanceof SmallCostModel known
                            && fast.canAnswer(known.small(), sources, progress);
        } catch (CancellationException stopped) {
            return new SearchOutcome.Cancelled(0);
        }
        if (isFast && model instanceof SmallCostModel known) {
            answering = fast;
            listener.begun(sources, goal, bound);
            return reported(
                    fast.run(sources, goal, corner, known.small(), bound, mostSettled, progress),
                    mostSettled,
                    progress);
        }
        return runGeneral(mostSettled, progress);
    }

    /** Whether the last run stopped because as many vertices are settled as its limit allows. */
    public boolean isAtLimit() {
        return atLimit;
    }

    /**
     * Goes on with the last run, which is at its limit, until it ends or so many vertices are
     * settled in all. The outcome, its counts too, is that of one run without the stop. Nodes that
     * a sharper bound settles are not counted.
     *
     * @throws IllegalStateException when the last run is not at its limit
     */
    public SearchOutcome goOn(int mostSettled, Progress progress) {
        if (!atLimit) {
            throw new IllegalStateException("the last run is over");
        }
        atLimit = false;
        if (answering == fast) {
            return reported(fast.goOn(mostSettled, progress), mostSettled, progress);
        }
        SearchOutcome outcome = general.get().goOn(mostSettled, progress);
        atLimit = general.get().isAtLimit();
        return reported(outcome);
    }

    /** What a fast search ended with; where its numbers end, the general search begins again. */
    private SearchOutcome reported(IntSearch.End end, int mostSettled, Progress progress) {
        if (end == IntSearch.End.TOO_EXPENSIVE) {
            return runGeneral(mostSettled, progress);
        }
        atLimit = end == IntSearch.End.LIMIT;
        int goal = question.goal;
        return reported(
                switch (end) {
                    case FOUND ->
                            new SearchOutcome.Found(
                                    fast.pathTo(goal), fast.cost(goal), fast.settled());
                    case UNREACHABLE -> new SearchOutcome.Unreachable(fast.settled());
                    default -> new SearchOutcome.Cancelled(fast.settled());
                });
    }

    private SearchOutcome runGeneral(int mostSettled, Progress progress) {
        answering = general.get();
        listener.begun(question.sources, question.goal, question.bound);
        SearchOutcome outcome =
                general.get()
                        .run(
                                question.sources,
                                question.goal,
                                question.corner,
                                question.model,
                                question.bound,
                                mostSettled,
                                progress);
        atLimit = general.get().isAtLimit();
        return reported(outcome);
    }

    /** Reports the end of a run, and first the goal, which no engine expands. */
    private SearchOutcome reported(SearchOutcome outcome) {
        if (outcome instanceof SearchOutcome.Found found) {
            listener.settled(found.path().last(), found.cost());
        }
        listener.ended(outcome);
        return outcome;
    }

    /**
     * The cheapest routes to every vertex that can be reached. The result can be read until the
     * next run of this search.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public OneToAll sweep(
            SearchSources sources, Corner corner, CostModel model, Progress progress) {
        SearchOutcome outcome =
                run(sources, Fabric.NOTHING, corner, model, LowerBound.NONE, progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        return new OneToAll(this, answering, runs);
    }

    /** How many runs were begun. */
    long runs() {
        return runs;
    }

    /** Bytes that the search's state takes now, its queue included. */
    public long stateBytes() {
        return fast.bytes();
    }
}
