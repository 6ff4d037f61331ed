package padward.change;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Numbered;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.example.OddDesigns;
import padward.example.RandomCircuits;
import padward.example.RandomDesigns;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.VertexKind;
import padward.fabric.pattern.PatternFabric;

/**
 * Random sequences of all kinds of edits, those that fit and those that do not, on designs with
 * everything tangled: what the program makes of them is what a second, plain reading of the
 * documents makes of them ({@link PlainState}), and a design after edits is in every respect the
 * one that is built anew from its records.
 */
class EditMeaningProperties {
    private static final int SAMPLE = 400;
    private static final int MANY = 100_000;
    private static final int STEPS = 6;

    private int fitted;
    private int refused;

    @Test
    void aSampleMeansWhatTheDocumentsSay() throws Exception {
        run(SAMPLE);
    }

    /** An entry is judged by what comes of it, not by each of its steps. */
    @Test
    void aCellRelocatedTwiceIsJudgedWhereItEndsUp() throws Exception {
        long seed = 18_620;
        sequence(design(seed).orElseThrow(), new Random(seed), seed);
    }

    @Test
    @Tag("slow")
    void aHundredThousandMeanWhatTheDocumentsSay() throws Exception {
        run(MANY);
    }

    private void run(int sequences) throws Exception {
        for (long seed = 0; seed < sequences; seed++) {
            Optional<Design> base = design(seed);
            if (base.isPresent()) {
                sequence(base.get(), new Random(seed), seed);
            }
        }
        // Sequences are worth something only if edits of both sorts were tried.
        assertThat(fitted).isGreaterThan(sequences);
        assertThat(refused).isGreaterThan(sequences / 2);
    }

