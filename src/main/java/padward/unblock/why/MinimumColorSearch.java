package padward.unblock.why;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntHeapPriorityQueue;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.search.SearchSources;
import padward.unblock.release.OccupantSets;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/**
 * The fewest distinct occupants whose removal opens a route: the minimum-colour path (Yuan, Varma
 * and Jue, "Minimum-color path problems for reliability in mesh networks", INFOCOM 2005), also
 * known as minimum constraint removal (Hauser, 2014), which is NP-hard. An exact search over
 * labels: a label is a vertex with the set of occupants to be removed to get there. At one vertex a
 * set makes all its supersets superfluous. Labels are taken in the order of a lower bound, the size
 * of the set plus the {@link DisjointCuts} still ahead of which it holds no occupant, so the first
 * label to arrive is proven to have the fewest; those that follow are the alternatives.
 *
 * <p>The walk begins at that end of the question from which fewer vertices can be reached over free
 * vertices, for there the sets differ least.
 *
 * <p>Time and memory grow with the number of labels, which can be exponential in the number of
 * occupants; both have limits. O(labels × edges at a vertex × labels at a vertex).
 */
public class MinimumColorSearch {
    /**
     * What a search found.
     *
     * @param sets sets of occupants that open a route, none within another, fewest first
     * @param atLeast no route can be opened by fewer occupants than this
     * @param certain whether the first set is proven to have the fewest
     * @param exhausted whether no other set opens a route: all that there are have been found
     */
    public record Result(List<int[]> sets, int atLeast, boolean certain, boolean exhausted) {}

    private static final int[][][] NO_NEEDS = {};
    private static final int CHECK_EVERY = 4096;
    private static final int MORE_THAN_FEWEST = 1;
    private static final int MOST_SETS = 64;

    private final ReleaseRules rules;
    private final QuestionGraph graph;
    private final DisjointCuts ahead;
    final OccupantSets sets = new OccupantSets();
    private final LongArrayList covered = new LongArrayList();
    final IntArrayList vertexOf = new IntArrayList();
    final IntArrayList setOf = new IntArrayList();
    private final IntArrayList nextAtVertex = new IntArrayList();
    private final Int2IntOpenHashMap firstAtVertex = new Int2IntOpenHashMap();
    private final IntArrayList tilesToGoal = new IntArrayList();
    private final List<IntHeapPriorityQueue> buckets = new ArrayList<>();
    final List<Integer> found = new ArrayList<>();
    private final IntArrayList extended = new IntArrayList();
    private int current;
    private boolean lookedForOthers;

    MinimumColorSearch(QuestionGraph graph, ReleaseRules rules, DisjointCuts ahead) {
        this.graph = graph;
        this.rules = rules;
        this.ahead = ahead;
        firstAtVertex.defaultReturnValue(Fabric.NOTHING);
        covered.add(0);
    }

    /**
     * Searches within limits. There must be a route once all occupants are removed.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static Result run(
            QuestionContext context,
            ReleaseRules rules,
            SearchSources starts,
            int pad,
            SearchLimits limits,
            Progress progress) {
        return run(context, rules, starts, pad, limits, Optional.empty(), progress);
    }

    /** The same, watched if there is someone to watch. */
    public static Result run(
            QuestionContext context,
            ReleaseRules rules,
            SearchSources starts,
            int pad,
            SearchLimits limits,
            Optional<LabelListener> watcher,
            Progress progress) {
        QuestionGraph fromNet = QuestionGraph.towards(context, starts, pad);
        QuestionGraph fromPad = fromNet.reversed(starts);
        DisjointCuts seenFromNet = DisjointCuts.of(fromNet, rules, progress);
        DisjointCuts seenFromPad = DisjointCuts.of(fromPad, rules, progress);
        boolean setOutFromNet = seenFromNet.freeCount() < seenFromPad.freeCount();
        QuestionGraph graph = setOutFromNet ? fromNet : fromPad;
        DisjointCuts ahead = setOutFromNet ? seenFromPad : seenFromNet;
        int least = Math.max(seenFromNet.count(), seenFromPad.count());
        watcher.ifPresent(w -> w.begun(setOutFromNet, least));
        MinimumColorSearch search =
                watcher.isPresent()
                        ? new ListenedMinimumColorSearch(graph, rules, ahead, watcher.get())
                        : new MinimumColorSearch(graph, rules, ahead);
        return search.search(least, fromPad, limits, progress);
    }

