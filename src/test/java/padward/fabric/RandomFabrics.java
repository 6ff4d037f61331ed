package padward.fabric;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.explicit.ExplicitFabric;
import padward.fabric.pad.PadDirections;
import padward.fabric.pattern.IndexMap;
import padward.fabric.pattern.PatternSpec;
import padward.fabric.pattern.SwitchBoxTopology;

/** Makes random fabrics for property tests, pattern and explicit, all from one seed. */
public final class RandomFabrics {
    private RandomFabrics() {}

    private static final FabricInfo INFO =
            new FabricInfo(
                    "random",
                    "invented",
                    List.of(new CellKind("register", true), new CellKind("io-register", true)),
                    List.of(),
                    List.of());

    /** A small pattern with random spans, counts, topologies, bidirectional wires now and then. */
    public static PatternSpec pattern(long seed) {
        Random random = new Random(seed);
        int columns = 3 + random.nextInt(5);
        int rows = 3 + random.nextInt(5);
        int width = 1 + random.nextInt(4);
        int span = 1 + random.nextInt(2);
        boolean twoWay = random.nextInt(4) == 0;
        List<PatternSpec.WireKind> wires = new ArrayList<>();
        if (twoWay) {
            wires.add(wire("h", 1, 0, width, true, random));
            wires.add(wire("v", 0, 1, width, true, random));
        } else {
            wires.add(wire("e", 1, 0, width, false, random));
            wires.add(wire("w", -1, 0, width, false, random));
            wires.add(wire("n", 0, 1, width, false, random));
            wires.add(wire("s", 0, -1, width, false, random));
        }
        int shorts = wires.size();
        wires.add(wire("long_e", 1 + span, 0, 1 + random.nextInt(2), false, random));
        wires.add(wire("long_s", 0, -1 - span, 1 + random.nextInt(2), false, random));
        wires.replaceAll(w -> withTaps(w, seed));
        List<String> names = wires.stream().map(PatternSpec.WireKind::name).toList();
        List<PatternSpec.Rule> rules = new ArrayList<>();
        SwitchBoxTopology topology = SwitchBoxTopology.values()[random.nextInt(3)];
        for (int i = 0; i < shorts; i++) {
            for (int j = 0; j < shorts; j++) {
                if (twoWay || i == j || (i ^ j) > 1) {
                    rules.add(
                            rule(
                                    names.get(i),
                                    names.get(j),
                                    new IndexMap.ByTopology(topology),
                                    random));
                }
            }
            rules.add(rule(names.get(i), "long_e", new IndexMap.Spread(1, 1), random));
            rules.add(rule(names.get(i), "long_s", new IndexMap.Rotate(1), random));
            rules.add(rule("long_e", names.get(i), new IndexMap.Same(), random));
            rules.add(rule("long_s", names.get(i), new IndexMap.Mirror(), random));
            rules.add(rule(names.get(i), "cell.in", new IndexMap.Spread(1, 1), random));
            rules.add(rule("cell.out", names.get(i), new IndexMap.All(), random));
        }
        rules.add(rule("long_e", "long_e", new IndexMap.Same(), random));
        PatternSpec.SiteGroup cell =
                new PatternSpec.SiteGroup(
                        "cell",
                        2,
                        "logic",
                        List.of("register"),
                        List.of(
                                new PatternSpec.PinGroup("in", 2, PinDirection.IN, "inputs"),
                                new PatternSpec.PinGroup("out", 1, PinDirection.OUT)),
                        List.of(new PatternSpec.Through("in", "out", delay(random))));
        PatternSpec.TileType logic =
                new PatternSpec.TileType("logic", names, List.of(cell), List.of(), rules);
        return new PatternSpec(
                INFO,
                columns,
                rows,
                wires,
                List.of(logic, rim(names, rules, random, shorts)),
                List.of(
                        new PatternSpec.Area("logic", 0, columns - 1, 0, rows - 1, 1),
                        new PatternSpec.Area("rim", 0, 0, 0, rows - 1, 1),
                        new PatternSpec.Area("rim", 1, columns - 1, 0, 0, 2)),
                List.of());
    }

