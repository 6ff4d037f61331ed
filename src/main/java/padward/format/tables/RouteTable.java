package padward.format.tables;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayFIFOQueue;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.format.design.RouteReadingRules;
import padward.format.json.DesignFault;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.Faults;
import padward.format.tables.csv.TableFolder;
import padward.format.tables.csv.TableShape;

/**
 * Reads the steps of routes, in any order, and makes trees of them. Steps that come in the order of
 * a tree stay in it. Takes 16 bytes a row.
 */
final class RouteTable {
    private final TableFolder folder;
    private final Faults faults;
    private final Fabric fabric;
    private final DesignTables design;
    private final RouteReadingRules rules;
    private final boolean fabricIsSound;
    private final IntArrayList netOfStep = new IntArrayList();
    private final IntArrayList from = new IntArrayList();
    private final IntArrayList to = new IntArrayList();
    private final IntArrayList rows = new IntArrayList();

    RouteTable(
            TableFolder folder,
            Faults faults,
            Fabric fabric,
            boolean fabricIsSound,
            DesignTables design) {
        this.fabricIsSound = fabricIsSound;
        this.folder = folder;
        this.faults = faults;
        this.fabric = fabric;
        this.design = design;
        List<String> names = new ArrayList<>();
        design.nets().forEach(n -> names.add(n.name()));
        this.rules = new RouteReadingRules(fabric, design.cells(), design.ports(), names);
    }

    /** The nets with their routes. */
    List<Net> read() {
        folder.read(Tables.ROUTES, this::readSteps);
        int count = design.nets().size();
        int[] start = new int[count + 1];
        netOfStep.forEach(n -> start[n + 1]++);
        for (int n = 0; n < count; n++) {
            start[n + 1] += start[n];
        }
        int[] order = new int[rows.size()];
        int[] next = start.clone();
        for (int step = 0; step < order.length; step++) {
            order[next[netOfStep.getInt(step)]++] = step;
        }
        List<Net> nets = new ArrayList<>();
        for (int n = 0; n < count; n++) {
            int net = n;
            toNet(net, IntStream.range(start[n], start[n + 1]).map(i -> order[i]).toArray())
                    .ifPresent(nets::add);
        }
        return nets;
    }

    private void readSteps(CsvTable table) {
        CsvTable.Column netColumn = table.column("net");
        CsvTable.Column fromColumn = table.column("from");
        CsvTable.Column toColumn = table.column("to");
        while (table.next()) {
            int net = design.readNet(table, netColumn);
            int start = readVertex(table, fromColumn);
            int end = readVertex(table, toColumn);
            if (net != Fabric.NOTHING && start != Fabric.NOTHING && end != Fabric.NOTHING) {
                netOfStep.add(net);
                from.add(start);
                to.add(end);
                rows.add((int) table.row());
            }
        }
    }

    private int readVertex(CsvTable table, CsvTable.Column column) {
        String name = table.text(column);
        int vertex = fabric.findVertex(name);
        if (vertex == Fabric.NOTHING) {
            Stream<String> names =
                    IntStream.range(0, fabric.vertexCount()).mapToObj(fabric::vertexName);
            table.fault(
                    column,
                    "the full name of a wire, a pin (site.pin) or a pad",
                    () -> Nearest.describe(name, names));
        }
        return vertex;
    }

    private Optional<Net> toNet(int id, int[] steps) {
        DesignTables.NetRow net = design.nets().get(id);
        Optional<EndRow> driver = net.ends().stream().filter(EndRow::drives).findFirst();
        if (driver.isEmpty()) {
            faults.add(
                    folder.label(Tables.NETS),
                    CsvTable.place(net.row(), "name"),
                    "a net with a driver in table ends",
                    () -> Text.quote(net.name()) + ", which has none");
            return Optional.empty();
        }
        int root = driver.get().vertex();
        report(Tables.ENDS, driver.get().row(), rules.start(id, root));
        RouteTree tree = grow(id, root, steps);
        List<Terminal> sinks = new ArrayList<>();
        Map<Terminal, Integer> own = new HashMap<>();
        for (EndRow end : net.ends()) {
            if (end.drives()) {
                continue;
            }
            sinks.add(end.terminal());
            end.requiredPs().ifPresent(ps -> own.put(end.terminal(), ps));
            boolean reached = tree.placeOf(end.vertex()) != Fabric.NOTHING;
            if (reached && end.unrouted()) {
                faults.add(
                        folder.label(Tables.ENDS),
                        CsvTable.place(end.row(), "unrouted"),
                        "no, or a route that does not reach " + end.text(),
                        () -> "a route that does");
            }
            if (steps.length > 0 && !reached && !end.unrouted()) {
                faults.add(
                        folder.label(Tables.ENDS),
                        CsvTable.place(end.row(), "net"),
                        "a sink that the net's route reaches",
                        () -> end.text() + ", whose " + quote(end.vertex()) + " is not on it");
            }
        }
        return Optional.of(
                new Net(
                        id,
                        net.name(),
                        driver.get().terminal(),
                        sinks,
                        tree,
                        net.clock(),
                        net.requiredPs(),
                        own,
                        net.lock()));
    }

