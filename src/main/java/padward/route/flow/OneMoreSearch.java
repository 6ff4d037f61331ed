package padward.route.flow;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntUnaryOperator;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * The fewest occupants whose removal lets one route more through, beside as many as can be: an
 * augmenting path of the greatest flow (Ford and Fulkerson 1956) through occupied vertices, each of
 * which has the colour of its occupant, with the fewest colours. The flow stays one when vertices
 * become free, so with a set of occupants gone one route more exists exactly if there is such a
 * path of their colours. Fewest colours are NP-hard to find; labels (vertex, set of colours) grow
 * set by set in the order of their size, and one is dropped where a label with a part of its set
 * has been. One object for one run.
 */
public final class OneMoreSearch {
    /** What stands for a vertex that no removal opens. */
    public static final int FORBIDDEN = -2;

    private static final int FREE = -1;
    private static final int NONE = -1;
    private static final int CHECK_EVERY = 1 << 10;
    private static final int[] NO_COLOURS = {};

    private final Fabric fabric;
    private final EdgeCursor edges;
    private final BitSet closed;
    private final List<SearchSources> nets;
    private final Map<Integer, Integer> goals;
    private final IntUnaryOperator occupantOf;
    private final int mostLabels;
    private final Progress progress;
    private final Int2IntOpenHashMap netOf = map();
    private final Int2IntOpenHashMap next = map();
    private final Int2IntOpenHashMap previous = map();
    private final int[] startOf;
    private final Int2ObjectOpenHashMap<List<int[]>> known = new Int2ObjectOpenHashMap<>();
    private Deque<Label> now = new ArrayDeque<>();
    private Deque<Label> later = new ArrayDeque<>();
    private int looked;
    private int labels;

    /** Nodes that are reached without any removal. */
    private final BitSet freely = new BitSet();

    /** Vertices of nets and routes, and goals; few, and looked up only then. */
    private final BitSet special = new BitSet();

    /** Closed vertices that are reached with nothing but their own occupant gone. */
    private final BitSet beside = new BitSet();

    private record Label(int node, int[] colours) {}

    /**
     * What was found.
     *
     * @param occupants numbers of the fewest occupants; empty when none were found
     * @param atLeast how many must go at least; more than any number when no removal helps
     * @param goal where the route more would end; -1 when none was found
     */
    public record Fewest(Optional<List<Integer>> occupants, int atLeast, int goal) {
        /** Stands for: no removal lets one route more through. */
        public static final int NEVER = Integer.MAX_VALUE;
    }

    private OneMoreSearch(
            Fabric fabric,
            BitSet closed,
            List<SearchSources> nets,
            Map<Integer, Integer> goals,
            List<Optional<VertexPath>> routes,
            IntUnaryOperator occupantOf,
            int mostLabels,
            Progress progress) {
        this.fabric = fabric;
        this.edges = fabric.edgesOut();
        this.closed = closed;
        this.nets = nets;
        this.goals = goals;
        this.occupantOf = occupantOf;
        this.mostLabels = mostLabels;
        this.progress = progress;
        goals.keySet().forEach(special::set);
        startOf = new int[nets.size()];
        Arrays.fill(startOf, NONE);
        for (int net = 0; net < nets.size(); net++) {
            for (int i = 0; i < nets.get(net).size(); i++) {
                netOf.put(nets.get(net).vertex(i), net);
                special.set(nets.get(net).vertex(i));
            }
            if (routes.get(net).isPresent()) {
                VertexPath route = routes.get(net).get();
                startOf[net] = route.vertex(0);
                for (int i = 1; i < route.size(); i++) {
                    special.set(route.vertex(i));
                    next.put(route.vertex(i - 1), route.vertex(i));
                    previous.put(route.vertex(i), route.vertex(i - 1));
                }
            }
        }
    }

    private static Int2IntOpenHashMap map() {
        Int2IntOpenHashMap map = new Int2IntOpenHashMap();
        map.defaultReturnValue(NONE);
        return map;
    }

    /**
     * Searches.
     *
     * @param closed vertices that no route may enter as things are
     * @param nets for each net where its route may start
     * @param goals by the vertices where routes may end the occupant that must go before, -1 for
     *     none
     * @param routes a greatest number of routes for these nets over what is not closed
     * @param occupantOf number of the occupant of a closed vertex, or {@link #FORBIDDEN}
     * @param near what is reached without any removal, where that is known of these routes; also if
     *     some of what is closed beside it is not closed here
     * @param mostLabels the search ends after so many with a removal
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Fewest find(
            Fabric fabric,
            BitSet closed,
            List<SearchSources> nets,
            Map<Integer, Integer> goals,
            List<Optional<VertexPath>> routes,
            Optional<NearSide> near,
            IntUnaryOperator occupantOf,
            int mostLabels,
            Progress progress) {
        if (routes.stream().filter(Optional::isPresent).count() == goals.size()) {
            // Each goal takes one route, whatever is removed.
            return new Fewest(Optional.empty(), Fewest.NEVER, NONE);
        }
        OneMoreSearch search =
                new OneMoreSearch(
                        fabric, closed, nets, goals, routes, occupantOf, mostLabels, progress);
        near.ifPresentOrElse(search::beginBeside, search::beginAtNets);
        return search.run();
    }

    private void beginAtNets() {
        for (int net = 0; net < nets.size(); net++) {
            if (startOf[net] == NONE) {
                add(netNode(net), NO_COLOURS, FREE);
            }
        }
    }

    /** All that is reached freely is known: what is beside it comes next. */
    private void beginBeside(NearSide near) {
        near.forEachLeft(
                vertex -> {
                    freely.set(vertex);
                    int net = special.get(vertex) ? netOf.get(vertex) : NONE;
                    if (net != NONE) {
                        freely.set(netNode(net));
                    }
                });
        near.forEachEntered(vertex -> freely.set(inNode(vertex)));
        near.beside().forEach((int vertex) -> expandEdge(vertex, NO_COLOURS));
    }

