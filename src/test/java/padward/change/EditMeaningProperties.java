package padward.change;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
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
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.RandomFabrics;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.fabric.pattern.PatternFabric;

/**
 * Random sequences of all kinds of edits, those that fit and those that do not, on designs with
 * everything tangled: what the program makes of them is what a second, plain reading of the
 * documents makes of them ({@link PlainState}), and a design after edits is in every respect the
 * one that is built anew from its records.
 */
class EditMeaningProperties {
    private static final int SAMPLE = 420;
    private static final int MANY = 100_000;
    private static final int STEPS = 6;

    /** Sorts of edits that are drawn. */
    private int sorts = 18;

    private int fitted;
    private int added;
    private int branched;
    private int swapped;
    private int read;
    private int refused;

    @Test
    void aSampleMeansWhatTheDocumentsSay() throws Exception {
        run(SAMPLE);
    }

    /** An entry is judged by what comes of it, not by each of its steps. */
    @Test
    void aCellRelocatedTwiceIsJudgedWhereItEndsUp() throws Exception {
        long seed = 18_620;
        sorts = 11;
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
        assertThat(added).isGreaterThan(sequences / 12);
        assertThat(read).isGreaterThan(sequences / 25);
        assertThat(swapped).isGreaterThan(sequences / 200);
        assertThat(branched).isGreaterThan(sequences / 25);
    }

