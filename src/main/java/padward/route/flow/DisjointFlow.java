package padward.route.flow;

import it.unimi.dsi.fastutil.ints.Int2IntMap;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntCollection;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.queue.BucketQueue;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * The greatest number of routes that share no vertex, and among these the least total cost, while
 * nets and goals come and go: a minimum-cost maximum flow with vertices of capacity one (Ford and
 * Fulkerson, Canadian Journal of Mathematics 8, 1956; vertices are split in two as in Ahuja,
 * Magnanti and Orlin, Network Flows, 1993, section 2.4). Each net sends one unit, from any vertex
 * of its tree; each goal takes one.
 *
 * <p>It is kept as a circulation: all goals lead to a hub, and the hub to the nets at a gain of
 * {@link #UNSERVED}, which is more than any route costs, so that the cheapest circulation serves
 * the most nets. A circulation is the cheapest exactly if there are potentials by which no arc with
 * room left costs less than nothing. Each change leaves one node with a unit too many and another
 * with one too few; a cheapest path between them, found with costs reduced by the potentials,
 * settles that and keeps the potentials valid (Edmonds and Karp, Journal of the ACM 19, 1972). So a
 * change takes one search, which looks only where the change matters.
 *
 * <p>The potential of a node is a lower bound of what it costs to get to the hub. At first it is
 * the exact cost over free vertices to the cheapest goal, by one search backwards from all goals.
 * Goals may be priced ({@link #price}) before that: with the prices that a rough assignment of nets
 * to goals needs, each net is led to a goal that no other needs more. A price that is left on a
 * goal without a route is taken off at the end, again by one search.
 *
 * <p>Only vertices on routes are really split: {@code in} is reached over an edge and leads back
 * along the route that holds it, {@code out} is reached by taking that route back. Belongs to one
 * thread.
 */
public final class DisjointFlow {
    /** What it costs to leave a net unserved: more than any route and its goal. */
    static final int UNSERVED = 1_000_000_000;

    /** The most that a goal may cost. */
    static final int MOST_EXPENSIVE = 800_000_000;

    /** Potentials that have risen so far are worked out again, lest they overflow. */
    private static final int TOO_HIGH = 400_000_000;

    private static final int NONE = -1;

    /** Stands for no node, as -1 is one. */
    private static final int NOWHERE = Integer.MIN_VALUE;

    private static final int UNREACHED = Integer.MAX_VALUE;
    private static final int CHECK_EVERY = 1024;

    /** Bits of {@link #role}: what a search has to know of a vertex on each edge it looks at. */
    private static final byte CLOSED = 1;

    private static final byte GOAL = 2;
    private static final byte TREE = 4;
    private static final byte ROUTED = 8;

    /** While a cut is searched: the vertex has been reached, for split ones as {@code out}. */
    private static final byte SEEN = 16;

    /** The same as {@code in}. */
    private static final byte SEEN_IN = 32;

    /** The same: the vertex is closed, and an edge leads to it from one that has been reached. */
    private static final byte BESIDE = 64;

    private final Fabric fabric;
    private final Corner corner;
    private final EdgeCursor edges;
    private final int hub;

    /** By vertex what it is; 0 for one that is free and on no route. */
    private final byte[] role;

    /** By goal vertex its cost. */
    private final Int2IntOpenHashMap goals = map();

    /** The nets by number, and which of them take part. */
    private final List<SearchSources> nets = new ArrayList<>();

    private final TreeSet<Integer> active = new TreeSet<>();

    /** By vertex of a tree its net, and what it costs to start there. */
    private final Int2IntOpenHashMap netOf = map();

    private final Int2IntOpenHashMap startCost = map();

    /** The flow: the next and the previous vertex of every vertex on a route. */
    private final Int2IntOpenHashMap next = map();

    private final Int2IntOpenHashMap previous = map();

    /** By net the tree vertex that its route starts at. */
    private final IntArrayList startOf = new IntArrayList();

    /** Potentials: of vertices (for split ones of {@code out}), hub and nets; of {@code in}. */
    private int[] toGo;

    private final Int2IntOpenHashMap toGoIn = map();

    /** Labels of the present search, and from which node they were reached. */
    private int[] label;

    private int[] from;
    private final Int2IntOpenHashMap labelIn = map();
    private final Int2IntOpenHashMap fromIn = map();
    private final IntArrayList touched = new IntArrayList();
    private final BucketQueue queue = new BucketQueue();

    /** The net that is being added: it may stay unserved. */
    private int adding = NONE;

    /** The goal that a unit is owed to: the hub may pay it back. */
    private int owed = NONE;

    private Progress progress;
    private int looked;
    private boolean stopped;

    /** Whether potentials may not be valid, because a change was stopped. */
    private boolean isStale;

    /** How many nets can be served at the most, as far as is known. */
    private int most;

    private long settled;

    private static Int2IntOpenHashMap map() {
        Int2IntOpenHashMap map = new Int2IntOpenHashMap();
        map.defaultReturnValue(NONE);
        return map;
    }

    /**
     * A flow of no nets to some goals.
     *
     * @param corner the corner whose delays count
     * @param blocked vertices that no route may enter; goals count as free
     * @param trees vertices of the nets that will be added and are not blocked anyway
     * @param goals where routes may end; no route goes on from there
     * @param prices by vertices of goals what they cost more until {@link #finish}, at most {@link
     *     #UNSERVED}; none are needed
     * @param progress when it says so, everything ends soon, with a flow that may not be the best
     */
    public DisjointFlow(
            Fabric fabric,
            Corner corner,
            BlockedVertices blocked,
            IntCollection trees,
            List<FlowGoal> goals,
            Int2IntMap prices,
            Progress progress) {
        this.fabric = fabric;
        this.progress = progress;
        this.corner = corner;
        this.edges = fabric.edgesOut();
        this.hub = fabric.vertexCount();
        role = new byte[hub];
        for (int vertex = 0; vertex < hub; vertex++) {
            role[vertex] = blocked.get(vertex) ? CLOSED : 0;
        }
        trees.forEach((int vertex) -> role[vertex] = CLOSED);
        for (FlowGoal goal : goals) {
            put(goal);
        }
        toGo = filled(hub + 1 + 64, UNREACHED);
        label = filled(toGo.length, UNREACHED);
        from = filled(toGo.length, NOWHERE);
        toGo[hub] = 0;
        price(prices);
        isStale = stopped;
    }

    private void put(FlowGoal goal) {
        if (goal.cost() > MOST_EXPENSIVE) {
            throw new IllegalArgumentException("a goal costs too much: " + goal.cost());
        }
        goals.put(goal.vertex(), goal.cost());
        role[goal.vertex()] = GOAL;
    }

    private static int[] filled(int size, int value) {
        int[] result = new int[size];
        Arrays.fill(result, value);
        return result;
    }

    /** Who is asked whether to stop from now on; also goes on after a stop. */
    public void askToStop(Progress whom) {
        progress = whom;
        stopped = false;
    }

    /** Whether a change was stopped: the flow is one, but may not be the best. */
    public boolean isStopped() {
        return isStale;
    }

    /** Number of nodes that searches have settled so far. */
    public long settled() {
        return settled;
    }

    /** First potentials: the cost from every vertex to its cheapest goal, prices included. */
    private void price(Int2IntMap prices) {
        EdgeCursor into = fabric.edgesIn();
        queue.clear(0);
        goals.forEach(
                (goal, cost) -> {
                    toGo[goal] = cost + Math.min(prices.getOrDefault(goal, 0), UNSERVED);
                    queue.push(goal, toGo[goal]);
                });
        while (!queue.isEmpty() && !isToStop()) {
            int vertex = queue.pop();
            int key = queue.current();
            if (key > toGo[vertex]) {
                continue;
            }
            into.reset(vertex);
            while (into.next()) {
                int before = into.other();
                // What is as near already need not ask for more.
                if (toGo[before] > key && (role[before] & (CLOSED | GOAL)) == 0) {
                    int cost = Math.addExact(key, into.delayPs(corner));
                    if (cost < toGo[before]) {
                        toGo[before] = cost;
                        queue.push(before, cost);
                    }
                }
            }
        }
    }

    private boolean isToStop() {
        if (++looked % CHECK_EVERY == 0 && progress.cancelled()) {
            stopped = true;
        }
        return stopped;
    }

    /**
     * Adds a net, and serves it, or another in its place, if that makes the flow better.
     *
     * @param sources where its route may start, and what is spent until there; closed vertices
     * @return its number
     */
    public int addNet(SearchSources sources) {
        begin();
        int net = nets.size();
        nets.add(sources);
        startOf.add(NONE);
        makeRoom(net);
        take(net);
        most++;
        end();
        return net;
    }

    /** Adds a net again that was removed. */
    public void addAgain(int net) {
        begin();
        take(net);
        most++;
        end();
    }

    private void take(int net) {
        SearchSources sources = nets.get(net);
        for (int i = 0; i < sources.size(); i++) {
            if (netOf.containsKey(sources.vertex(i))) {
                throw new IllegalArgumentException("two nets start at one vertex");
            }
            if (role[sources.vertex(i)] != CLOSED) {
                throw new IllegalArgumentException("a net starts at an open vertex");
            }
        }
        int least = UNSERVED + toGo[hub];
        for (int i = 0; i < sources.size(); i++) {
            int vertex = sources.vertex(i);
            int cost = Math.toIntExact(sources.cost(i));
            netOf.put(vertex, net);
            startCost.put(vertex, cost);
            role[vertex] = TREE;
            toGo[vertex] = leastOnward(vertex);
            if (toGo[vertex] != UNREACHED) {
                least = Math.min(least, Math.addExact(toGo[vertex], cost));
            }
        }
        active.add(net);
        toGo[netNode(net)] = least;
        if (!stopped) {
            adding = net;
            search(netNode(net), hub);
            adding = NONE;
        }
    }

    private int leastOnward(int vertex) {
        int least = UNREACHED;
        edges.reset(vertex);
        while (edges.next()) {
            int other = edges.other();
            if ((role[other] & (CLOSED | TREE)) == 0) {
                int left =
                        (role[other] & ROUTED) != 0 && (role[other] & GOAL) == 0
                                ? toGoIn.get(other)
                                : toGo[other];
                if (left != UNREACHED) {
                    least = Math.min(least, Math.addExact(left, edges.delayPs(corner)));
                }
            }
        }
        return least;
    }

    /** Removes a net. Its vertices stay closed. */
    public void removeNet(int net) {
        if (!active.contains(net)) {
            throw new IllegalArgumentException("there is no net " + net);
        }
        begin();
        drop(net);
        end();
    }

    private void drop(int net) {
        if (startOf.getInt(net) != NONE && !stopped) {
            search(hub, netNode(net));
        }
        if (startOf.getInt(net) != NONE) {
            takeAllBack(net);
        }
        leave(net);
    }

    private void leave(int net) {
        active.remove(net);
        for (int i = 0; i < nets.get(net).size(); i++) {
            int vertex = nets.get(net).vertex(i);
            netOf.remove(vertex);
            startCost.remove(vertex);
            role[vertex] = CLOSED;
        }
    }

    /** After a stop: leaves a flow, but not the best. */
    private void takeAllBack(int net) {
        int at = startOf.getInt(net);
        startOf.set(net, NONE);
        while (next.containsKey(at)) {
            at = next.remove(at);
            previous.remove(at);
            toGoIn.remove(at);
            role[at] &= ~ROUTED;
        }
    }

    /** Adds a goal at a closed vertex. */
    public void addGoal(FlowGoal goal) {
        int vertex = goal.vertex();
        if (role[vertex] != CLOSED) {
            throw new IllegalArgumentException("a goal is added at an open vertex");
        }
        begin();
        put(goal);
        toGo[vertex] = Math.max(goal.cost() + toGo[hub], highestBefore(vertex));
        payBack(vertex);
        most++;
        end();
    }

    /** The least potential that a new goal may have, with all that leads nowhere else revived. */
    private int highestBefore(int goal) {
        EdgeCursor into = fabric.edgesIn();
        IntArrayList revived = new IntArrayList();
        IntArrayList todo = IntArrayList.of(goal);
        int highest = 0;
        int direct = 0;
        while (!todo.isEmpty()) {
            int vertex = todo.popInt();
            into.reset(vertex);
            while (into.next()) {
                int before = into.other();
                if ((role[before] & (CLOSED | GOAL)) != 0) {
                    continue;
                }
                if (toGo[before] != UNREACHED) {
                    highest = Math.max(highest, toGo[before]);
                    if (vertex == goal) {
                        direct = Math.max(direct, toGo[before] - into.delayPs(corner));
                    }
                } else {
                    toGo[before] = 0;
                    revived.add(before);
                    if (role[before] == TREE) {
                        highest = Math.max(highest, toGo[netNode(netOf.get(before))]);
                    } else {
                        todo.add(before);
                    }
                }
            }
        }
        for (int i = 0; i < revived.size(); i++) {
            toGo[revived.getInt(i)] = highest;
        }
        return revived.isEmpty() ? direct : highest;
    }

    /** Removes a goal; the net that it took is served elsewhere, if that can be. */
    public void removeGoal(int vertex) {
        if (!goals.containsKey(vertex)) {
            throw new IllegalArgumentException("there is no goal at vertex " + vertex);
        }
        begin();
        goals.remove(vertex);
        if ((role[vertex] & ROUTED) != 0 && !stopped) {
            search(vertex, hub);
        }
        if ((role[vertex] & ROUTED) != 0) {
            takeAllBack(netAt(vertex));
        }
        role[vertex] = CLOSED;
        end();
    }

    private int netAt(int vertex) {
        int at = vertex;
        while (previous.containsKey(at)) {
            at = previous.get(at);
        }
        return netOf.get(at);
    }

    /** Closes vertices; nets whose routes pass them are served otherwise, if that can be. */
    public void close(IntCollection vertices) {
        begin();
        Set<Integer> removed = new TreeSet<>();
        for (Set<Integer> passing = passing(vertices);
                !passing.isEmpty();
                passing = passing(vertices)) {
            // Others may pass in their place then.
            passing.forEach(this::drop);
            removed.addAll(passing);
        }
        for (int vertex : vertices) {
            if ((role[vertex] & (GOAL | TREE)) == 0) {
                role[vertex] = CLOSED;
            }
        }
        removed.forEach(this::take);
        end();
    }

    /**
     * Opens vertices that are closed, as if what used them had been removed; those that are open
     * stay so. Nets are served over them where that makes the flow better.
     *
     * @param vertices none of a net's tree and no goal
     */
    public void open(IntCollection vertices) {
        for (int vertex : vertices) {
            if ((role[vertex] & (GOAL | TREE)) != 0) {
                throw new IllegalArgumentException("a net or goal is there: " + vertex);
            }
        }
        begin();
        for (int vertex : vertices) {
            if (role[vertex] == CLOSED) {
                open(vertex);
                most++;
            }
        }
        end();
    }

    /**
     * Opens a vertex. What leads to it may have a higher potential than it has by what it leads to.
     * Then it is split, a unit is sent through it, and the cheapest path that brings the unit back
     * to where it entered is searched: over other routes, or straight back through the vertex,
     * after which both of its potentials are the same.
     */
    private void open(int vertex) {
        toGo[vertex] = leastOnward(vertex);
        if (toGo[vertex] == UNREACHED || stopped) {
            role[vertex] = 0;
            return;
        }
        int before = highestBefore(vertex);
        // It may also lead to what leads nowhere but to it.
        toGo[vertex] = leastOnward(vertex);
        if (before <= toGo[vertex]) {
            role[vertex] = 0;
            return;
        }
        role[vertex] = ROUTED;
        toGoIn.put(vertex, before);
        search(vertex, ~vertex);
        if (!previous.containsKey(vertex)) {
            role[vertex] = 0;
            toGoIn.remove(vertex);
        }
    }

    private Set<Integer> passing(IntCollection vertices) {
        Set<Integer> result = new TreeSet<>();
        for (int vertex : vertices) {
            if (role[vertex] == ROUTED) {
                result.add(netAt(vertex));
            }
        }
        return result;
    }

    /** Takes the prices off goals that no route takes, which makes the flow the cheapest. */
    public void finish() {
        begin();
        for (int goal : goals.keySet().toIntArray()) {
            payBack(goal);
        }
        end();
    }

    /** Takes the price off a goal, unless it is worth a route. */
    private void payBack(int goal) {
        if (isPriced(goal) && !stopped) {
            owed = goal;
            search(hub, goal);
            owed = NONE;
        }
    }

    private boolean isPriced(int goal) {
        return (role[goal] & ROUTED) == 0 && toGo[goal] > goals.get(goal) + toGo[hub];
    }

    /** After a stop potentials may not be valid: everything is worked out from the start. */
    private void begin() {
        if (isStale && !stopped) {
            again();
        }
    }

    /** Potentials that have risen far are worked out from the start, lest they overflow. */
    private void end() {
        if (!stopped && toGo[hub] > TOO_HIGH) {
            again();
        }
        isStale |= stopped;
        if (!isStale) {
            // A price may keep a net from a goal, but each goal takes one net more at the most.
            most = served() + (int) goals.keySet().intStream().filter(this::isPriced).count();
        }
    }

    private void again() {
        List<Integer> members = List.copyOf(active);
        next.clear();
        previous.clear();
        toGoIn.clear();
        for (int vertex = 0; vertex < hub; vertex++) {
            role[vertex] &= ~ROUTED;
        }
        for (int net : members) {
            startOf.set(net, NONE);
            leave(net);
        }
        Arrays.fill(toGo, UNREACHED);
        toGo[hub] = 0;
        isStale = false;
        price(new Int2IntOpenHashMap());
        members.forEach(this::take);
        isStale |= stopped;
    }

    private int netNode(int net) {
        return hub + 1 + net;
    }

    private int netOfNode(int node) {
        return node - hub - 1;
    }

    private void makeRoom(int net) {
        if (netNode(net) >= toGo.length) {
            int before = toGo.length;
            int size = before + before / 8 + 64;
            toGo = Arrays.copyOf(toGo, size);
            label = Arrays.copyOf(label, size);
            from = Arrays.copyOf(from, size);
            Arrays.fill(label, before, size, UNREACHED);
        }
    }

    /**
     * Sends a unit from one node to another over the cheapest path with room left, and keeps the
     * potentials valid. Does nothing when it is stopped; otherwise there always is a path, over the
     * hub at the worst.
     */
    private void search(int source, int target) {
        clearLabels();
        reach(source, 0, NOWHERE);
        stopped |= progress.cancelled();
        while (!isToStop() && !queue.isEmpty()) {
            int node = queue.pop();
            int key = queue.current();
            if (key > labelOf(node)) {
                continue;
            }
            if (node == target) {
                raisePotentials(key);
                push(target);
                return;
            }
            settled++;
            expand(node, key);
        }
        if (!stopped) {
            throw new IllegalStateException("no path from " + source + " to " + target);
        }
    }

    private void clearLabels() {
        touched.forEach((int node) -> label[node] = UNREACHED);
        touched.clear();
        labelIn.clear();
        fromIn.clear();
        queue.clear(0);
    }

    private int labelOf(int node) {
        return node < 0 ? labelIn.get(~node) : label[node];
    }

    private void expand(int node, int key) {
        if (node < 0) {
            expandIn(~node, key);
        } else if (node == hub) {
            expandHub(key);
        } else if (node > hub) {
            expandNet(netOfNode(node), key);
        } else if ((role[node] & GOAL) != 0) {
            expandGoal(node, key);
        } else {
            expandOut(node, key);
        }
    }

    /** From the hub to the nets that are not served, and back to goals. */
    private void expandHub(int key) {
        for (int net : active) {
            if (startOf.getInt(net) == NONE && net != adding) {
                int node = netNode(net);
                reach(node, key + toGo[node] - UNSERVED - toGo[hub], hub);
            }
        }
        goals.forEach(
                (goal, cost) -> {
                    if ((role[goal] & ROUTED) != 0 || goal == owed) {
                        reach(goal, key + toGo[goal] - cost - toGo[hub], hub);
                    }
                });
    }

    /** From a net to the vertices of its tree, and to the hub if it is left unserved. */
    private void expandNet(int net, int key) {
        int node = netNode(net);
        if (startOf.getInt(net) != NONE || net == adding) {
            reach(hub, sum(key, UNSERVED + (toGo[hub] - toGo[node])), node);
        }
        SearchSources sources = nets.get(net);
        for (int i = 0; i < sources.size(); i++) {
            int vertex = sources.vertex(i);
            if (toGo[vertex] != UNREACHED && vertex != startOf.getInt(net)) {
                int cost = (int) sources.cost(i) + toGo[vertex] - toGo[node];
                reach(vertex, sum(key, cost), node);
            }
        }
    }

    /** A free goal leads to the hub; at one that is taken, the route to it can be taken back. */
    private void expandGoal(int goal, int key) {
        if ((role[goal] & ROUTED) != 0) {
            takeBack(goal, goal, key - toGo[goal]);
        } else if (goals.containsKey(goal)) {
            // What is left of a price is owed to whoever takes the goal.
            int cost = Math.max(0, goals.get(goal) + toGo[hub] - toGo[goal]);
            reach(hub, sum(key, cost), goal);
        }
    }

    /** A vertex on a route, reached from outside: that route is taken back from here. */
    private void expandIn(int vertex, int key) {
        takeBack(vertex, ~vertex, key - toGoIn.get(vertex));
    }

    private void takeBack(int vertex, int node, int rest) {
        int before = previous.get(vertex);
        reach(before, rest - delay(before, vertex) + toGo[before], node);
    }

    /** A vertex from which a route may go on: over its edges, or by taking back what led here. */
    private void expandOut(int vertex, int key) {
        int own = toGo[vertex];
        int saturated = NONE;
        if (role[vertex] == TREE) {
            int net = netOf.get(vertex);
            if (startOf.getInt(net) == vertex) {
                int node = netNode(net);
                reach(node, key - startCost.get(vertex) + toGo[node] - own, vertex);
                saturated = next.get(vertex);
            }
        } else if (role[vertex] == ROUTED) {
            reachIn(vertex, sum(key, toGoIn.get(vertex) - own), vertex);
            saturated = next.get(vertex);
        }
        edges.reset(vertex);
        while (edges.next()) {
            int other = edges.other();
            byte is = role[other];
            if (other == saturated || (is & (CLOSED | TREE)) != 0) {
                continue;
            }
            int step = edges.delayPs(corner);
            if (is == ROUTED) {
                reachIn(other, sum(key, step + toGoIn.get(other) - own), vertex);
            } else if (toGo[other] != UNREACHED) {
                reach(other, sum(key, step + toGo[other] - own), vertex);
            }
        }
    }

    /** Saturates: what costs so much is not on any cheapest path. */
    private static int sum(int key, int cost) {
        int sum = key + cost;
        return sum < 0 && key > 0 && cost > 0 ? UNREACHED : sum;
    }

    private void reach(int node, int cost, int by) {
        if (cost < label[node]) {
            if (label[node] == UNREACHED) {
                touched.add(node);
            }
            label[node] = cost;
            from[node] = by;
            queue.push(node, cost);
        }
    }

    private void reachIn(int vertex, int cost, int by) {
        int known = labelIn.get(vertex);
        if (known == NONE || cost < known) {
            labelIn.put(vertex, cost);
            fromIn.put(vertex, by);
            queue.push(~vertex, cost);
        }
    }

    /** Keeps all reduced costs from turning negative. */
    private void raisePotentials(int length) {
        for (int i = 0; i < touched.size(); i++) {
            int node = touched.getInt(i);
            if (label[node] < length) {
                toGo[node] += length - label[node];
            }
        }
        labelIn.forEach(
                (vertex, reached) -> {
                    if (reached < length) {
                        toGoIn.addTo(vertex, length - reached);
                    }
                });
    }

    /** Sends a unit along the labels. */
    private void push(int target) {
        List<int[]> added = new ArrayList<>();
        List<int[]> takenBack = new ArrayList<>();
        List<int[]> starts = new ArrayList<>();
        int node = target;
        while (true) {
            int by = node < 0 ? fromIn.get(~node) : from[node];
            if (by == NOWHERE) {
                break;
            }
            boolean isVertex = node < hub;
            int vertex = node < 0 ? ~node : node;
            if (by < 0) {
                takenBack.add(new int[] {vertex, ~by});
            } else if (by < hub && isVertex) {
                if ((role[by] & GOAL) != 0) {
                    takenBack.add(new int[] {vertex, by});
                } else if (by != vertex) {
                    added.add(new int[] {by, vertex});
                }
            } else if (by > hub && isVertex) {
                starts.add(new int[] {netOfNode(by), vertex});
            } else if (node > hub && by < hub) {
                startOf.set(netOfNode(node), NONE);
            }
            node = by;
        }
        starts.forEach(start -> startOf.set(start[0], start[1]));
        for (int[] edge : takenBack) {
            next.remove(edge[0]);
            previous.remove(edge[1]);
        }
        for (int[] edge : added) {
            next.put(edge[0], edge[1]);
            previous.put(edge[1], edge[0]);
            if ((role[edge[1]] & (ROUTED | GOAL)) == 0) {
                toGoIn.put(edge[1], toGo[edge[1]]);
            }
            role[edge[1]] |= ROUTED;
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

    /** Number of nets, served or not. */
    public int nets() {
        return active.size();
    }

    /** How many of them can be served at the most: as many as are, unless it was stopped. */
    public int mostServed() {
        return Math.min(most, Math.min(active.size(), goals.size()));
    }

    /**
     * Whether no free route at all leads from a net to any goal. Potentials do not tell: those of
     * vertices that led only to a goal that was removed stay. So it is searched for, first where
     * little is left to go.
     */
    public boolean isCutOff(int net) {
        if (startOf.getInt(net) != NONE) {
            return false;
        }
        SearchSources sources = nets.get(net);
        IntOpenHashSet seen = new IntOpenHashSet();
        IntArrayList todo = new IntArrayList();
        for (int i = 0; i < sources.size(); i++) {
            todo.add(sources.vertex(i));
        }
        while (!todo.isEmpty()) {
            int vertex = todo.popInt();
            int nearest = NONE;
            edges.reset(vertex);
            while (edges.next()) {
                int other = edges.other();
                if ((role[other] & (CLOSED | TREE)) != 0 || !canLead(other) || !seen.add(other)) {
                    continue;
                }
                if (goals.containsKey(other)) {
                    return false;
                }
                if (nearest == NONE || toGo[other] < toGo[nearest]) {
                    nearest = other;
                }
                todo.add(other);
            }
            if (nearest != NONE) {
                todo.add(nearest);
            }
        }
        return true;
    }

    /** Whether a vertex may lead to a goal, as far as the potentials tell; after a stop any may. */
    private boolean canLead(int vertex) {
        return isStale || toGo[vertex] != UNREACHED;
    }

    /** Number of nets that are served now. */
    public int served() {
        return (int) active.stream().filter(n -> startOf.getInt(n) != NONE).count();
    }

    /** A net's route, if it has one. */
    public Optional<VertexPath> route(int net) {
        int start = startOf.getInt(net);
        if (start == NONE) {
            return Optional.empty();
        }
        IntArrayList path = new IntArrayList();
        for (int at = start; at != NONE; at = next.get(at)) {
            path.add(at);
        }
        return Optional.of(new VertexPath(path.toIntArray()));
    }

    /** What a net's route costs, its start and its goal included; 0 without one. */
    public long cost(int net) {
        Optional<VertexPath> found = route(net);
        if (found.isEmpty()) {
            return 0;
        }
        VertexPath route = found.get();
        long cost = startCost.get(route.first()) + (long) goals.get(route.last());
        for (int i = 1; i < route.size(); i++) {
            cost += delay(route.vertex(i - 1), route.vertex(i));
        }
        return cost;
    }

    /**
     * Why not all nets are served: a least cut, as near to the nets as there is. Empty when all
     * are, or when the search for it is stopped.
     *
     * @return by number the nets on the near side, and the vertices that cut them off
     */
    public Optional<FlowCut> cut() {
        if (isStale || served() == active.size()) {
            return Optional.empty();
        }
        Optional<FlowCut> result =
                flooded().map(nets -> new FlowCut(List.copyOf(nets), verticesOfCut(), nearSide()));
        for (int vertex = 0; vertex < hub; vertex++) {
            role[vertex] &= ~(SEEN | SEEN_IN | BESIDE);
        }
        stopped = false;
        return result;
    }

    /**
     * Marks all that can be reached with room left from nets that are not served; empty when that
     * is stopped. What it costs does not matter, so this is quicker than {@link #search}. What
     * leads nowhere is reached too: it may lie beside what is closed.
     *
     * @return the nets that are reached
     */
    private Optional<Set<Integer>> flooded() {
        Set<Integer> reached = new TreeSet<>();
        UnmetHeads heads = new UnmetHeads(fabric);
        IntArrayList todo = new IntArrayList();
        for (int net : active) {
            if (startOf.getInt(net) == NONE) {
                floodNet(net, reached, todo);
            }
        }
        while (!todo.isEmpty()) {
            if (isToStop()) {
                return Optional.empty();
            }
            int node = todo.popInt();
            if (node < 0 || (role[node] & GOAL) != 0) {
                // Reached from outside: the route that passes it, or ends there, is taken back.
                int vertex = node < 0 ? ~node : node;
                if ((role[vertex] & ROUTED) != 0) {
                    flood(previous.get(vertex), todo);
                }
            } else {
                floodOut(node, heads, reached, todo);
            }
        }
        return Optional.of(reached);
    }

    private void floodNet(int net, Set<Integer> reached, IntArrayList todo) {
        if (reached.add(net)) {
            SearchSources sources = nets.get(net);
            for (int i = 0; i < sources.size(); i++) {
                if (sources.vertex(i) != startOf.getInt(net)) {
                    flood(sources.vertex(i), todo);
                }
            }
        }
    }

    private void floodOut(int vertex, UnmetHeads heads, Set<Integer> reached, IntArrayList todo) {
        int saturated = NONE;
        if ((role[vertex] & TREE) != 0) {
            int net = netOf.get(vertex);
            if (startOf.getInt(net) == vertex) {
                floodNet(net, reached, todo);
                saturated = next.get(vertex);
            }
        } else if ((role[vertex] & ROUTED) != 0) {
            floodIn(vertex, todo);
            saturated = next.get(vertex);
        }
        heads.reset(vertex);
        while (heads.next()) {
            int other = heads.other();
            if (other == saturated) {
                continue;
            }
            byte is = role[other];
            if ((is & (CLOSED | TREE)) != 0) {
                role[other] = (byte) (is | BESIDE);
            } else if ((is & (ROUTED | GOAL)) == ROUTED) {
                floodIn(other, todo);
            } else {
                flood(other, todo);
            }
            heads.meet(other);
        }
    }

    private void flood(int vertex, IntArrayList todo) {
        if ((role[vertex] & SEEN) == 0) {
            role[vertex] |= SEEN;
            todo.add(vertex);
        }
    }

    private void floodIn(int vertex, IntArrayList todo) {
        if ((role[vertex] & SEEN_IN) == 0) {
            role[vertex] |= SEEN_IN;
            todo.add(~vertex);
        }
    }

    /** What was reached, from its marks. */
    private NearSide nearSide() {
        BitSet left = new BitSet(hub);
        BitSet entered = new BitSet(hub);
        IntArrayList beside = new IntArrayList();
        for (int vertex = 0; vertex < hub; vertex++) {
            byte is = role[vertex];
            if ((is & (SEEN | SEEN_IN | BESIDE)) == 0) {
                continue;
            }
            if ((is & SEEN_IN) != 0 || (is & (SEEN | GOAL)) == (SEEN | GOAL)) {
                entered.set(vertex);
            }
            if ((is & (SEEN | GOAL)) == SEEN) {
                left.set(vertex);
            }
            if ((is & BESIDE) != 0) {
                beside.add(vertex);
            }
        }
        return new NearSide(left, entered, beside);
    }

    /** The vertices on routes that are reached, and not left. */
    private List<Integer> verticesOfCut() {
        IntArrayList vertices = new IntArrayList();
        for (int vertex : previous.keySet()) {
            byte is = role[vertex];
            boolean isGoal = (is & GOAL) != 0;
            if (isGoal ? (is & SEEN) != 0 : (is & (SEEN | SEEN_IN)) == SEEN_IN) {
                vertices.add(vertex);
            }
        }
        vertices.sort(null);
        return List.copyOf(vertices);
    }
}