    private Result search(int least, QuestionGraph back, SearchLimits limits, Progress progress) {
        long deadline = System.nanoTime() + limits.millis() * 1_000_000L;
        for (int source : graph.sources()) {
            int[][][] needs = graph.isFreeSource(source) ? NO_NEEDS : rules.of(source);
            enter(source, 0, needs, NO_NEEDS);
        }
        EdgeCursor edges = graph.edges();
        int untilCheck = CHECK_EVERY;
        while (true) {
            int label = take();
            if (label == Fabric.NOTHING) {
                return result(Math.max(least, fewest()), true, true);
            }
            if (enough()) {
                return result(Math.max(least, fewest()), true, false);
            }
            if (--untilCheck == 0) {
                untilCheck = CHECK_EVERY;
                progress.report(-1, "explaining, " + vertexOf.size() + " labels");
                progress.check();
                if (System.nanoTime() > deadline || vertexOf.size() > limits.labels()) {
                    boolean certain = !found.isEmpty();
                    int bound = Math.max(least, certain ? fewest() : current);
                    return result(bound, certain, false);
                }
            }
            expand(label, edges);
            if (found.size() == 1 && !lookedForOthers) {
                lookedForOthers = true;
                if (allIndispensable(back, progress)) {
                    return result(fewest(), true, true);
                }
            }
        }
    }

    /** Whether every set that opens a route contains the one that has been found. */
    private boolean allIndispensable(QuestionGraph back, Progress progress) {
        for (int occupant : sets.members(found.get(0))) {
            if (!back.isCutBy(vertex -> needsAlone(vertex, occupant), progress)) {
                return false;
            }
        }
        return true;
    }

    /** Whether a vertex cannot be opened without an occupant. */
    private boolean needsAlone(int vertex, int occupant) {
        for (int[][] choices : rules.of(vertex)) {
            boolean every = true;
            for (int[] choice : choices) {
                every &= ReleaseRules.contains(choice, occupant);
            }
            if (every) {
                return true;
            }
        }
        return false;
    }

    private int fewest() {
        return found.isEmpty() ? 0 : sets.size(found.get(0));
    }

    /** The fewest and all others as few are found, or more than anyone reads. */
    private boolean enough() {
        if (found.isEmpty()) {
            return false;
        }
        boolean beyond = current > fewest() + MORE_THAN_FEWEST;
        return found.size() >= MOST_SETS || beyond;
    }

    private Result result(int atLeast, boolean certain, boolean exhausted) {
        List<int[]> members = found.stream().map(s -> sets.members(s).clone()).toList();
        // Where a choice of more occupants was left out, a set of this size may contain it.
        int most = rules.hasLeftOut() ? ReleaseRules.MOST_TOGETHER + 1 : Integer.MAX_VALUE;
        boolean small = found.isEmpty() || fewest() <= most;
        int bound = Math.min(atLeast, most);
        return new Result(members, bound, certain && small, exhausted && small);
    }

    /** Follows all edges of a label's vertex, unless the label is superfluous or has arrived. */
    void expand(int label, EdgeCursor edges) {
        int vertex = vertexOf.getInt(label);
        int set = setOf.getInt(label);
        if (containsFound(set) || isSuperseded(label, vertex, set)) {
            return;
        }
        if (graph.isGoal(vertex)) {
            found.add(set);
            return;
        }
        edges.reset(vertex);
        while (edges.next()) {
            int next = edges.other();
            if (!graph.isShut(next) && !graph.isShut(vertex, next)) {
                boolean forNothing = graph.isFreeSource(next) || graph.isGoalWithoutPrice(next);
                int[][][] needs = forNothing ? NO_NEEDS : rules.of(next);
                enter(next, set, needs, graph.needsOfStep(rules, vertex, next));
            }
        }
    }

