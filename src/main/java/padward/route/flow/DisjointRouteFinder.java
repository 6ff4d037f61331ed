package padward.route.flow;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.cost.BlockedVertices;
import padward.route.queue.VertexHeap;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * Finds the greatest number of routes that share no vertex, and among these the least total cost: a
 * minimum-cost maximum flow with vertices of capacity one (Ford and Fulkerson, Canadian Journal of
 * Mathematics 8, 1956; vertices are split in two as in Ahuja, Magnanti and Orlin, Network Flows,
 * 1993, section 2.4). Each net sends one unit, from any vertex of its tree; each goal takes one.
 *
 * <p>Shortest augmenting paths with potentials (Edmonds and Karp, Journal of the ACM 19, 1972):
 * after each path the flow is of least cost for its number of routes, so the last one is the
 * answer. The first potentials are the exact distances to the nearest goal, by one search backwards
 * from all goals; every later search is led straight to a goal by them and looks only where earlier
 * routes are in its way.
 *
 * <p>Only vertices that carry flow are really split: {@code in} is reached over an edge and leads
 * back along the route that holds it, {@code out} is reached by taking that route back. O(edges)
 * for the first search, then typically a few thousand vertices a route. One object for one run.
 */
public final class DisjointRouteFinder {
    private static final int NONE = -1;
    private static final int UNREACHED = Integer.MAX_VALUE;
    private static final int CHECK_EVERY = 1 << 14;

    private final Fabric fabric;
    private final Corner corner;
    private final BlockedVertices blocked;
    private final List<SearchSources> nets;
    private final Progress progress;
    private final EdgeCursor edges;

    /** By goal vertex its cost. */
    private final Int2IntOpenHashMap goals = map();

    /** By vertex of a tree its net, and what it costs to start there. */
    private final Int2IntOpenHashMap netOf = map();

    private final Int2IntOpenHashMap startCost = map();

    /** The flow: the next and the previous vertex of every vertex on a route. */
    private final Int2IntOpenHashMap next = map();

    private final Int2IntOpenHashMap previous = map();

    /** By net the tree vertex that its route starts at. */
    private final int[] startOf;

    /** Cost still to go, by vertex (for split ones of {@code out}), split {@code in}, and net. */
    private final int[] toGo;

    private final Int2IntOpenHashMap toGoIn = map();
    private final int[] toGoNet;

    /** Labels of the present search, and what they were reached from. */
    private final int[] label;

    private final int[] from;
    private final Int2IntOpenHashMap labelIn = map();
    private final Int2IntOpenHashMap fromIn = map();
    private final int[] labelNet;
    private final int[] fromNet;
    private final IntArrayList touched = new IntArrayList();
    private final IntOpenHashSet settled = new IntOpenHashSet();
    private final VertexHeap queue = new VertexHeap();
    private int looked;
    private boolean stopped;

    private static Int2IntOpenHashMap map() {
        Int2IntOpenHashMap map = new Int2IntOpenHashMap();
        map.defaultReturnValue(NONE);
        return map;
    }

    private DisjointRouteFinder(
            Fabric fabric,
            Corner corner,
            BlockedVertices blocked,
            List<SearchSources> nets,
            List<FlowGoal> goals,
            Progress progress) {
        this.fabric = fabric;
        this.corner = corner;
        this.blocked = blocked;
        this.nets = List.copyOf(nets);
        this.progress = progress;
        this.edges = fabric.edgesOut();
        goals.forEach(g -> this.goals.put(g.vertex(), g.cost()));
        int count = nets.size();
        startOf = filled(count, NONE);
        toGoNet = filled(count, UNREACHED);
        labelNet = filled(count, UNREACHED);
        fromNet = filled(count, NONE);
        int vertices = fabric.vertexCount();
        toGo = filled(vertices, UNREACHED);
        label = filled(vertices, UNREACHED);
        from = filled(vertices, NONE);
        for (int net = 0; net < count; net++) {
            SearchSources sources = nets.get(net);
            for (int i = 0; i < sources.size(); i++) {
                if (netOf.put(sources.vertex(i), net) != NONE) {
                    throw new IllegalArgumentException("two nets start at one vertex");
                }
                startCost.put(sources.vertex(i), Math.toIntExact(sources.cost(i)));
            }
        }
    }