    private static PatternSpec.TileType rim(
            List<String> names, List<PatternSpec.Rule> inner, Random random, int shorts) {
        List<PatternSpec.Rule> rules = new ArrayList<>();
        inner.stream()
                .filter(r -> !r.from().startsWith("cell") && !r.to().startsWith("cell"))
                .forEach(rules::add);
        for (int i = 0; i < shorts; i++) {
            rules.add(rule(names.get(i), "outreg.d", new IndexMap.Spread(1, 1), random));
        }
        rules.add(
                new PatternSpec.Rule(
                        "outreg.q",
                        "pad",
                        new IndexMap.Same(),
                        EdgeKind.CONNECTION,
                        delay(random)));
        PatternSpec.SiteGroup register =
                new PatternSpec.SiteGroup(
                        "outreg",
                        2,
                        "io-register",
                        List.of("io-register"),
                        List.of(
                                new PatternSpec.PinGroup("d", 1, PinDirection.IN),
                                new PatternSpec.PinGroup("q", 1, PinDirection.OUT)),
                        List.of(new PatternSpec.Through("d", "q", delay(random))));
        return new PatternSpec.TileType(
                "rim",
                names,
                List.of(register),
                List.of(new PatternSpec.PadGroup("pad", 2, PadDirections.BOTH, "outreg", "", "")),
                rules);
    }

    private static PatternSpec.WireKind wire(
            String name, int dx, int dy, int count, boolean twoWay, Random random) {
        return new PatternSpec.WireKind(name, dx, dy, count, delay(random), twoWay, "general");
    }

    /** Of every second seed, the longer wires can be left at every tile that they pass. */
    private static PatternSpec.WireKind withTaps(PatternSpec.WireKind wire, long seed) {
        int length = Math.abs(wire.dx() + wire.dy());
        List<Integer> taps =
                seed % 2 == 0 ? List.of() : IntStream.range(1, length).boxed().toList();
        return new PatternSpec.WireKind(
                wire.name(),
                wire.dx(),
                wire.dy(),
                wire.count(),
                wire.delay(),
                wire.twoWay(),
                wire.use(),
                taps);
    }

    private static PatternSpec.Rule rule(String from, String to, IndexMap map, Random random) {
        return new PatternSpec.Rule(from, to, map, EdgeKind.SWITCH, delay(random));
    }

    private static Delay delay(Random random) {
        int fast = 1 + random.nextInt(60);
        return new Delay(fast, fast + random.nextInt(60));
    }

    /** The same fabric in the explicit form, written out by its own names. */
    public static ExplicitFabric explicit(Fabric fabric) {
        return explicit(fabric, vertex -> true);
    }

    /**
     * As {@link #explicit(Fabric)}, with some edges left out.
     *
     * @param keep asked with the source of each edge whether it stays
     */
    public static ExplicitFabric explicit(Fabric fabric, IntPredicate keep) {
        ExplicitBuilder builder =
                new ExplicitBuilder(fabric.info(), fabric.columns(), fabric.rows());
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            builder.addTile(fabric.column(tile), fabric.row(tile), fabric.tileType(tile));
        }
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                builder.addWire(
                        fabric.vertexName(v),
                        fabric.tile(v),
                        fabric.headTile(v),
                        fabric.wireKind(v));
            }
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            builder.addSite(site.name(), site.tile(), site.kind(), site.accepts(), site.pins());
        }
        for (Pad pad : fabric.pads()) {
            builder.addPad(
                    pad.name(),
                    pad.tile(),
                    pad.packagePin(),
                    pad.bank(),
                    pad.directions(),
                    site(builder, fabric, pad.dataSite()),
                    site(builder, fabric, pad.enableSite()),
                    pad.defaultSetting());
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                if (keep.test(v)) {
                    builder.addEdge(
                            builder.findVertex(fabric.vertexName(v)),
                            builder.findVertex(fabric.vertexName(edges.other())),
                            edges.kind(),
                            edges.delay());
                }
            }
        }
        return builder.build();
    }

    private static int site(ExplicitBuilder builder, Fabric fabric, int site) {
        return Optional.of(site)
                .filter(s -> s != Fabric.NOTHING)
                .map(s -> builder.findSite(fabric.site(s).name()))
                .orElse(Fabric.NOTHING);
    }
}
