package padward.fabric.pattern;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import padward.fabric.DelayClasses;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.fabric.pattern.PatternSpec.WireKind;

/** Lists the edges that one tile's switch box and sites make, by applying its rules. */
final class BoxEdges {
    /** Takes one edge; tiles are absolute, vertices local to them. */
    interface Sink {
        void edge(int fromTile, int fromLocal, int toTile, int toLocal, int delayClass);
    }

    /** The members of a rule's end at one box: {@code first + i}, or the listed locals. */
    private record Ends(int tile, int first, int[] listed, int size, Side side) {
        int local(int index) {
            return listed == null ? first + index : listed[index];
        }
    }

    private final TileGrid grid;
    private final DelayClasses classes;
    private final Map<TileModel, List<List<TileModel.LocalRule>>> rulesFrom =
            new IdentityHashMap<>();
    private final Map<TileModel, List<List<TileModel.LocalRule>>> rulesTo = new IdentityHashMap<>();

    BoxEdges(TileGrid grid, DelayClasses classes) {
        this.grid = grid;
        this.classes = classes;
    }

    /**
     * Sends edges of the box in {@code tile} to {@code sink}: those that begin in the tile {@code
     * own} if {@code outgoing}, else those that end there.
     */
    void list(int tile, int own, boolean outgoing, Sink sink) {
        TileShape shape = grid.shape(tile);
        if (tile == own) {
            listThroughs(tile, shape, sink);
            for (TileModel.LocalRule rule : shape.model.rules) {
                list(rule, tile, own, outgoing, sink);
            }
            return;
        }
        // Only wires of the tile reach a box elsewhere, and most kinds do not reach this one.
        List<List<TileModel.LocalRule>> rules = rulesByKind(shape.model, outgoing);
        for (int kind = 0; kind < grid.wires.size(); kind++) {
            WireKind wire = grid.wires.get(kind);
            if (leadsHere(wire, own, tile)) {
                for (TileModel.LocalRule rule : rules.get(kind)) {
                    list(rule, tile, own, outgoing, sink);
                }
            }
        }
    }

    /** Whether a wire that starts in {@code own} could be left in {@code tile}. */
    private boolean leadsHere(WireKind wire, int own, int tile) {
        for (int exit = 0; exit < wire.exits(); exit++) {
            if (grid.step(own, wire.exitDx(exit), wire.exitDy(exit)) == tile) {
                return true;
            }
        }
        return false;
    }

    private void list(TileModel.LocalRule rule, int tile, int own, boolean outgoing, Sink sink) {
        TileShape shape = grid.shape(tile);
        List<Ends> here = ends(outgoing ? rule.from() : rule.to(), tile, shape, outgoing);
        here.removeIf(end -> end.tile() != own);
        if (here.isEmpty()) {
            return;
        }
        List<Ends> there = ends(outgoing ? rule.to() : rule.from(), tile, shape, !outgoing);
        Delay delay = rule.delay();
        if (rule.to().isWire()) {
            delay = delay.plus(grid.wires.get(rule.to().wireKind()).delay());
        }
        int delayClass = classes.intern(rule.kind(), delay);
        for (Ends from : outgoing ? here : there) {
            for (Ends to : outgoing ? there : here) {
                apply(rule, from, to, delayClass, sink);
            }
        }
    }

    /** A model's rules by the kind of wire that they lead from ({@code outgoing}) or to. */
    private List<List<TileModel.LocalRule>> rulesByKind(TileModel model, boolean outgoing) {
        return (outgoing ? rulesFrom : rulesTo)
                .computeIfAbsent(
                        model,
                        m -> {
                            List<List<TileModel.LocalRule>> result = new ArrayList<>();
                            grid.wires.forEach(wire -> result.add(new ArrayList<>()));
                            for (TileModel.LocalRule rule : m.rules) {
                                TileModel.RuleEnd end = outgoing ? rule.from() : rule.to();
                                if (end.isWire()) {
                                    result.get(end.wireKind()).add(rule);
                                }
                            }
                            return result;
                        });
    }