    private static int[] filled(int size, int value) {
        int[] result = new int[size];
        Arrays.fill(result, value);
        return result;
    }

    /**
     * Finds them.
     *
     * @param corner the corner whose delays count
     * @param blocked vertices that no route may enter; the nets' own need not be among them, and
     *     goals count as free
     * @param nets for each net where its route may start, and what is spent until there; no vertex
     *     twice
     * @param goals where routes may end; no route goes on from there
     * @param progress when it says so, the best so far is returned, not proven
     */
    public static DisjointRoutes find(
            Fabric fabric,
            Corner corner,
            BlockedVertices blocked,
            List<SearchSources> nets,
            List<FlowGoal> goals,
            Progress progress) {
        return new DisjointRouteFinder(fabric, corner, blocked, nets, goals, progress).run();
    }

    private DisjointRoutes run() {
        measureToGoals();
        int served = 0;
        while (!stopped && augment()) {
            served++;
            progress.report((double) served / nets.size(), served + " nets routed");
            if (progress.cancelled()) {
                stopped = true;
            }
        }
        Optional<FlowCut> cut =
                stopped || served == nets.size() ? Optional.empty() : Optional.of(cut());
        List<Optional<VertexPath>> routes = new ArrayList<>();
        long cost = 0;
        for (int net = 0; net < nets.size(); net++) {
            Optional<VertexPath> route = route(net);
            routes.add(route);
            cost += route.map(this::costOf).orElse(0L);
        }
        return new DisjointRoutes(routes, cost, !stopped, cut);
    }

    private boolean isFree(int vertex) {
        return goals.containsKey(vertex) || !blocked.get(vertex) && !netOf.containsKey(vertex);
    }

    /** Exact cost from every vertex to its cheapest goal: the first potentials. */
    private void measureToGoals() {
        EdgeCursor into = fabric.edgesIn();
        goals.forEach(
                (goal, cost) -> {
                    toGo[goal] = cost;
                    queue.push(goal, cost, 0);
                });
        while (!queue.isEmpty() && !isStopped()) {
            long key = queue.leastKey();
            int vertex = queue.pop();
            if (key > toGo[vertex]) {
                continue;
            }
            into.reset(vertex);
            while (into.next()) {
                int before = into.other();
                boolean start = netOf.containsKey(before);
                if (!start && (blocked.get(before) || goals.containsKey(before))) {
                    continue;
                }
                int cost = Math.addExact(toGo[vertex], into.delayPs(corner));
                if (cost < toGo[before]) {
                    toGo[before] = cost;
                    if (!start) {
                        queue.push(before, cost, 0);
                    }
                }
            }
        }
        queue.clear();
        netOf.forEach(
                (vertex, net) -> {
                    if (toGo[vertex] != UNREACHED) {
                        int cost = Math.addExact(toGo[vertex], startCost.get(vertex));
                        toGoNet[net] = Math.min(toGoNet[net], cost);
                    }
                });
    }

    private boolean isStopped() {
        if (++looked % CHECK_EVERY == 0 && progress.cancelled()) {
            stopped = true;
        }
        return stopped;
    }

    /** Number of a node in the queue: {@code out} or unsplit, {@code in}, or a net. */
    private int outNode(int vertex) {
        return vertex;
    }

    private int inNode(int vertex) {
        return -1 - vertex;
    }

    private int netNode(int net) {
        return fabric.vertexCount() + net;
    }