    private static Optional<Design> design(long seed) throws Exception {
        if (seed % 4 == 0) {
            Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed / 4 % 50));
            return Optional.of(RandomDesigns.on(fabric, 8, new Random(seed)));
        }
        if (seed % 4 == 1) {
            return Optional.of(OddDesigns.withoutSettings(seed)).filter(d -> d.nets().size() > 0);
        }
        boolean inputs = seed % 3 == 0;
        return RandomCircuits.make(seed, new RandomCircuits.Sorts(true, seed % 2 == 0, inputs));
    }

    private void sequence(Design base, Random random, long seed) {
        Design now = base;
        PlainState plain = PlainState.of(base);
        if (!plain.isSound()) {
            return;
        }
        for (int step = 0; step < STEPS; step++) {
            List<Edit> edits = new ArrayList<>();
            int count = 1 + random.nextInt(3);
            for (int i = 0; i < count; i++) {
                edits.add(any(now, random, seed + "_" + step + "_" + i));
            }
            String name = "seed " + seed + ", step " + step + ", " + edits;
            Outcome outcome = Outcome.of(now, edits);
            PlainState expected = plain.after(edits, base.fabric());
            if (expected == null) {
                assertThat(outcome).as(name).isInstanceOf(Outcome.Refused.class);
                assertThat(((Outcome.Refused) outcome).reasons()).as(name).isNotEmpty();
                refused++;
            } else {
                assertThat(outcome).as(name).isInstanceOf(Outcome.Applied.class);
                now = ((Outcome.Applied) outcome).design();
                plain = expected;
                fitted++;
                check(now, plain, name);
            }
        }
    }

    private static void check(Design now, PlainState plain, String name) {
        assertThat(PlainState.of(now).text()).as(name).isEqualTo(plain.text());
        Fabric fabric = now.fabric();
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            String user =
                    now.occupancy()
                            .findOccupant(vertex)
                            .map(o -> (o instanceof Occupant.ByCell ? "cell " : "net ") + o.name())
                            .orElse("");
            assertThat(user)
                    .as(name + ": " + fabric.vertexName(vertex))
                    .isEqualTo(plain.userOf(fabric.vertexName(vertex)));
            assertThat(now.occupancy().isOccupied(vertex)).as(name).isEqualTo(!user.isEmpty());
        }
        assertThat(now.occupancy().occupiedCount())
                .isEqualTo(now.occupancy().toBits().cardinality());
        for (Net net : now.nets()) {
            assertThat(now.findNet(net.name())).as(name).contains(net);
            assertThat(now.nets().get(net.id())).isEqualTo(net);
        }
        for (Cell cell : now.cells()) {
            assertThat(now.findCell(cell.name())).as(name).contains(cell);
            assertThat(now.occupancy().findCellOn(cell.site())).contains(cell);
            assertThat(now.netsAt(cell.id()))
                    .as(name)
                    .containsExactlyElementsOf(
                            now.nets().stream().filter(n -> isAt(n, cell)).toList());
        }
        for (Port port : now.ports()) {
            assertThat(now.findPort(port.name())).as(name).contains(port);
            assertThat(now.findPortOn(port.pad())).as(name).contains(port);
        }
    }

    private static boolean isAt(Net net, Cell cell) {
        return net.ends().stream()
                .anyMatch(t -> t instanceof Terminal.CellPin at && at.cell() == cell.id());
    }

    private static <T> Optional<T> pick(Numbered<T> all, Random random) {
        List<T> list = List.copyOf((Collection<T>) all);
        return list.isEmpty()
                ? Optional.empty()
                : Optional.of(list.get(random.nextInt(list.size())));
    }

    private static Edit any(Design now, Random random, String fresh) {
        Fabric fabric = now.fabric();
        String net = pick(now.nets(), random).map(Net::name).orElse("nothing");
        String cell = pick(now.cells(), random).map(Cell::name).orElse("nothing");
        String port = pick(now.ports(), random).map(Port::name).orElse("nothing");
        return switch (random.nextInt(11)) {
            case 0 -> new Edit.DisconnectPort(random.nextInt(8) == 0 ? "nothing" : port);
            case 1 -> new Edit.RemoveNet(random.nextInt(8) == 0 ? "nothing" : net);
            case 2 -> new Edit.RemoveCell(random.nextInt(8) == 0 ? "nothing" : cell);
            case 3 -> new Edit.SetCell(cell, "through", random.nextBoolean() ? "open" : "shut");
            case 4, 5 -> new Edit.RouteNet(net, tree(now, net, random));
            case 6 -> relocate(now, cell, random);
            case 9 -> new Edit.TieEnable(port);
            case 10 -> new Edit.SetDriver(port, "unknown");
            default -> breakOut(now, net, "new" + fresh, random);
        };
    }

    /** Some tree: part of the old one, grown at random over whatever is there. */
    private static RouteTree tree(Design now, String name, Random random) {
        Optional<Net> net = now.findNet(name);
        if (net.isEmpty()) {
            return RouteTree.of(0);
        }
        RouteTree old = net.get().route();
        RouteTree.Builder builder = new RouteTree.Builder(old.root());
        for (int place = 1; place < old.size(); place++) {
            int parent = old.vertex(old.parent(place));
            if (builder.contains(parent) && random.nextInt(10) > 0) {
                builder.add(parent, old.vertex(place));
            }
        }
        grow(now, builder, List.copyOf(vertices(builder.build())), random);
        return builder.build();
    }

    private static List<Integer> vertices(RouteTree tree) {
        List<Integer> result = new ArrayList<>();
        for (int vertex : tree.toVertices()) {
            result.add(vertex);
        }
        return result;
    }

    private static void grow(
            Design now, RouteTree.Builder builder, List<Integer> from, Random random) {
        List<Integer> on = new ArrayList<>(from);
        EdgeCursor edges = now.fabric().edgesOut();
        for (int i = random.nextInt(5); i > 0; i--) {
            int at = on.get(random.nextInt(on.size()));
            List<Integer> next = next(now, edges, at, random);
            if (!next.isEmpty()) {
                int to = next.get(random.nextInt(next.size()));
                if (!builder.contains(to)) {
                    builder.add(at, to);
                    on.add(to);
                }
            }
        }
    }

    /** Where a wire can go on, mostly to what is free. */
    private static List<Integer> next(Design now, EdgeCursor edges, int at, Random random) {
        List<Integer> result = new ArrayList<>();
        boolean anything = random.nextInt(6) == 0;
        edges.reset(at);
        while (edges.next()) {
            if (anything || !now.occupancy().isOccupied(edges.other())) {
                result.add(edges.other());
            }
        }
        return result;
    }

    private static Edit relocate(Design now, String name, Random random) {
        int site = random.nextInt(now.fabric().siteCount());
        String to = now.fabric().site(site).name();
        List<Edit.RouteNet> nets = new ArrayList<>();
        Optional<Cell> cell = now.findCell(name);
        if (cell.isPresent()) {
            for (Net net : now.netsAt(cell.get().id())) {
                boolean drives = net.driverCell() == cell.get().id();
                String pin = drives ? ((Terminal.CellPin) net.driver()).pin() : "";
                RouteTree tree =
                        drives
                                ? RouteTree.of(Math.max(0, now.fabric().site(site).findPin(pin)))
                                : tree(now, net.name(), random);
                if (random.nextInt(8) > 0) {
                    nets.add(new Edit.RouteNet(net.name(), tree));
                }
            }
        }
        return new Edit.RelocateCell(name, to, nets);
    }

    private static Edit breakOut(Design now, String name, String port, Random random) {
        Fabric fabric = now.fabric();
        Optional<Net> net = now.findNet(name);
        List<Integer> route = new ArrayList<>();
        int pad = random.nextInt(fabric.pads().size());
        if (net.isPresent()) {
            RouteTree tree = net.get().route();
            EdgeCursor edges = fabric.edgesOut();
            int at = tree.vertex(random.nextInt(tree.size()));
            route.add(at);
            for (int i = 0; i < 12 && fabric.kind(at) != VertexKind.PAD; i++) {
                List<Integer> next = next(now, edges, at, random);
                if (next.isEmpty()) {
                    break;
                }
                at = next.get(random.nextInt(next.size()));
                if (route.contains(at)) {
                    break;
                }
                route.add(at);
            }
            for (int p = 0; p < fabric.pads().size(); p++) {
                if (fabric.pads().get(p).vertex() == at) {
                    pad = p;
                }
            }
        }
        return new Edit.BreakOut(name, port, fabric.pads().get(pad).name(), "", route);
    }
}
