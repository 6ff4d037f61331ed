package padward.breakout;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Net;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.route.Barrier;
import padward.route.CostModel;
import padward.route.Engine;
import padward.route.PathSearch;
import padward.route.ReferenceSearch;
import padward.route.SearchOutcome;
import padward.route.Starts;
import padward.route.TwoEnded;
import padward.timing.TreeDelays;

/**
 * Answers questions about one net. Two searches at the most: over what is free; then, if that
 * fails, over everything that could be freed, at a price.
 *
 * <p>One object keeps the search's state between questions and belongs to one thread.
 */
public final class Asker {
    private final Fabric fabric;
    private final Engine engine;
    private final PathSearch search;

    /** An asker for designs on one fabric. O(vertices). */
    public Asker(Fabric fabric, Engine engine) {
        this.fabric = fabric;
        this.engine = engine;
        this.search = new PathSearch(fabric);
    }

    /**
     * The answer to one question, with the project's own search.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static Answer ask(Question question, Progress progress) {
        return new Asker(question.design().fabric(), Engine.OWN).answer(question, progress);
    }

    /**
     * The answer to one question.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the question is about another fabric
     */
    public Answer answer(Question question, Progress progress) {
        return answer(question, (starts, model, letGo) -> run(question, starts, model, progress));
    }

    /** How a way to the question's pad is found under a cost model. */
    interface Finder {
        SearchOutcome find(Starts starts, CostModel model, Optional<LetGo> letGo);
    }

    /** The answer, with the two searches done by a finder: over what is free first, then priced. */
    Answer answer(Question question, Finder finder) {
        if (question.design().fabric() != fabric) {
            throw new IllegalArgumentException("the question is about another fabric");
        }
        Pad pad = question.padValue();
        List<String> cautions = Cautions.of(question);
        if (!pad.directions().canDrive()) {
            return new Answer.NoWay(
                    question, NoWayReason.INPUT_ONLY_PAD, Optional.empty(), cautions);
        }
        Net net = question.net();
        boolean alreadyThere = net.route().placeOf(pad.vertex()) > 0;
        Optional<LetGo> letGo =
                alreadyThere
                        ? Optional.empty()
                        : PortBranch.find(question.design(), question.pad());
        Availability availability = new Availability(question.design(), net, letGo);
        WayBuilder ways = new WayBuilder(question, availability);
        Starts starts = starts(question);

        SearchOutcome free = finder.find(starts, availability.overFree(), letGo);
        if (free instanceof SearchOutcome.Found found) {
            return new Answer.Open(question, ways.build(found.path(), letGo), letGo, cautions);
        }
        SearchOutcome freed = finder.find(starts, availability.atAPrice(), letGo);
        if (freed instanceof SearchOutcome.Found found) {
            Way way = ways.build(found.path(), letGo);
            return new Answer.Blocked(question, way, ways.obstacles(way), letGo, cautions);
        }
        return new Answer.NoWay(question, reason(starts, availability.closed()), letGo, cautions);
    }

    /** The net's own tree, each vertex at the delay that the signal has there. */
    static Starts starts(Question question) {
        Net net = question.net();
        TreeDelays delays = TreeDelays.of(question.design().fabric(), net.route());
        int[] vertices = net.route().toVertices();
        long[] costs = new long[vertices.length];
        Arrays.setAll(costs, place -> delays.at(place).at(question.corner()));
        return new Starts(vertices, costs);
    }

    private SearchOutcome run(
            Question question, Starts starts, CostModel model, Progress progress) {
        int goal = question.padValue().vertex();
        SearchOutcome outcome =
                engine == Engine.REFERENCE
                        ? ReferenceSearch.run(fabric, starts, goal, question.corner(), model)
                        : TwoEnded.run(
                                search, fabric, starts, goal, question.corner(), model, progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        return outcome;
    }

    /** Whether the net's signal gets onto any wire at all tells the two reasons apart. */
    private NoWayReason reason(Starts starts, Barrier closed) {
        BitSet seen = new BitSet(fabric.vertexCount());
        IntArrayList open = new IntArrayList();
        for (int i = 0; i < starts.size(); i++) {
            if (fabric.kind(starts.vertex(i)) == VertexKind.WIRE) {
                return NoWayReason.PAD_OUT_OF_REACH;
            }
            open.add(starts.vertex(i));
        }
        EdgeCursor edges = fabric.edgesOut();
        while (!open.isEmpty()) {
            edges.reset(open.popInt());
            while (edges.next()) {
                int next = edges.other();
                if (closed.get(next) || seen.get(next)) {
                    continue;
                }
                if (fabric.kind(next) == VertexKind.WIRE) {
                    return NoWayReason.PAD_OUT_OF_REACH;
                }
                seen.set(next);
                open.add(next);
            }
        }
        return NoWayReason.NEVER_LEAVES_ITS_SITE;
    }
}