    private Fewest run() {
        for (int level = 0; ; level++) {
            while (!now.isEmpty()) {
                Label label = now.pop();
                if (++looked % CHECK_EVERY == 0) {
                    progress.check();
                }
                labels += label.colours().length == 0 ? 0 : 1;
                if (labels > mostLabels) {
                    return new Fewest(Optional.empty(), Math.max(1, level), NONE);
                }
                if (isGoal(label.node()) && !previous.containsKey(label.node())) {
                    return new Fewest(
                            Optional.of(Arrays.stream(label.colours()).boxed().toList()),
                            level,
                            label.node());
                }
                expand(label);
            }
            if (later.isEmpty()) {
                return new Fewest(Optional.empty(), Fewest.NEVER, NONE);
            }
            Deque<Label> done = now;
            now = later;
            later = done;
        }
    }

    private boolean isGoal(int node) {
        return special.get(node) && goals.containsKey(node);
    }

    private int netNode(int net) {
        return fabric.vertexCount() + net;
    }

    private int inNode(int vertex) {
        return fabric.vertexCount() + nets.size() + vertex;
    }

    private void expand(Label label) {
        int node = label.node();
        if (node >= fabric.vertexCount() + nets.size()) {
            // A vertex on a route, reached from outside: that route is taken back from here.
            int before = previous.get(node - fabric.vertexCount() - nets.size());
            add(before, label.colours(), FREE);
        } else if (node >= fabric.vertexCount()) {
            int net = node - fabric.vertexCount();
            for (int i = 0; i < nets.get(net).size(); i++) {
                if (nets.get(net).vertex(i) != startOf[net]) {
                    add(nets.get(net).vertex(i), label.colours(), FREE);
                }
            }
        } else if (!isGoal(node)) {
            expandVertex(node, label.colours());
        }
    }

    private void expandVertex(int vertex, int[] colours) {
        boolean plain = !special.get(vertex);
        int net = plain ? NONE : netOf.get(vertex);
        if (net != NONE && startOf[net] == vertex) {
            add(netNode(net), colours, FREE);
        } else if (!plain && previous.containsKey(vertex)) {
            add(inNode(vertex), colours, FREE);
        }
        int saturated = plain ? NONE : next.get(vertex);
        edges.reset(vertex);
        while (edges.next()) {
            int other = edges.other();
            if (other != saturated) {
                expandEdge(other, colours);
            }
        }
    }

    /** Over an edge on which there is room. */
    private void expandEdge(int to, int[] colours) {
        if (special.get(to)) {
            if (!netOf.containsKey(to)) {
                expandTo(to, colours);
            }
        } else if (!closed.get(to)) {
            add(to, colours, FREE);
        } else if (!beside.get(to)) {
            if (colours.length == 0) {
                beside.set(to);
            }
            int occupant = occupantOf.applyAsInt(to);
            if (occupant != FORBIDDEN) {
                add(to, colours, occupant);
            }
        }
    }

    /** To a vertex on a route, or a goal. */
    private void expandTo(int vertex, int[] colours) {
        if (previous.containsKey(vertex)) {
            add(inNode(vertex), colours, FREE);
        } else {
            add(vertex, colours, goals.get(vertex));
        }
    }

    private void add(int node, int[] colours, int more) {
        if (freely.get(node)) {
            return;
        }
        if (colours.length == 0 && more == FREE) {
            freely.set(node);
            now.push(new Label(node, colours));
            return;
        }
        List<int[]> there = known.get(node);
        if (there == null) {
            there = new ArrayList<>(1);
            known.put(node, there);
        }
        for (int[] other : there) {
            if (isPart(other, colours, more)) {
                return;
            }
        }
        int[] set = with(colours, more);
        there.add(set);
        Label label = new Label(node, set);
        if (set.length > colours.length) {
            later.add(label);
        } else {
            now.push(label);
        }
    }

    /** Both sorted. */
    private static int[] with(int[] colours, int more) {
        int place = more == FREE ? 0 : Arrays.binarySearch(colours, more);
        if (place >= 0) {
            return colours;
        }
        int at = -place - 1;
        int[] result = new int[colours.length + 1];
        System.arraycopy(colours, 0, result, 0, at);
        result[at] = more;
        System.arraycopy(colours, at, result, at + 1, colours.length - at);
        return result;
    }

    /** Whether all of a sorted set are in another, with one more. */
    private static boolean isPart(int[] part, int[] whole, int more) {
        int at = 0;
        for (int colour : part) {
            while (at < whole.length && whole[at] < colour) {
                at++;
            }
            boolean in = at < whole.length && whole[at] == colour;
            if (!in && colour != more) {
                return false;
            }
        }
        return true;
    }
}
