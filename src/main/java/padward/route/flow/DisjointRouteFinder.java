package padward.route.flow;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.queue.BucketQueue;
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
    private static final int CHECK_EVERY = 4096;

    /**
     * Bits of {@link #role}: what a search has to know of a vertex on each edge that it looks at.
     */
    private static final byte CLOSED = 1;

    private static final byte GOAL = 2;
    private static final byte TREE = 4;
    private static final byte ROUTED = 8;

    private final Fabric fabric;
    private final Corner corner;
    private final List<SearchSources> nets;
    private final Progress progress;
    private final EdgeCursor edges;

    /** By vertex what it is; 0 for one that is free and on no route. */
    private final byte[] role;

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
    private final IntArrayList settled = new IntArrayList();
    private final BucketQueue queue = new BucketQueue();
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
        this.nets = List.copyOf(nets);
        this.progress = progress;
        this.edges = fabric.edgesOut();
        role = new byte[fabric.vertexCount()];
        for (int vertex = 0; vertex < role.length; vertex++) {
            role[vertex] = blocked.get(vertex) ? CLOSED : 0;
        }
        for (FlowGoal goal : goals) {
            this.goals.put(goal.vertex(), goal.cost());
            role[goal.vertex()] = GOAL;
        }
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
                role[sources.vertex(i)] = TREE;
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

    /** Exact cost from every vertex to its cheapest goal: the first potentials. */
    private void measureToGoals() {
        EdgeCursor into = fabric.edgesIn();
        queue.clear(0);
        goals.forEach(
                (goal, cost) -> {
                    toGo[goal] = cost;
                    queue.push(goal, cost);
                });
        while (!queue.isEmpty() && !isStopped()) {
            int vertex = queue.pop();
            int key = queue.current();
            if (key > toGo[vertex]) {
                continue;
            }
            into.reset(vertex);
            while (into.next()) {
                int before = into.other();
                if ((role[before] & (CLOSED | GOAL)) != 0) {
                    continue;
                }
                int cost = Math.addExact(key, into.delayPs(corner));
                if (cost < toGo[before]) {
                    toGo[before] = cost;
                    if (role[before] != TREE) {
                        queue.push(before, cost);
                    }
                }
            }
        }
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

    /**
     * Number of a node in the queue: an unsplit vertex or an {@code out} has its own number, then
     * come the nets, then the {@code in} of each vertex.
     */
    private int inNode(int vertex) {
        return fabric.vertexCount() + nets.size() + vertex;
    }

    private boolean isIn(int node) {
        return node >= fabric.vertexCount() + nets.size();
    }

    private int vertexOfIn(int node) {
        return node - fabric.vertexCount() - nets.size();
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
                queue.push(netNode(net), labelNet[net]);
            }
        }
        int goal = NONE;
        int best = UNREACHED;
        while (!queue.isEmpty() && !isStopped()) {
            int node = queue.pop();
            int key = queue.current();
            if (key >= best) {
                break;
            }
            if (key > labelOf(node)) {
                continue;
            }
            settled.add(node);
            if (node < fabric.vertexCount()) {
                if (role[node] == GOAL) {
                    // Not on a route yet, or only its in would have been reached.
                    int reached = key + goals.get(node) - toGo[node];
                    if (reached < best) {
                        best = reached;
                        goal = node;
                    }
                } else {
                    expandOut(node, key);
                }
            } else if (isIn(node)) {
                expandIn(vertexOfIn(node), key);
            } else {
                expandNet(node - fabric.vertexCount(), key);
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
        if (node < fabric.vertexCount()) {
            return label[node];
        }
        return isIn(node) ? labelIn.get(vertexOfIn(node)) : labelNet[node - fabric.vertexCount()];
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
        queue.clear(0);
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
        int net = role[vertex] == TREE ? netOf.get(vertex) : NONE;
        if (net != NONE && startOf[net] == vertex) {
            int cost = key - startCost.get(vertex) + toGoNet[net] - toGo[vertex];
            if (cost < labelNet[net]) {
                labelNet[net] = cost;
                fromNet[net] = vertex;
                queue.push(netNode(net), cost);
            }
        } else if ((role[vertex] & ROUTED) != 0) {
            reachIn(vertex, key + toGoIn.get(vertex) - toGo[vertex], vertex);
        }
        edges.reset(vertex);
        boolean starts = net != NONE && startOf[net] == vertex;
        int saturated = starts || (role[vertex] & ROUTED) != 0 ? next.get(vertex) : NONE;
        while (edges.next()) {
            int other = edges.other();
            if (other == saturated || (role[other] & (CLOSED | TREE)) != 0) {
                continue;
            }
            if ((role[other] & ROUTED) != 0) {
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
            queue.push(vertex, cost);
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
            queue.push(inNode(vertex), cost);
        }
    }

    /** Keeps all reduced costs from turning negative on what is settled. */
    private void raisePotentials(int length) {
        for (int i = 0; i < settled.size(); i++) {
            int node = settled.getInt(i);
            int more = length - labelOf(node);
            if (node < fabric.vertexCount()) {
                toGo[node] += more;
            } else if (isIn(node)) {
                toGoIn.addTo(vertexOfIn(node), more);
            } else {
                toGoNet[node - fabric.vertexCount()] += more;
            }
        }
    }

    /** Sends a unit along the labels to a goal. */
    private void push(int goal) {
        List<int[]> added = new ArrayList<>();
        List<int[]> takenBack = new ArrayList<>();
        int node = goal;
        while (true) {
            if (node < fabric.vertexCount()) {
                int by = from[node];
                if (isIn(by)) {
                    takenBack.add(new int[] {node, vertexOfIn(by)});
                } else {
                    added.add(new int[] {by, node});
                }
                node = by;
            } else if (isIn(node)) {
                int vertex = vertexOfIn(node);
                int by = fromIn.get(vertex);
                if (by != vertex) {
                    added.add(new int[] {by, vertex});
                }
                node = by;
            } else {
                int net = node - fabric.vertexCount();
                if (fromNet[net] == NONE) {
                    break;
                }
                node = fromNet[net];
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
                role[edge[1]] |= ROUTED;
                if (!toGoIn.containsKey(edge[1])) {
                    toGoIn.put(edge[1], toGo[edge[1]]);
                }
            }
        }
        for (int[] edge : takenBack) {
            if (!previous.containsKey(edge[1])) {
                // It carries nothing any more, so it is one again: both potentials are the same.
                toGoIn.remove(edge[1]);
                role[edge[1]] &= ~ROUTED;
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
