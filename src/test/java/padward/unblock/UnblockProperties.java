package padward.unblock;

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
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Terminal;
import padward.example.RandomDesigns;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.timing.TreeDelays;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.PortBranch;
import padward.unblock.release.QuestionContext;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoints;
import padward.unblock.why.SearchLimits;

/**
 * Explanations against brute force over all subsets of occupants, on small random fabrics with
 * random designs. Whether a question is open is looked up by a plain walk over a design to which
 * the edits were really applied.
 */
class UnblockProperties {
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
        assertThat(MEANS).containsKeys(Consequence.Means.REROUTE, Consequence.Means.RELOCATE);
        assertThat(pushedAside).isPositive();
    }

    private static void check(Design design, Net net, int pad, String what) {
        Fabric fabric = design.fabric();
        Pad value = fabric.pads().get(pad);
        if (net.route().placeOf(value.vertex()) >= 0) {
            return;
        }
        Optional<DisconnectedBranch> disconnected = PortBranch.find(design, pad);
        QuestionContext context = new QuestionContext(design, net, disconnected, value);
        SearchSources starts = starts(fabric, net);
        if (reaches(fabric, starts, value.vertex(), context.overFree())) {
            return;
        }
        FreeOnlyCost overAll = new FreeOnlyCost(context.closed());
        checkChokepoints(fabric, starts, value.vertex(), overAll, what);
        List<Occupant> freeable = freeable(design, net);
        PathSearch search = new PathSearch(fabric);
        SearchOutcome any =
                search.run(
                        starts,
                        value.vertex(),
                        Corner.SLOW,
                        context.atAPrice(),
                        LowerBound.NONE,
                        Progress.NONE);
        if (!(any instanceof SearchOutcome.Found known)) {
            assertThat(opens(design, net, pad, disconnected, freeable)).as(what).isFalse();
            return;
        }
        asked++;
        UnblockExplanation explanation =
                new Explainer(
                                context,
                                starts,
                                value,
                                known.path(),
                                Corner.SLOW,
                                search,
                                LIMITS,
                                Progress.NONE)
                        .explain();
        int fewest = fewest(design, net, pad, disconnected, freeable);
        assertThat(explanation.provenFewest()).as(what).isTrue();
        assertThat(explanation.atLeast()).as(what).isEqualTo(fewest);
        assertThat(explanation.best().removals()).as(what).hasSize(fewest);
        severalObstacles += fewest > 1 ? 1 : 0;
        checkOnEveryRoute(context, starts, value, explanation, what);
        for (UnblockOption option : explanation.options()) {
            checkMinimal(design, net, pad, disconnected, option, what);
            checkMoves(design, net, pad, disconnected, option, what);
        }
    }

    /** Without what these occupants hold there is no way, whatever else is freed. */
    private static void checkOnEveryRoute(
            QuestionContext context,
            SearchSources starts,
            Pad pad,
            UnblockExplanation explanation,
            String what) {
        Design design = context.design();
        if (!explanation.oneOfThese().isEmpty()) {
            narrow++;
            CostModel without = withoutUsedBy(context, explanation.oneOfThese());
            assertThat(reaches(design.fabric(), starts, pad.vertex(), without)).as(what).isFalse();
        }
        for (Removal removal : explanation.best().removals()) {
            CostModel without = withoutUsedBy(context, List.of(removal.occupant()));
            assertThat(reaches(design.fabric(), starts, pad.vertex(), without))
                    .as(what)
                    .isEqualTo(!removal.onEveryRoute());
        }
    }

    private static CostModel withoutUsedBy(QuestionContext context, List<Occupant> these) {
        Set<Integer> numbers = new HashSet<>();
        these.forEach(o -> numbers.add(o.number()));
        FreeOnlyCost all = new FreeOnlyCost(context.closed());
        CustomCost without =
                (from, to, delay) ->
                        numbers.contains(context.obstacleAt(to))
                                ? CostModel.CLOSED
                                : all.cost(from, to, delay);
        return without;
    }

    private static void checkMinimal(
            Design design,
            Net net,
            int pad,
            Optional<DisconnectedBranch> disconnected,
            UnblockOption option,
            String what) {
        List<Occupant> all = option.removals().stream().map(Removal::occupant).toList();
        assertThat(opens(design, net, pad, disconnected, all)).as(what).isTrue();
        for (Occupant one : all) {
            List<Occupant> others = new ArrayList<>(all);
            others.remove(one);
            assertThat(opens(design, net, pad, disconnected, others))
                    .as(what + " without one")
                    .isFalse();
        }
    }

    private static void checkMoves(
            Design design,
            Net net,
            int pad,
            Optional<DisconnectedBranch> disconnected,
            UnblockOption option,
            String what) {
        List<Edit> edits = option.edits(disconnected);
        Design after = Outcome.apply(design, edits);
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
        for (Removal removal : option.removals()) {
            if (removal.consequence() instanceof Consequence.Movable movable) {
                moved++;
                MEANS.merge(movable.means(), 1, Integer::sum);
                pushedAside +=
                        movable.means() == Consequence.Means.REROUTE
                                        && movable.delayChanges().size() > 1
                                ? 1
                                : 0;
                checkNothingLost(design, after, removal, movable, disconnected, what);
            }
        }
    }

    /** After a move, all ends are still there, each on its net's wires. */
    private static void checkNothingLost(
            Design design,
            Design after,
            Removal removal,
            Consequence.Movable movable,
            Optional<DisconnectedBranch> disconnected,
            String what) {
        for (DelayChange delayChange : movable.delayChanges()) {
            Net before = design.findNet(delayChange.net()).orElseThrow();
            Net moved = after.findNet(delayChange.net()).orElseThrow();
            long ends =
                    before.sinks().stream()
                            .filter(
                                    s ->
                                            disconnected.isEmpty()
                                                    || !s.equals(
                                                            new Terminal.PortEnd(
                                                                    disconnected
                                                                            .get()
                                                                            .port()
                                                                            .id())))
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
                    .contains(delayChange.after());
        }
    }

    private static void addTouched(Design design, Edit edit, Set<String> touched) {
        if (edit instanceof Edit.DisconnectPort go) {
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
        } else if (edit instanceof Edit.RemoveNet free) {
            touched.add(free.net());
        } else if (edit instanceof Edit.RemoveCell free) {
            design.netsAt(design.findCell(free.cell()).orElseThrow().id())
                    .forEach(n -> touched.add(n.name()));
        } else if (edit instanceof Edit.RouteNet route) {
            touched.add(route.net());
        } else if (edit instanceof Edit.RelocateCell move) {
            move.nets().forEach(n -> touched.add(n.net()));
        }
    }

    private static void checkChokepoints(
            Fabric fabric, SearchSources starts, int goal, FreeOnlyCost model, String what) {
        IntList route = SomeRoute.find(fabric, starts, goal, model);
        if (route.isEmpty()) {
            return;
        }
        IntList found = Chokepoints.along(fabric, starts, route, model, Progress.NONE);
        Set<Integer> own = new HashSet<>();
        for (int i = 0; i < starts.size(); i++) {
            own.add(starts.vertex(i));
        }
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (!own.contains(v)) {
                int shut = v;
                CustomCost without =
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
            Design design,
            Net net,
            int pad,
            Optional<DisconnectedBranch> disconnected,
            List<Occupant> freeable) {
        for (int size = 0; size <= freeable.size(); size++) {
            if (anyOpens(design, net, pad, disconnected, freeable, 0, size, new ArrayList<>())) {
                return size;
            }
        }
        throw new AssertionError("no subset opens a way");
    }

    private static boolean anyOpens(
            Design design,
            Net net,
            int pad,
            Optional<DisconnectedBranch> disconnected,
            List<Occupant> freeable,
            int from,
            int more,
            List<Occupant> chosen) {
        if (more == 0) {
            return opens(design, net, pad, disconnected, chosen);
        }
        for (int i = from; i <= freeable.size() - more; i++) {
            chosen.add(freeable.get(i));
            if (anyOpens(design, net, pad, disconnected, freeable, i + 1, more - 1, chosen)) {
                return true;
            }
            chosen.remove(chosen.size() - 1);
        }
        return false;
    }

    private static boolean opens(
            Design design,
            Net net,
            int pad,
            Optional<DisconnectedBranch> disconnected,
            List<Occupant> freed) {
        List<Edit> edits = new ArrayList<>();
        disconnected.ifPresent(l -> edits.add(l.toEdit()));
        freed.stream()
                .filter(o -> o instanceof Occupant.ByNet)
                .forEach(o -> edits.add(new Edit.RemoveNet(o.name())));
        freed.stream()
                .filter(o -> o instanceof Occupant.ByCell)
                .forEach(o -> edits.add(new Edit.RemoveCell(o.name())));
        edits.sort(Comparator.comparing(e -> e instanceof Edit.RemoveCell));
        return isOpen(Outcome.apply(design, edits), net.name(), pad);
    }

    private static boolean isOpen(Design design, String name, int pad) {
        Net net = design.findNet(name).orElseThrow();
        QuestionContext context =
                new QuestionContext(
                        design, net, PortBranch.find(design, pad), design.fabric().pads().get(pad));
        return reaches(
                design.fabric(),
                starts(design.fabric(), net),
                design.fabric().pads().get(pad).vertex(),
                context.overFree());
    }

    private static SearchSources starts(Fabric fabric, Net net) {
        TreeDelays delays = TreeDelays.of(fabric, net.route());
        long[] costs = new long[net.route().size()];
        for (int place = 0; place < costs.length; place++) {
            costs[place] = delays.at(place).slowPs();
        }
        return new SearchSources(net.route().toVertices(), costs);
    }

    private static boolean reaches(Fabric fabric, SearchSources starts, int goal, CostModel model) {
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