    /** Adds the steps from the root on; those whose start is not in the tree yet wait. O(steps). */
    private RouteTree grow(int net, int root, int[] steps) {
        Int2IntOpenHashMap rowByVertex = new Int2IntOpenHashMap();
        rowByVertex.put(root, 0);
        Int2IntOpenHashMap firstWaiting = new Int2IntOpenHashMap();
        firstWaiting.defaultReturnValue(Fabric.NOTHING);
        int[] nextWaiting = new int[steps.length];
        RouteTree.Builder tree = new RouteTree.Builder(root);
        IntArrayFIFOQueue ready = new IntArrayFIFOQueue();
        boolean[] sound = new boolean[steps.length];
        for (int i = 0; i < steps.length; i++) {
            sound[i] = isSound(net, steps[i], rowByVertex);
            if (!sound[i]) {
                continue;
            }
            int start = from.getInt(steps[i]);
            if (tree.contains(start)) {
                route(tree, steps, i, ready);
                release(tree, steps, ready, firstWaiting, nextWaiting);
            } else {
                nextWaiting[i] = firstWaiting.put(start, i);
            }
        }
        tellUnreached(tree, steps, sound);
        return tree.build();
    }

    private void route(RouteTree.Builder tree, int[] steps, int i, IntArrayFIFOQueue ready) {
        tree.add(from.getInt(steps[i]), to.getInt(steps[i]));
        ready.enqueue(to.getInt(steps[i]));
    }

    private void release(
            RouteTree.Builder tree,
            int[] steps,
            IntArrayFIFOQueue ready,
            Int2IntOpenHashMap firstWaiting,
            int[] nextWaiting) {
        while (!ready.isEmpty()) {
            int waiting = firstWaiting.remove(ready.dequeueInt());
            while (waiting != Fabric.NOTHING) {
                route(tree, steps, waiting, ready);
                waiting = nextWaiting[waiting];
            }
        }
    }

    /** Whether a step is possible: along an existing edge, to a vertex that nothing else drives. */
    private boolean isSound(int net, int step, Int2IntOpenHashMap rowByVertex) {
        int end = to.getInt(step);
        int row = rows.getInt(step);
        boolean first = !rowByVertex.containsKey(end);
        if (!first) {
            int before = rowByVertex.get(end);
            String by =
                    before == 0 ? "which is the net's driver" : "which row " + before + " drives";
            faults.add(
                    folder.label(Tables.ROUTES),
                    CsvTable.place(row, "to"),
                    "a wire, pin or pad that is driven once",
                    () -> quote(end) + ", " + by);
            return false;
        }
        rowByVertex.put(end, row);
        // on a faulty fabric, a missing switch is no fault of the route
        boolean joined =
                !fabricIsSound
                        || report(Tables.ROUTES, row, rules.step(net, from.getInt(step), end));
        boolean taken = report(Tables.ROUTES, row, rules.take(net, end));
        return joined && taken;
    }

    private boolean report(TableShape table, long row, Optional<DesignFault> trouble) {
        String column = table == Tables.ROUTES ? "to" : "net";
        trouble.ifPresent(
                t ->
                        faults.add(
                                folder.label(table),
                                CsvTable.place(row, column),
                                t.expected(),
                                t::found));
        return trouble.isEmpty();
    }

    /**
     * Reports each disconnected part of the route once: the step that nothing leads to, or one step
     * of a loop.
     */
    private void tellUnreached(RouteTree.Builder tree, int[] steps, boolean[] sound) {
        Int2IntOpenHashMap stepTo = new Int2IntOpenHashMap();
        stepTo.defaultReturnValue(Fabric.NOTHING);
        for (int i = 0; i < steps.length; i++) {
            if (sound[i] && !tree.contains(to.getInt(steps[i]))) {
                stepTo.put(to.getInt(steps[i]), steps[i]);
            }
        }
        Int2IntOpenHashMap seenBy = new Int2IntOpenHashMap();
        for (int i = 0; i < steps.length; i++) {
            if (!sound[i] || tree.contains(to.getInt(steps[i]))) {
                continue;
            }
            int step = steps[i];
            while (step != Fabric.NOTHING && !seenBy.containsKey(step)) {
                seenBy.put(step, i);
                int before = stepTo.get(from.getInt(step));
                if (before == Fabric.NOTHING) {
                    tellLoose(step);
                } else if (seenBy.getOrDefault(before, Fabric.NOTHING) == i) {
                    tellCircle(before);
                }
                step = before;
            }
        }
    }

    private void tellLoose(int step) {
        faults.add(
                folder.label(Tables.ROUTES),
                CsvTable.place(rows.getInt(step), "from"),
                "a start that the net's driver or another step has reached",
                () -> quote(from.getInt(step)) + ", which none has");
    }

    private void tellCircle(int step) {
        faults.add(
                folder.label(Tables.ROUTES),
                CsvTable.place(rows.getInt(step), "to"),
                "a route without loops",
                () -> quote(to.getInt(step)) + ", which its own steps lead back to");
    }

    private String quote(int vertex) {
        return Text.quote(fabric.vertexName(vertex));
    }
}