    private void listThroughs(int tile, TileShape shape, Sink sink) {
        for (TileModel.LocalThrough route : shape.model.throughs) {
            sink.edge(
                    tile,
                    shape.pin(route.fromPin()),
                    tile,
                    shape.pin(route.toPin()),
                    classes.intern(EdgeKind.PASS_THROUGH, route.delay()));
        }
    }

    /** Where signals come from at this box ({@code source}), or where they can enter. */
    private List<Ends> ends(TileModel.RuleEnd end, int tile, TileShape shape, boolean source) {
        List<Ends> result = new ArrayList<>(2);
        if (!end.isWire()) {
            int[] locals = new int[end.fixed().length];
            for (int i = 0; i < locals.length; i++) {
                locals[i] = shape.wireCount + end.fixed()[i];
            }
            result.add(new Ends(tile, 0, locals, locals.length, null));
            return result;
        }
        int kind = end.wireKind();
        WireKind wire = grid.wires.get(kind);
        boolean axial = wire.isAxial();
        Side leaving = axial ? Side.ofStep(wire.dx(), wire.dy()) : null;
        if (source || wire.twoWay()) {
            // A wire that passes comes, as one that ends, from where it started.
            Side side = axial ? leaving.opposite() : null;
            for (int exit = 0; exit < wire.exits(); exit++) {
                int owner = grid.step(tile, -wire.exitDx(exit), -wire.exitDy(exit));
                int start = owner < 0 ? Fabric.NOTHING : grid.shape(owner).wireStart(kind);
                if (start >= 0) {
                    result.add(new Ends(owner, start, null, wire.count(), side));
                }
            }
        }
        if ((!source || wire.twoWay()) && shape.wireStart(kind) >= 0) {
            result.add(new Ends(tile, shape.wireStart(kind), null, wire.count(), leaving));
        }
        return result;
    }

    private static void apply(
            TileModel.LocalRule rule, Ends from, Ends to, int delayClass, Sink sink) {
        IndexMap map = rule.map();
        int m = from.size();
        int n = to.size();
        if (m == 0 || n == 0) {
            return;
        }
        PairSink pairs =
                (i, j) -> {
                    boolean itself = from.tile() == to.tile() && from.local(i) == to.local(j);
                    if (!itself) {
                        sink.edge(from.tile(), from.local(i), to.tile(), to.local(j), delayClass);
                    }
                };
        if (map instanceof IndexMap.ByTopology by) {
            if (from.side() != to.side()) {
                for (int i = 0; i < m; i++) {
                    pairs.pair(i, by.topology().map(from.side(), to.side(), i, m));
                }
            }
        } else if (map instanceof IndexMap.All) {
            for (int i = 0; i < m; i++) {
                for (int j = 0; j < n; j++) {
                    pairs.pair(i, j);
                }
            }
        } else if (map instanceof IndexMap.Spread spread) {
            int each = Math.min(spread.each(), m);
            for (int j = 0; j < n; j++) {
                for (int k = 0; k < each; k++) {
                    pairs.pair(Math.floorMod(j * spread.shift() + k * m / each, m), j);
                }
            }
        } else if (map instanceof IndexMap.Pairs listed) {
            listed.pairs().forEach(p -> pairs.pair(p.from(), p.to()));
        } else {
            for (int i = 0; i < Math.max(m, n); i++) {
                pairs.pair(i % m, turned(map, i % n, n));
            }
        }
    }

    private static int turned(IndexMap map, int j, int n) {
        if (map instanceof IndexMap.Rotate rotate) {
            return Math.floorMod(j + rotate.places(), n);
        }
        return map instanceof IndexMap.Mirror ? n - 1 - j : j;
    }

    private interface PairSink {
        void pair(int from, int to);
    }
}
