package padward.lesson.recording;

import it.unimi.dsi.fastutil.ints.Int2IntMap;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntConsumer;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.Optional;
import java.util.function.Consumer;
import padward.fabric.Fabric;
import padward.route.search.VertexPath;

/**
 * A recording at one moment: which vertices are settled, which wait in the frontier, at what cost.
 * Goes forward and back by a step in O(1). Not thread-safe.
 */
public final class RecordingReplay {
    private final Recording recording;

    /** For each vertex that has a cost, the step that gave it. */
    private final Int2IntOpenHashMap reach = new Int2IntOpenHashMap();

    private final IntOpenHashSet settled = new IntOpenHashSet();
    private final IntLinkedOpenHashSet frontier = new IntLinkedOpenHashSet();
    private final IntLinkedOpenHashSet refused = new IntLinkedOpenHashSet();
    private int done;

    /** A recording before its first step. */
    public RecordingReplay(Recording recording) {
        this.recording = recording;
        reach.defaultReturnValue(Fabric.NOTHING);
    }

    /** The recording. */
    public Recording recording() {
        return recording;
    }

    /** Number of steps taken. */
    public int done() {
        return done;
    }

    /** Whether there is a next step. */
    public boolean canGoOn() {
        return done < recording.size();
    }

    /** The last step taken. */
    public Optional<SearchStep> last() {
        return done == 0 ? Optional.empty() : Optional.of(recording.step(done - 1));
    }

    /** Takes the next step; does nothing at the end. */
    public void forward() {
        if (!canGoOn()) {
            return;
        }
        SearchStep step = recording.step(done);
        int vertex = step.vertex();
        if (step instanceof SearchStep.Settled) {
            settled.add(vertex);
            frontier.remove(vertex);
        } else if (step instanceof SearchStep.Reached) {
            reach.put(vertex, done);
            frontier.add(vertex);
        } else {
            refused.add(vertex);
        }
        done++;
    }

    /** Undoes the last step; does nothing at the beginning. */
    public void back() {
        if (done == 0) {
            return;
        }
        done--;
        SearchStep step = recording.step(done);
        int vertex = step.vertex();
        if (step instanceof SearchStep.Settled) {
            settled.remove(vertex);
            frontier.add(vertex);
        } else if (step instanceof SearchStep.Reached) {
            int before = recording.earlierReach(done);
            if (before == Fabric.NOTHING) {
                reach.remove(vertex);
                frontier.remove(vertex);
            } else {
                reach.put(vertex, before);
            }
        } else {
            refused.remove(vertex);
        }
    }

    /** Goes to the moment after a number of steps. O(steps between). */
    public void goTo(int steps) {
        int target = Math.max(0, Math.min(recording.size(), steps));
        while (done < target) {
            forward();
        }
        while (done > target) {
            back();
        }
    }

    /** Goes forward until one more vertex is settled, or to the end. */
    public void toNextSettled() {
        do {
            forward();
        } while (canGoOn() && !(last().orElseThrow() instanceof SearchStep.Settled));
    }

    /** Goes back until one vertex fewer is settled, or to the beginning. */
    public void toPreviousSettled() {
        do {
            back();
        } while (done > 0 && !(last().orElseThrow() instanceof SearchStep.Settled));
    }

    /** Whether a vertex is settled. */
    public boolean isSettled(int vertex) {
        return settled.contains(vertex);
    }

    /** Number of settled vertices. */
    public int settledCount() {
        return settled.size();
    }

    /** Number of vertices in the frontier. */
    public int frontierCount() {
        return frontier.size();
    }

    /** Vertices that wait in the frontier, in the order in which they joined it. */
    public void forFrontier(IntConsumer use) {
        frontier.forEach(use);
    }

    /** Vertices that the search met but may not enter. */
    public void forRefused(IntConsumer use) {
        refused.forEach(use);
    }

    /** Number of vertices that have a cost. */
    public int reachedCount() {
        return reach.size();
    }

    /** All vertices that have a cost. */
    public void forReachedVertices(IntConsumer use) {
        reach.keySet().forEach(use);
    }

    /** All vertices that have a cost, each with the step that gave it. */
    public void forReached(Consumer<SearchStep.Reached> use) {
        for (Int2IntMap.Entry entry : reach.int2IntEntrySet()) {
            use.accept((SearchStep.Reached) recording.step(entry.getIntValue()));
        }
    }

    /** The step that gave a vertex its present cost; empty when it has none yet. */
    public Optional<SearchStep.Reached> findReach(int vertex) {
        int step = reach.get(vertex);
        return step == Fabric.NOTHING
                ? Optional.empty()
                : Optional.of((SearchStep.Reached) recording.step(step));
    }

    /** The route by which a vertex has been reached; empty when it has not. O(length). */
    public Optional<VertexPath> findRouteTo(int vertex) {
        IntArrayList backwards = new IntArrayList();
        Optional<SearchStep.Reached> step = findReach(vertex);
        if (step.isEmpty()) {
            return Optional.empty();
        }
        while (step.isPresent()) {
            backwards.add(step.get().vertex());
            step = findReach(step.get().from());
        }
        int[] route = new int[backwards.size()];
        for (int i = 0; i < route.length; i++) {
            route[i] = backwards.getInt(route.length - 1 - i);
        }
        return Optional.of(new VertexPath(route));
    }
}