    /** Finds the cheapest way to serve one net more; false when there is none. */
    private boolean augment() {
        clearLabels();
        int least = UNREACHED;
        for (int net = 0; net < nets.size(); net++) {
            if (startOf[net] == NONE) {
                least = Math.min(least, toGoNet[net]);
            }
        }
        for (int net = 0; net < nets.size(); net++) {
            if (startOf[net] == NONE && toGoNet[net] != UNREACHED) {
                labelNet[net] = toGoNet[net] - least;
                fromNet[net] = NONE;
                queue.push(netNode(net), labelNet[net], 0);
            }
        }
        int goal = NONE;
        int best = UNREACHED;
        while (!queue.isEmpty() && !isStopped()) {
            int key = (int) queue.leastKey();
            if (key >= best) {
                break;
            }
            int node = queue.pop();
            if (key > labelOf(node) || !settled.add(node)) {
                continue;
            }
            if (node >= fabric.vertexCount()) {
                expandNet(node - fabric.vertexCount(), key);
            } else if (node < 0) {
                expandIn(-1 - node, key);
            } else if (goals.containsKey(node)) {
                // Not on a route yet, or only its in would have been reached.
                int reached = key + goals.get(node) - toGo[node];
                if (reached < best) {
                    best = reached;
                    goal = node;
                }
            } else {
                expandOut(node, key);
            }
        }
        if (goal == NONE || stopped) {
            return false;
        }
        raisePotentials(best);
        push(goal);
        return true;
    }

    private int labelOf(int node) {
        if (node >= fabric.vertexCount()) {
            return labelNet[node - fabric.vertexCount()];
        }
        return node < 0 ? labelIn.get(-1 - node) : label[node];
    }

    private void clearLabels() {
        touched.forEach(
                (int vertex) -> {
                    label[vertex] = UNREACHED;
                    from[vertex] = NONE;
                });
        touched.clear();
        labelIn.clear();
        fromIn.clear();
        Arrays.fill(labelNet, UNREACHED);
        Arrays.fill(fromNet, NONE);
        settled.clear();
        queue.clear();
    }

    /** From a net to the vertices of its tree. */
    private void expandNet(int net, int key) {
        SearchSources sources = nets.get(net);
        for (int i = 0; i < sources.size(); i++) {
            int vertex = sources.vertex(i);
            if (toGo[vertex] != UNREACHED && vertex != startOf[net]) {
                int cost = key + startCost.get(vertex) + toGo[vertex] - toGoNet[net];
                reachOut(vertex, cost, netNode(net));
            }
        }
    }

    /** A vertex on a route, reached from outside: that route is taken back from here. */
    private void expandIn(int vertex, int key) {
        int before = previous.get(vertex);
        int cost = key - delay(before, vertex) + toGo[before] - toGoIn.get(vertex);
        reachOut(before, cost, inNode(vertex));
    }

    /** A vertex from which a route may go on: over its edges, or by taking back what led here. */
    private void expandOut(int vertex, int key) {
        int net = netOf.get(vertex);
        if (net != NONE && startOf[net] == vertex) {
            int cost = key - startCost.get(vertex) + toGoNet[net] - toGo[vertex];
            if (cost < labelNet[net]) {
                labelNet[net] = cost;
                fromNet[net] = vertex;
                queue.push(netNode(net), cost, 0);
            }
        } else if (previous.containsKey(vertex)) {
            reachIn(vertex, key + toGoIn.get(vertex) - toGo[vertex], vertex);
        }
        edges.reset(vertex);
        int saturated = next.get(vertex);
        while (edges.next()) {
            int other = edges.other();
            if (other == saturated || !isFree(other)) {
                continue;
            }
            if (previous.containsKey(other)) {
                int left = toGoIn.get(other);
                reachIn(other, key + edges.delayPs(corner) + left - toGo[vertex], vertex);
            } else if (toGo[other] != UNREACHED) {
                int cost = key + edges.delayPs(corner) + toGo[other] - toGo[vertex];
                reachOut(other, cost, vertex);
            }
        }
    }

    private void reachOut(int vertex, int cost, int by) {
        if (cost < label[vertex]) {
            if (label[vertex] == UNREACHED) {
                touched.add(vertex);
            }
            label[vertex] = cost;
            from[vertex] = by;
            queue.push(outNode(vertex), cost, 0);
        }
    }

