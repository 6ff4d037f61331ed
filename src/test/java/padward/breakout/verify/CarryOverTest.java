package padward.breakout.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.survey.Survey;
import padward.change.Edit;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;
import padward.route.bound.LowerBound;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchEngineKind;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;
import padward.unblock.why.SearchLimits;

/** A ledger made on one design, applied to the same design made anew with small changes. */
class CarryOverTest {
    private static final int KEPT = 8;

    /**
     * What stands against each entry is worked out a second time, from nothing but the wires of all
     * nets and the names: both must say the same, entry by entry, word by word.
     */
    @ParameterizedTest
    @ValueSource(longs = {3, 4, 5})
    void everyConflictIsToldAndSearchedAgain(long seed, @TempDir Path folder) throws Exception {
        Random random = new Random(seed);
        MadeDesign made = DesignMaker.make(8_000, seed, 0.4, Progress.NONE);
        Design first = made.design();
        Ledger ledger = ledger(first, random);
        assertThat(ledger.entries()).hasSize(KEPT);
        String renamed = ledger.entries().get(KEPT - 1).net();
        Design newer = renamed(disturbed(first, ledger, random), renamed);

        CarryOver checked = carry(ledger, newer, false);
        Map<Integer, Set<String>> expected = conflicts(ledger, newer);
        assertThat(expected.size()).isBetween(2, KEPT);
        Map<Integer, Set<String>> told = new HashMap<>();
        checked.misfits().forEach(o -> told.put(o.index(), new HashSet<>(o.reasons())));
        assertThat(told).isEqualTo(expected);

        CarryOver again = carry(ledger, newer, true);
        for (CarryOver.Outcome outcome : again.outcomes()) {
            boolean gone = outcome.entry().net().equals(renamed);
            if (gone) {
                assertThat(outcome.edits()).isEmpty();
                assertThat(outcome.lines()).singleElement().isInstanceOf(CarryOver.Line.Left.class);
            }
            if (outcome.isWhole() && !gone) {
                Net net = again.design().findNet(outcome.entry().net()).orElseThrow();
                assertThat(net.sinks())
                        .hasSizeGreaterThan(first.findNet(net.name()).get().sinks().size());
            }
        }
        assertThat(again.outcomes()).anyMatch(o -> !o.fits() && o.isWhole());
        // The file reader judges whether the design that came of it is sound.
        PatternWriter.write(made.spec().orElseThrow(), folder.resolve("fabric.json"));
        Path file = folder.resolve("design.json");
        DesignWriter.write(again.design(), file, "fabric.json", "");
        Design read = DesignReader.read(file, Progress.NONE);
        List<LedgerEntry> applied =
                again.outcomes().stream()
                        .filter(o -> !o.edits().isEmpty())
                        .map(
                                o ->
                                        new LedgerEntry(
                                                "t",
                                                "w",
                                                "",
                                                o.entry().net(),
                                                o.entry().pad(),
                                                o.edits()))
                        .toList();
        assertThat(ChangeAudit.of(newer, applied, read).holds()).isTrue();
    }

    private static CarryOver carry(Ledger ledger, Design newer, boolean again) {
        return CarryOver.of(ledger, newer, again, SearchLimits.USUAL, Progress.NONE);
    }

    /** Nets brought out on pads that no port is on. */
    private static Ledger ledger(Design design, Random random) {
        EntryReplay replay = new EntryReplay(design);
        Ledger ledger = new Ledger("d", "-", List.of());
        while (ledger.entries().size() < KEPT) {
            Design now = replay.design();
            Net net = now.nets().get(1 + random.nextInt(now.nets().size() - 1));
            Optional<Answer.Open> open = open(now, net);
            if (open.isEmpty()) {
                continue;
            }
            List<Edit> edits = AnswerEdits.of(open.get());
            assertThat(replay.add(edits)).isEmpty();
            String pad = open.get().question().padValue().name();
            ledger = ledger.with(new LedgerEntry("t", "w", "", net.name(), pad, edits));
        }
        return ledger;
    }

    private static Optional<Answer.Open> open(Design now, Net net) {
        return Survey.of(now, net, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE)
                .answers()
                .stream()
                .filter(a -> a instanceof Answer.Open)
                .map(a -> (Answer.Open) a)
                .filter(a -> a.disconnected().isEmpty() && !AnswerEdits.isThere(a))
                .filter(a -> now.findPortOn(a.question().pad()).isEmpty())
                .findFirst();
    }