    private static Optional<Design> design(long seed) throws Exception {
        if (seed % 4 == 0) {
            Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed / 4 % 50));
            return Optional.of(RandomDesigns.on(fabric, 8, new Random(seed)));
        }
        if (seed % 8 == 5) {
            boolean locked = seed % 16 == 13;
            boolean twoNets = seed % 32 == 5;
            long odd =
                    seed
                            + (locked
                                    ? OddDesigns.WITH_LOCKS
                                    : twoNets
                                            ? OddDesigns.WITH_TWO_NETS_ON_PADS
                                            : OddDesigns.WITH_SWITCH_GROUPS);
            return Optional.of(OddDesigns.withoutSettings(odd)).filter(d -> d.nets().size() > 0);
        }
        if (seed % 64 == 9 || seed % 64 == 13) {
            long alike = OddDesigns.WITH_ALIKE_PINS + seed;
            return Optional.of(OddDesigns.withoutSettings(alike)).filter(d -> d.nets().size() > 0);
        }
        if (seed % 16 == 9) {
            long parted = OddDesigns.WITH_PARTS + seed;
            return Optional.of(OddDesigns.withoutSettings(parted)).filter(d -> d.nets().size() > 0);
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
                edits.add(any(now, edits, random, seed + "_" + step + "_" + i));
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
                added += edits.stream().anyMatch(e -> e instanceof Edit.AddNet) ? 1 : 0;
                read += edits.stream().anyMatch(e -> e instanceof Edit.AddInput) ? 1 : 0;
                swapped +=
                        edits.stream()
                                        .flatMap(e -> e.reroutes().stream())
                                        .anyMatch(r -> !r.swaps().isEmpty())
                                ? 1
                                : 0;
                branched += edits.stream().anyMatch(e -> e instanceof Edit.AddSink) ? 1 : 0;
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
            assertThat(now.occupancy().isUsed(vertex)).as(name).isEqualTo(!user.isEmpty());
            assertThat(now.occupancy().isOccupied(vertex))
                    .as(name)
                    .isEqualTo(!user.isEmpty() || fabric.unusable().isVertex(vertex));
        }
        BitSet taken = now.occupancy().toBits();
        taken.andNot(fabric.unusable().vertices());
        fabric.unusable().vertices().stream().filter(now.occupancy()::isUsed).forEach(taken::set);
        assertThat(now.occupancy().usedCount()).isEqualTo(taken.cardinality());
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

    private Edit any(Design before, List<Edit> first, Random random, String fresh) {
        // Cells and nets that the entry adds are there for the edits after them.
        boolean adds = first.stream().anyMatch(e -> e instanceof Edit.AddCell);
        Design now =
                adds && Outcome.of(before, first) instanceof Outcome.Applied applied
                        ? applied.design()
                        : before;
        Fabric fabric = now.fabric();
        String net = pick(now.nets(), random).map(Net::name).orElse("nothing");
        String cell = pick(now.cells(), random).map(Cell::name).orElse("nothing");
        String port = pick(now.ports(), random).map(Port::name).orElse("nothing");
        return switch (random.nextInt(adds ? sorts + 8 : sorts)) {
            case 0 -> new Edit.DisconnectPort(random.nextInt(8) == 0 ? "nothing" : port);
            case 1 -> new Edit.RemoveNet(random.nextInt(8) == 0 ? "nothing" : net);
            case 2 -> new Edit.RemoveCell(random.nextInt(8) == 0 ? "nothing" : cell);
            case 3 -> new Edit.SetCell(cell, "through", random.nextBoolean() ? "open" : "shut");
            case 4, 5 -> rerouted(now, net, random);
            case 6 -> relocate(now, cell, random);
            case 9 -> new Edit.TieEnable(port);
            case 10 -> new Edit.SetDriver(port, "unknown");
            case 11, 12, 13, 14 ->
                    addCell(now, random, random.nextInt(9) == 0 ? cell : "c" + fresh);
            case 15, 16 -> addInput(now, random, port, "n" + fresh);
            case 17, 18, 19, 20, 21 ->
                    addNet(now, random, random.nextInt(9) == 0 ? net : "n" + fresh);
            case 22, 23, 24, 25 -> addSink(now, net, random);
            default -> breakOut(now, net, "new" + fresh, random);
        };
    }

    /** Some tree; where pins are alike, perhaps with an end at another of them. */
    private static Edit rerouted(Design now, String name, Random random) {
        RouteTree tree = tree(now, name, random);
        Optional<Net> net = now.findNet(name);
        boolean alike =
                net.isPresent()
                        && !net.get().sinks().isEmpty()
                        && now.fabric().siteCount() > 0
                        && IntStream.range(0, now.fabric().siteCount())
                                .mapToObj(now.fabric()::site)
                                .flatMap(s -> s.pins().stream())
                                .anyMatch(p -> !p.alike().isEmpty());
        if (!alike || random.nextInt(4) == 0) {
            return new Edit.RouteNet(name, tree);
        }
        List<Terminal> sinks = net.get().sinks();
        if (!(sinks.get(random.nextInt(sinks.size())) instanceof Terminal.CellPin at)) {
            return new Edit.RouteNet(name, tree);
        }
        Cell cell = now.cells().get(at.cell());
        SiteView site = now.fabric().site(cell.site());
        // what is left of the route, with another last step
        RouteTree.Builder builder = new RouteTree.Builder(tree.root());
        for (int place = 1; place < tree.size(); place++) {
            int parent = tree.vertex(tree.parent(place));
            if (tree.vertex(place) != site.findPin(at.pin()) && builder.contains(parent)) {
                builder.add(parent, tree.vertex(place));
            }
        }
        SitePin other = site.pins().get(0);
        EdgeCursor into = now.fabric().edgesIn();
        for (int i = 0; i < 6 && builder.build().placeOf(site.findPin(other.name())) < 0; i++) {
            other = site.pins().get(random.nextInt(site.pins().size()));
            int pin = site.findPin(other.name());
            into.reset(pin);
            while (into.next()) {
                if (builder.contains(into.other()) && !builder.contains(pin)) {
                    builder.add(into.other(), pin);
                }
            }
        }
        Edit.PinSwap swap =
                new Edit.PinSwap(
                        random.nextInt(20) == 0 ? "nothing" : cell.name(), at.pin(), other.name());
        return new Edit.RouteNet(name, builder.build(), List.of(swap));
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

    private static Edit addCell(Design now, Random random, String name) {
        Fabric fabric = now.fabric();
        SiteView site = fabric.site(random.nextInt(fabric.siteCount()));
        for (int i = 0; i < 20 && now.occupancy().findCellOn(site.id()).isPresent(); i++) {
            site = fabric.site(random.nextInt(fabric.siteCount()));
        }
        List<String> kinds = site.accepts();
        boolean none = kinds.isEmpty() || random.nextInt(12) == 0;
        String kind = none ? "other" : kinds.get(random.nextInt(kinds.size()));
        Map<String, String> settings =
                random.nextInt(3) == 0 ? Map.of("through", "open") : Map.of("table", "8h6A");
        return new Edit.AddCell(name, kind, site.name(), settings);
    }

    /** Pins of cells, mostly those at which nothing ends. */
    private static Optional<Edit.CellEnd> end(Design now, PinDirection direction, Random random) {
        Optional<Edit.CellEnd> result = Optional.empty();
        for (int i = 0; i < 30; i++) {
            Optional<Cell> cell = pick(now.cells(), random);
            if (cell.isEmpty()) {
                return result;
            }
            List<SitePin> pins = now.fabric().site(cell.get().site()).pins();
            if (pins.isEmpty()) {
                continue;
            }
            SitePin pin = pins.get(random.nextInt(pins.size()));
            Terminal terminal = new Terminal.CellPin(cell.get().id(), pin.name());
            boolean ends =
                    now.netsAt(cell.get().id()).stream().anyMatch(n -> n.ends().contains(terminal));
            result = Optional.of(new Edit.CellEnd(cell.get().name(), pin.name()));
            if (!ends && pin.direction() == direction || random.nextInt(40) == 0) {
                return result;
            }
        }
        return result;
    }

    private static Edit addNet(Design now, Random random, String name) {
        Optional<Edit.CellEnd> driver = end(now, PinDirection.OUT, random);
        if (driver.isEmpty()) {
            return new Edit.RemoveNet(name);
        }
        RouteTree tree = someTree(now, Math.max(0, vertexOf(now, driver.get())), random);
        List<Edit.CellEnd> sinks = sinksOn(now, tree, random);
        return new Edit.AddNet(name, driver.get(), sinks, tree, random.nextInt(4) == 0);
    }

    private static Edit addInput(Design now, Random random, String known, String name) {
        int pad = random.nextInt(now.fabric().pads().size());
        for (int i = 0; i < 6 && now.findPortOn(pad).isPresent(); i++) {
            pad = random.nextInt(now.fabric().pads().size());
        }
        Pad read = now.fabric().pads().get(pad);
        RouteTree tree = someTree(now, read.vertex(), random);
        String port = random.nextInt(9) == 0 ? known : "in" + name;
        return new Edit.AddInput(name, port, read.name(), sinksOn(now, tree, random), tree);
    }

    private static RouteTree someTree(Design now, int root, Random random) {
        RouteTree.Builder tree = new RouteTree.Builder(root);
        for (int i = 0; i < 6; i++) {
            grow(now, tree, vertices(tree.build()), random);
        }
        return tree.build();
    }

    /** Pins of cells on a tree, mostly those that can be sinks. */
    private static List<Edit.CellEnd> sinksOn(Design now, RouteTree tree, Random random) {
        List<Edit.CellEnd> sinks = new ArrayList<>();
        for (int vertex : tree.toVertices()) {
            int site = now.fabric().siteOf(vertex);
            if (site == Fabric.NOTHING || now.occupancy().findCellOn(site).isEmpty()) {
                continue;
            }
            SiteView view = now.fabric().site(site);
            SitePin pin = view.pins().get(vertex - view.firstPin());
            if (pin.direction() == PinDirection.IN || random.nextInt(20) == 0) {
                String cell = now.occupancy().findCellOn(site).get().name();
                sinks.add(new Edit.CellEnd(cell, pin.name()));
            }
        }
        if (random.nextInt(6) == 0) {
            end(now, PinDirection.IN, random).ifPresent(sinks::add);
        }
        return sinks;
    }

    private static int vertexOf(Design now, Edit.CellEnd end) {
        Cell cell = now.findCell(end.cell()).orElseThrow();
        return now.fabric().site(cell.site()).findPin(end.pin());
    }

    /** A branch to a pin: a walk over the wires that ends where it may, mostly. */
    private static Edit addSink(Design now, String name, Random random) {
        Optional<Edit.CellEnd> sink = end(now, PinDirection.IN, random);
        Optional<Net> net = now.findNet(name);
        if (sink.isEmpty() || net.isEmpty()) {
            return new Edit.RemoveNet(name);
        }
        // Backwards from the pin to the first net that the walk comes to.
        List<Integer> route = new ArrayList<>(List.of(Math.max(0, vertexOf(now, sink.get()))));
        EdgeCursor into = now.fabric().edgesIn();
        for (int i = 0; i < 12; i++) {
            List<Integer> next = new ArrayList<>();
            into.reset(route.get(0));
            while (into.next()) {
                boolean used = now.occupancy().isOccupied(into.other());
                boolean on = now.occupancy().findNetOn(into.other()).isPresent();
                if (on || !used || random.nextInt(12) == 0) {
                    next.add(into.other());
                }
            }
            if (next.isEmpty()) {
                break;
            }
            int at = next.get(random.nextInt(next.size()));
            route.add(0, at);
            Optional<Net> there = now.occupancy().findNetOn(at);
            if (there.isPresent() && random.nextInt(16) > 0) {
                return new Edit.AddSink(there.get().name(), sink.get(), route);
            }
        }
        return new Edit.AddSink(name, sink.get(), route);
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