    /**
     * @param by the vertex before it; the vertex itself when its route is taken back further
     */
    private void reachIn(int vertex, int cost, int by) {
        int known = labelIn.get(vertex);
        if (known == NONE || cost < known) {
            labelIn.put(vertex, cost);
            fromIn.put(vertex, by);
            queue.push(inNode(vertex), cost, 0);
        }
    }

    /** Keeps all reduced costs from turning negative on what is settled. */
    private void raisePotentials(int length) {
        settled.forEach(
                (int node) -> {
                    int more = length - labelOf(node);
                    if (more <= 0) {
                        return;
                    }
                    if (node >= fabric.vertexCount()) {
                        toGoNet[node - fabric.vertexCount()] += more;
                    } else if (node < 0) {
                        toGoIn.addTo(-1 - node, more);
                    } else {
                        toGo[node] += more;
                    }
                });
    }

    /** Sends a unit along the labels to a goal. */
    private void push(int goal) {
        List<int[]> added = new ArrayList<>();
        List<int[]> takenBack = new ArrayList<>();
        int node = outNode(goal);
        while (true) {
            if (node >= fabric.vertexCount()) {
                int net = node - fabric.vertexCount();
                if (fromNet[net] == NONE) {
                    break;
                }
                node = outNode(fromNet[net]);
            } else if (node < 0) {
                int vertex = -1 - node;
                int by = fromIn.get(vertex);
                if (by != vertex) {
                    added.add(new int[] {by, vertex});
                }
                node = outNode(by);
            } else {
                int by = from[node];
                if (by < 0) {
                    takenBack.add(new int[] {node, -1 - by});
                } else {
                    added.add(new int[] {by, node});
                }
                node = by;
            }
        }
        for (int[] edge : takenBack) {
            next.remove(edge[0]);
            previous.remove(edge[1]);
        }
        for (int[] edge : added) {
            if (edge[0] >= fabric.vertexCount()) {
                startOf[edge[0] - fabric.vertexCount()] = edge[1];
            } else {
                next.put(edge[0], edge[1]);
                previous.put(edge[1], edge[0]);
                if (!toGoIn.containsKey(edge[1])) {
                    toGoIn.put(edge[1], toGo[edge[1]]);
                }
            }
        }
        for (int[] edge : takenBack) {
            if (!previous.containsKey(edge[1])) {
                // It carries nothing any more, so it is one again: both potentials are the same.
                toGoIn.remove(edge[1]);
            }
        }
    }

    private int delay(int tail, int head) {
        edges.reset(tail);
        int least = UNREACHED;
        while (edges.next()) {
            if (edges.other() == head) {
                least = Math.min(least, edges.delayPs(corner));
            }
        }
        return least;
    }

    private Optional<VertexPath> route(int net) {
        if (startOf[net] == NONE) {
            return Optional.empty();
        }
        IntArrayList path = new IntArrayList();
        for (int at = startOf[net]; at != NONE; at = next.get(at)) {
            path.add(at);
        }
        return Optional.of(new VertexPath(path.toIntArray()));
    }

    private long costOf(VertexPath route) {
        long cost = startCost.get(route.vertex(0)) + (long) goals.get(route.last());
        for (int i = 1; i < route.size(); i++) {
            cost += delay(route.vertex(i - 1), route.vertex(i));
        }
        return cost;
    }

    /** What the last, failed search could reach is on the nets' side of a least cut. */
    private FlowCut cut() {
        List<Integer> within = new ArrayList<>();
        for (int net = 0; net < nets.size(); net++) {
            if (labelNet[net] != UNREACHED || startOf[net] == NONE) {
                within.add(net);
            }
        }
        IntArrayList vertices = new IntArrayList();
        labelIn.keySet()
                .forEach(
                        (int vertex) -> {
                            if (label[vertex] == UNREACHED) {
                                vertices.add(vertex);
                            }
                        });
        vertices.sort(null);
        return new FlowCut(within, List.copyOf(vertices));
    }
}