    /** Other nets grow onto wires in the middle of some of the ledger's ways. */
    private static Design disturbed(Design design, Ledger ledger, Random random) {
        Design now = design;
        for (int i = 0; i < KEPT / 2; i++) {
            Edit.BreakOut out = (Edit.BreakOut) ledger.entries().get(i).edits().get(0);
            List<Integer> wires =
                    out.route().stream()
                            .skip(1)
                            .filter(v -> design.fabric().kind(v) == VertexKind.WIRE)
                            .toList();
            if (wires.isEmpty()) {
                continue;
            }
            int wire = wires.get(random.nextInt(wires.size()));
            for (int tries = 0; tries < 40; tries++) {
                Net net = now.nets().get(1 + random.nextInt(now.nets().size() - 1));
                boolean kept = ledger.entries().stream().anyMatch(e -> e.net().equals(net.name()));
                Optional<RouteTree> grown = kept ? Optional.empty() : grown(now, net, wire);
                if (grown.isPresent()) {
                    now = Outcome.apply(now, List.of(new Edit.RouteNet(net.name(), grown.get())));
                    break;
                }
            }
        }
        return now;
    }

    private static Optional<RouteTree> grown(Design design, Net net, int wire) {
        if (design.occupancy().isOccupied(wire)) {
            return Optional.empty();
        }
        int[] starts = net.route().toVertices();
        SearchOutcome outcome =
                new PathSearch(design.fabric())
                        .run(
                                new SearchSources(starts, new long[starts.length]),
                                wire,
                                Corner.SLOW,
                                new FreeOnlyCost(design.occupancy().toBits()),
                                LowerBound.NONE,
                                Progress.NONE);
        if (!(outcome instanceof SearchOutcome.Found found)) {
            return Optional.empty();
        }
        RouteTree.Builder tree = new RouteTree.Builder(net.route().root());
        for (int place = 1; place < net.route().size(); place++) {
            tree.add(net.route().vertex(net.route().parent(place)), net.route().vertex(place));
        }
        for (int i = 1; i < found.path().size(); i++) {
            if (design.fabric().kind(found.path().vertex(i)) != VertexKind.WIRE) {
                return Optional.empty();
            }
            tree.add(found.path().vertex(i - 1), found.path().vertex(i));
        }
        return Optional.of(tree.build());
    }

    private static Design renamed(Design design, String name) {
        List<Net> nets = new ArrayList<>();
        for (Net n : design.nets()) {
            String now = n.name().equals(name) ? name + "_anew" : n.name();
            nets.add(new Net(n.id(), now, n.driver(), n.sinks(), n.route(), n.clock()));
        }
        return new Design(
                design.name(),
                design.note(),
                design.fabric(),
                design.board(),
                List.copyOf(design.cells()),
                nets,
                List.copyOf(design.ports()));
    }

    private static Map<Integer, Set<String>> conflicts(Ledger ledger, Design newer) {
        Fabric fabric = newer.fabric();
        Map<Integer, String> occupant = new HashMap<>();
        for (Net net : newer.nets()) {
            for (int vertex : net.route().toVertices()) {
                occupant.put(vertex, net.name());
            }
        }
        Map<Integer, Set<String>> result = new HashMap<>();
        for (int i = 0; i < ledger.entries().size(); i++) {
            Edit.BreakOut out = (Edit.BreakOut) ledger.entries().get(i).edits().get(0);
            Set<String> reasons = new HashSet<>();
            if (newer.findNet(out.net()).isEmpty()) {
                reasons.add("there is no net " + out.net());
            } else if (!out.net().equals(occupant.get(out.route().get(0)))) {
                // It branched off an earlier entry's route, which does not fit either.
                reasons.add("the route does not start on net " + out.net());
            } else {
                for (int vertex : out.route().subList(1, out.route().size())) {
                    String by = occupant.getOrDefault(vertex, out.net());
                    if (!by.equals(out.net())) {
                        reasons.add(fabric.vertexName(vertex) + " is used by net " + by);
                    }
                }
            }
            if (reasons.isEmpty()) {
                out.route().forEach(v -> occupant.put(v, out.net()));
            } else {
                result.put(i, reasons);
            }
        }
        return result;
    }
}