    private boolean containsFound(int set) {
        for (int one : found) {
            if (sets.isWithin(one, set)) {
                return true;
            }
        }
        return false;
    }

    /** Whether a smaller set has come to the vertex since the label was made. */
    private boolean isSuperseded(int label, int vertex, int set) {
        for (int i = firstAtVertex.get(vertex); i != Fabric.NOTHING; i = nextAtVertex.getInt(i)) {
            if (i != label && setOf.getInt(i) != set && sets.isWithin(setOf.getInt(i), set)) {
                return true;
            }
        }
        return false;
    }

    /** Makes labels at a vertex for every set that opens it in addition to a given one. */
    private void enter(int vertex, int set, int[][][] needs, int[][][] ofStep) {
        if (needs.length == 0 && ofStep.length == 0) {
            add(vertex, set);
            return;
        }
        extended.clear();
        extended.add(set);
        extend(needs);
        extend(ofStep);
        for (int i = 0; i < extended.size(); i++) {
            add(vertex, extended.getInt(i));
        }
    }

    /** Replaces the sets by those that also meet some needs. */
    private void extend(int[][][] needs) {
        for (int[][] choices : needs) {
            int end = extended.size();
            int kept = 0;
            for (int i = 0; i < end; i++) {
                int before = extended.getInt(i);
                if (ReleaseRules.isMet(choices, sets.members(before))) {
                    extended.set(kept++, before);
                } else {
                    for (int[] choice : choices) {
                        int after = before;
                        for (int occupant : choice) {
                            after = sets.with(after, occupant);
                        }
                        extended.add(after);
                    }
                }
            }
            extended.removeElements(kept, end);
        }
    }

    /** Makes a label, unless one with a smaller set is at the vertex already. */
    void add(int vertex, int set) {
        int first = firstAtVertex.get(vertex);
        for (int i = first; i != Fabric.NOTHING; i = nextAtVertex.getInt(i)) {
            if (sets.isWithin(setOf.getInt(i), set)) {
                return;
            }
        }
        int label = vertexOf.size();
        vertexOf.add(vertex);
        setOf.add(set);
        nextAtVertex.add(first);
        tilesToGoal.add(graph.tilesToGoal(vertex));
        firstAtVertex.put(vertex, label);
        int bound = sets.size(set) + cutsLeft(vertex, set);
        // What lies ahead cannot have become less than what was known before.
        int bucket = Math.max(bound, current);
        while (buckets.size() <= bucket) {
            buckets.add(new IntHeapPriorityQueue(this::nearerFirst));
        }
        buckets.get(bucket).enqueue(label);
    }

    /** Cuts between a vertex and the other end of which a set holds no occupant. */
    private int cutsLeft(int vertex, int set) {
        int layer = ahead.layer(vertex);
        long inFront = (1L << layer) - 1;
        return layer - Long.bitCount(coveredBy(set) & inFront);
    }

    /** The cuts of which a set holds an occupant, cut 1 as bit 0. */
    private long coveredBy(int set) {
        while (covered.size() < sets.count()) {
            long bits = 0;
            for (int occupant : sets.members(covered.size())) {
                int cut = ahead.cutOf(occupant);
                bits |= cut == Fabric.NOTHING ? 0 : 1L << (cut - 1);
            }
            covered.add(bits);
        }
        return covered.getLong(set);
    }

    private int nearerFirst(int one, int other) {
        int byTiles = Integer.compare(tilesToGoal.getInt(one), tilesToGoal.getInt(other));
        return byTiles != 0 ? byTiles : Integer.compare(other, one);
    }

    /**
     * The label of the least bound, the nearest to the goal of these, the newest of those; {@link
     * Fabric#NOTHING} for none.
     */
    private int take() {
        while (current < buckets.size()) {
            IntHeapPriorityQueue bucket = buckets.get(current);
            if (!bucket.isEmpty()) {
                return bucket.dequeueInt();
            }
            current++;
        }
        return Fabric.NOTHING;
    }
}
