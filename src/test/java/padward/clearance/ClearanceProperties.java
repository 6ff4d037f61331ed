package padward.clearance;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Terminal;
import padward.design.Trial;
import padward.example.RandomDesigns;
import padward.fabric.Corner;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PatternFabric;
import padward.fabric.PatternFault;
import padward.fabric.RandomFabrics;
import padward.route.CostModel;
import padward.route.FreeWays;
import padward.route.LowerBound;
import padward.route.PathSearch;
import padward.route.SearchOutcome;
import padward.route.Starts;
import padward.timing.TreeDelays;

/**
 * Explanations against brute force over all subsets of occupants, on small random fabrics with
 * random designs. Whether a question is open is looked up by a plain walk over a design to which
 * the edits were really applied.
 */
class ClearanceProperties {
    private static final int FABRICS_PER_BLOCK = 60;
    private static final SearchLimits LIMITS = new SearchLimits(10_000_000, 60_000, 6, 1);
    private static int asked;
    private static int severalObstacles;
    private static int moved;
    private static int narrow;
    private static int pushedAside;
    private static final Map<Consequence.Means, Integer> MEANS =
            new EnumMap<>(Consequence.Means.class);

    @ParameterizedTest
    @ValueSource(longs = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15})
    void explanationsAreWhatBruteForceSays(long block) throws PatternFault {
        for (long i = 0; i < FABRICS_PER_BLOCK; i++) {
            long seed = block * FABRICS_PER_BLOCK + i;
            Random random = new Random(seed);
            Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
            Design design = RandomDesigns.on(fabric, 3 + random.nextInt(14), random);
            if (!design.nets().isEmpty()) {
                for (int q = 0; q < 8; q++) {
                    Net net = design.nets().get(random.nextInt(design.nets().size()));
                    check(design, net, random.nextInt(fabric.pads().size()), "seed " + seed);
                }
            }
        }
    }

    @AfterAll
    static void theCasesAreNotTrivial() {
        assertThat(asked).isGreaterThan(300);
        assertThat(severalObstacles).isGreaterThan(30);
        assertThat(moved).isGreaterThan(100);
        assertThat(narrow).isGreaterThan(20);
        // These fabrics have no site with two paths side by side, so none lets through.
        assertThat(MEANS).containsKeys(Consequence.Means.OTHER_WIRES, Consequence.Means.OTHER_SITE);
        assertThat(pushedAside).isPositive();
    }

    private static void check(Design design, Net net, int pad, String what) {
        Fabric fabric = design.fabric();
        Pad value = fabric.pads().get(pad);
        if (net.route().placeOf(value.vertex()) >= 0) {
            return;
        }
        Optional<LetGo> letGo = PortBranch.find(design, pad);
        Situation situation = new Situation(design, net, letGo);
        Starts starts = starts(fabric, net);
        if (reaches(fabric, starts, value.vertex(), situation.overFree())) {
            return;
        }
        FreeWays overAll = new FreeWays(situation.closed());
        checkChokepoints(fabric, starts, value.vertex(), overAll, what);
        List<Occupant> freeable = freeable(design, net);
        PathSearch search = new PathSearch(fabric);
        SearchOutcome any =
                search.run(
                        starts,
                        value.vertex(),
                        Corner.SLOW,
                        situation.atAPrice(),
                        LowerBound.NONE,
                        Progress.NONE);
        if (!(any instanceof SearchOutcome.Found known)) {
            assertThat(opens(design, net, pad, letGo, freeable)).as(what).isFalse();
            return;
        }
        asked++;
        Explanation explanation =
                new Explainer(
                                situation,
                                starts,
                                value,
                                known.path(),
                                Corner.SLOW,
                                search,
                                LIMITS,
                                Progress.NONE)
                        .explain();
        int fewest = fewest(design, net, pad, letGo, freeable);
        assertThat(explanation.provenFewest()).as(what).isTrue();
        assertThat(explanation.atLeast()).as(what).isEqualTo(fewest);
        assertThat(explanation.best().removals()).as(what).hasSize(fewest);
        severalObstacles += fewest > 1 ? 1 : 0;
        checkOnEveryWay(situation, starts, value, explanation, what);
        for (Clearance clearance : explanation.clearances()) {
            checkMinimal(design, net, pad, letGo, clearance, what);
            checkMoves(design, net, pad, letGo, clearance, what);
        }
    }

    /** Without what these occupants hold there is no way, whatever else is freed. */
    private static void checkOnEveryWay(
            Situation situation, Starts starts, Pad pad, Explanation explanation, String what) {
        Design design = situation.design();
        if (!explanation.oneOfThese().isEmpty()) {
            narrow++;
            CostModel without = withoutHeldBy(situation, explanation.oneOfThese());
            assertThat(reaches(design.fabric(), starts, pad.vertex(), without)).as(what).isFalse();
        }
        for (Removal removal : explanation.best().removals()) {
            CostModel without = withoutHeldBy(situation, List.of(removal.occupant()));
            assertThat(reaches(design.fabric(), starts, pad.vertex(), without))
                    .as(what)
                    .isEqualTo(!removal.onEveryWay());
        }
    }

    private static CostModel withoutHeldBy(Situation situation, List<Occupant> these) {
        Set<Integer> numbers = new HashSet<>();
        these.forEach(o -> numbers.add(situation.design().occupancy().numberOf(o)));
        FreeWays all = new FreeWays(situation.closed());
        return (from, to, delay) ->
                numbers.contains(situation.obstacleAt(to))
                        ? CostModel.CLOSED
                        : all.cost(from, to, delay);
    }

    private static void checkMinimal(
            Design design,
            Net net,
            int pad,
            Optional<LetGo> letGo,
            Clearance clearance,
            String what) {
        List<Occupant> all = clearance.removals().stream().map(Removal::occupant).toList();
        assertThat(opens(design, net, pad, letGo, all)).as(what).isTrue();
        for (Occupant one : all) {
            List<Occupant> others = new ArrayList<>(all);
            others.remove(one);
            assertThat(opens(design, net, pad, letGo, others)).as(what + " without one").isFalse();
        }
    }

    private static void checkMoves(
            Design design,
            Net net,
            int pad,
            Optional<LetGo> letGo,
            Clearance clearance,
            String what) {
        List<Edit> edits = clearance.edits(letGo);
        Design after = Trial.of(design, edits);
        assertThat(isOpen(after, net.name(), pad)).as(what + ": " + edits).isTrue();
        Set<String> touched = new HashSet<>();
        for (Edit edit : edits) {
            addTouched(design, edit, touched);
        }
        for (Net before : design.nets()) {
            if (!touched.contains(before.name())) {
                Net same = after.findNet(before.name()).orElseThrow();
                assertThat(same.route()).as(what).isEqualTo(before.route());
            }
        }
        for (Removal removal : clearance.removals()) {
            if (removal.consequence() instanceof Consequence.Movable movable) {
                moved++;
                MEANS.merge(movable.means(), 1, Integer::sum);
                pushedAside +=
                        movable.means() == Consequence.Means.OTHER_WIRES
                                        && movable.shifts().size() > 1
                                ? 1
                                : 0;
                checkNothingLost(design, after, removal, movable, letGo, what);
            }
        }
    }

    /** After a move, all ends are still there, each on its net's wires. */
    private static void checkNothingLost(
            Design design,
            Design after,
            Removal removal,
            Consequence.Movable movable,
            Optional<LetGo> letGo,
            String what) {
        for (Shift shift : movable.shifts()) {
            Net before = design.findNet(shift.net()).orElseThrow();
            Net moved = after.findNet(shift.net()).orElseThrow();
            long ends =
                    before.sinks().stream()
                            .filter(
                                    s ->
                                            letGo.isEmpty()
                                                    || !s.equals(
                                                            new Terminal.PortEnd(
                                                                    letGo.get().port().id())))
                            .count();
            assertThat(moved.sinks()).as(what + removal).hasSizeLessThanOrEqualTo((int) ends);
            for (Terminal sink : moved.sinks()) {
                assertThat(moved.route().placeOf(after.vertexOf(sink))).as(what).isNotNegative();
            }
            if (moved.sinks().isEmpty()) {
                continue;
            }
            TreeDelays delays = TreeDelays.of(design.fabric(), moved.route());
            assertThat(
                            moved.sinks().stream()
                                    .map(s -> moved.route().placeOf(after.vertexOf(s)))
                                    .map(delays::at)
                                    .toList())
                    .as(what)
                    .contains(shift.after());
        }
    }

    private static void addTouched(Design design, Edit edit, Set<String> touched) {
        if (edit instanceof Edit.LetGoPort go) {
            for (Net net : design.nets()) {
                for (Terminal end : net.ends()) {
                    boolean itsPort =
                            end instanceof Terminal.PortEnd at
                                    && design.ports().get(at.port()).name().equals(go.port());
                    if (itsPort) {
                        touched.add(net.name());
                    }
                }
            }
        } else if (edit instanceof Edit.FreeNet free) {
            touched.add(free.net());
        } else if (edit instanceof Edit.FreeCell free) {
            design.netsAt(design.findCell(free.cell()).orElseThrow().id())
                    .forEach(n -> touched.add(n.name()));
        } else if (edit instanceof Edit.LayNet lay) {
            touched.add(lay.net());
        } else if (edit instanceof Edit.MoveCell move) {
            move.nets().forEach(n -> touched.add(n.net()));
        }
    }

    private static void checkChokepoints(
            Fabric fabric, Starts starts, int goal, FreeWays model, String what) {
        IntList way = SomeWay.find(fabric, starts, goal, model);
        if (way.isEmpty()) {
            return;
        }
        IntList found = Chokepoints.along(fabric, starts, way, model);
        Set<Integer> own = new HashSet<>();
        for (int i = 0; i < starts.size(); i++) {
            own.add(starts.vertex(i));
        }
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (!own.contains(v)) {
                int shut = v;
                CostModel without =
                        (from, to, delay) ->
                                to == shut ? CostModel.CLOSED : model.cost(from, to, delay);
                boolean onAll = !reaches(fabric, starts, goal, without);
                assertThat(found.contains(v)).as(what + " " + v).isEqualTo(onAll);
            }
        }
    }

    private static List<Occupant> freeable(Design design, Net net) {
        List<Occupant> result = new ArrayList<>();
        design.nets().stream()
                .filter(n -> n != net)
                .forEach(n -> result.add(new Occupant.ByNet(n)));
        design.cells().stream()
                .filter(c -> !(net.driver() instanceof Terminal.CellPin at && at.cell() == c.id()))
                .forEach(c -> result.add(new Occupant.ByCell(c)));
        return result;
    }

    private static int fewest(
            Design design, Net net, int pad, Optional<LetGo> letGo, List<Occupant> freeable) {
        for (int size = 0; size <= freeable.size(); size++) {
            if (anyOpens(design, net, pad, letGo, freeable, 0, size, new ArrayList<>())) {
                return size;
            }
        }
        throw new AssertionError("no subset opens a way");
    }

    private static boolean anyOpens(
            Design design,
            Net net,
            int pad,
            Optional<LetGo> letGo,
            List<Occupant> freeable,
            int from,
            int more,
            List<Occupant> chosen) {
        if (more == 0) {
            return opens(design, net, pad, letGo, chosen);
        }
        for (int i = from; i <= freeable.size() - more; i++) {
            chosen.add(freeable.get(i));
            if (anyOpens(design, net, pad, letGo, freeable, i + 1, more - 1, chosen)) {
                return true;
            }
            chosen.remove(chosen.size() - 1);
        }
        return false;
    }

    private static boolean opens(
            Design design, Net net, int pad, Optional<LetGo> letGo, List<Occupant> freed) {
        List<Edit> edits = new ArrayList<>();
        letGo.ifPresent(l -> edits.add(l.toEdit()));
        freed.stream()
                .filter(o -> o instanceof Occupant.ByNet)
                .forEach(o -> edits.add(new Edit.FreeNet(o.name())));
        freed.stream()
                .filter(o -> o instanceof Occupant.ByCell)
                .forEach(o -> edits.add(new Edit.FreeCell(o.name())));
        edits.sort(Comparator.comparing(e -> e instanceof Edit.FreeCell));
        return isOpen(Trial.of(design, edits), net.name(), pad);
    }

    private static boolean isOpen(Design design, String name, int pad) {
        Net net = design.findNet(name).orElseThrow();
        Situation situation = new Situation(design, net, PortBranch.find(design, pad));
        return reaches(
                design.fabric(),
                starts(design.fabric(), net),
                design.fabric().pads().get(pad).vertex(),
                situation.overFree());
    }

    private static Starts starts(Fabric fabric, Net net) {
        TreeDelays delays = TreeDelays.of(fabric, net.route());
        long[] costs = new long[net.route().size()];
        for (int place = 0; place < costs.length; place++) {
            costs[place] = delays.at(place).slowPs();
        }
        return new Starts(net.route().toVertices(), costs);
    }

    private static boolean reaches(Fabric fabric, Starts starts, int goal, CostModel model) {
        BitSet seen = new BitSet();
        IntArrayList open = new IntArrayList();
        for (int i = 0; i < starts.size(); i++) {
            open.add(starts.vertex(i));
            seen.set(starts.vertex(i));
        }
        EdgeCursor edges = fabric.edgesOut();
        while (!open.isEmpty()) {
            int vertex = open.popInt();
            if (vertex == goal) {
                return true;
            }
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                boolean enter =
                        !seen.get(next)
                                && model.cost(vertex, next, edges.delayPs(Corner.SLOW))
                                        != CostModel.CLOSED;
                if (enter) {
                    seen.set(next);
                    open.add(next);
                }
            }
        }
        return false;
    }
}
