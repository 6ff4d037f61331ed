package padward.watch.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.EntryRemoval;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.PlainState;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.example.RandomDesigns;
import padward.fabric.Fabric;
import padward.format.design.Digest;
import padward.timing.TreeDelays;
import padward.watch.answer.WatchPrice;
import padward.watch.answer.WatchText;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/**
 * Where nets may be moved: a circuit fits more often, and all that is not named as moved keeps
 * every wire and every delay. The slow test begins with the seed {@code -Dpadward.seed}.
 */
class MayMoveTest {
    private static final int STEPS = 800;
    private static final int MANY_STEPS = 20_000;

    /** Fabrics of a few tiles, crowded: there most is learnt in little time. */
    @Test
    void someOnRandomFabrics() throws Exception {
        onRandomFabrics(0, 60);
        assertThat(more).isGreaterThan(10);
    }

    /** A rerouted net that comes to another input of a table: its delay is told all the same. */
    @Test
    void delaysOfSwappedEndsAreTold() throws Exception {
        onRandomFabrics(273, 1);
    }

    @Test
    @Tag("slow")
    void manyOnRandomFabrics() throws Exception {
        long first = Long.getLong("padward.seed", 0);
        onRandomFabrics(first, 3_000);
        System.out.println("Seeds from " + first + ": " + more + " fit with moves");
    }

    private void onRandomFabrics(long first, int count) throws Exception {
        for (long seed = first; seed < first + count; seed++) {
            Random random = new Random(seed);
            Fabric fabric = WatchPlacerProperties.withTables(seed);
            Design design = RandomDesigns.on(fabric, 10 + random.nextInt(40), random);
            if (design.nets().size() >= 3) {
                Circuit circuit =
                        SomeCircuits.drawn(
                                design, 1 + random.nextInt(2), 2, Optional.empty(), random);
                int pad = random.nextInt(fabric.pads().size());
                check(design, circuit, pad, "random " + seed);
            }
        }
    }

    /** Where it is said that a circuit does not fit with moves either, trying all finds nothing. */
    @Test
    void tryingAllMovesAgreesOnWhatDoesNotFit() throws Exception {
        bruteForce(0, 50, STEPS);
    }

    @Test
    @Tag("slow")
    void tryingAllMovesAgreesOnWhatDoesNotFitOnMany() throws Exception {
        bruteForce(Long.getLong("padward.seed", 0), 1_000, MANY_STEPS);
    }

    private static void bruteForce(long first, int count, int steps) throws Exception {
        int proven = 0;
        int agreed = 0;
        int notFound = 0;
        int missed = 0;
        int confirmed = 0;
        int moved = 0;
        for (long seed = first; seed < first + count; seed++) {
            Random random = new Random(seed);
            Fabric fabric = WatchPlacerProperties.withTables(seed);
            Design design = RandomDesigns.on(fabric, 10 + random.nextInt(40), random);
            if (design.nets().size() < 3) {
                continue;
            }
            Circuit circuit = SomeCircuits.drawn(design, 1, 2, Optional.empty(), random);
            CircuitElement.Table table = (CircuitElement.Table) circuit.elements().get(0);
            int pad = random.nextInt(fabric.pads().size());
            if (design.findPortOn(pad).isPresent()) {
                continue;
            }
            WatchQuestion question = new WatchQuestion(design, circuit, List.of(pad));
            WatchResult result = WatchPlacer.place(question.moving(true), Progress.NONE);
            if (result instanceof WatchResult.Placed placed) {
                boolean reroutes =
                        placed.moves().stream().allMatch(Edit.RouteNet.class::isInstance);
                if (reroutes && !placed.moves().isEmpty()) {
                    moved++;
                    Optional<Boolean> fits = MovingBruteForce.fits(design, table, pad, steps);
                    assertThat(fits.orElse(true)).as("seed " + seed).isTrue();
                    confirmed += fits.isPresent() ? 1 : 0;
                }
                continue;
            }
            WatchResult.DoesNotFit not = (WatchResult.DoesNotFit) result;
            Optional<Boolean> fits = MovingBruteForce.fits(design, table, pad, steps);
            if (not.proven()) {
                assertThat(fits.orElse(false)).as("seed " + seed + ": " + not.text()).isFalse();
                proven++;
                agreed += fits.isPresent() ? 1 : 0;
            } else {
                notFound++;
                missed += fits.orElse(false) ? 1 : 0;
            }
        }
        System.out.println(
                "Seeds from "
                        + first
                        + ": "
                        + proven
                        + " proven not to fit, of which "
                        + agreed
                        + " decided by trying all; "
                        + notFound
                        + " not found, of which "
                        + missed
                        + " fit; "
                        + confirmed
                        + " of "
                        + moved
                        + " that fit with moves confirmed");
        assertThat(agreed).isGreaterThan(count / 40);
    }

    private int more;

    private void check(Design design, Circuit circuit, int pad, String name) {
        WatchQuestion question = new WatchQuestion(design, circuit, List.of(pad));
        WatchResult plain = WatchPlacer.place(question, Progress.NONE);
        if (plain instanceof WatchResult.Placed placed) {
            assertThat(placed.moves()).as(name).isEmpty();
            return;
        }
        WatchResult moving = WatchPlacer.place(question.moving(true), Progress.NONE);
        if (!(moving instanceof WatchResult.Placed placed)) {
            String text = ((WatchResult.DoesNotFit) plain).text();
            assertThat(WatchText.sentence(moving))
                    .as(name)
                    .isIn(
                            WatchText.sentence(plain),
                            "No place found: " + text + " No moves were found that make room.");
            return;
        }
        more++;
        assertThat(WatchText.moves(placed)).as(name).doesNotHaveDuplicates();
        assertThat(WatchPrice.of(placed).obstacles()).as(name).doesNotHaveDuplicates();
        WatchResult alone = WatchPlacer.placeMoving(question, Progress.NONE);
        assertThat(WatchText.sentence(alone)).as(name).isEqualTo(WatchText.sentence(moving));
        PlainState state = PlainState.of(design).after(placed.edits(), design.fabric());
        assertThat(state).as(name).isNotNull();
        WatchPlacerProperties.wired(placed, name);
        Set<String> observed = new HashSet<>();
        for (CircuitElement element : circuit.elements()) {
            element.inputs().stream()
                    .filter(Signal.Observed.class::isInstance)
                    .forEach(s -> observed.add(((Signal.Observed) s).net()));
            if (element instanceof CircuitElement.Register register) {
                observed.add(register.clock());
            }
        }
        assertThat(placed.movedNets()).as(name).doesNotContainAnyElementsOf(observed);
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.AddSink branch) {
                assertThat(placed.movedNets()).as(name).doesNotContain(branch.net());
            }
        }
        nothingElseChanges(design, placed, name);
        isUndone(design, placed, name);
        for (String net : placed.movedNets()) {
            assertThat(WatchText.sentence(placed)).as(name).contains("To make room: ");
            assertThat(WatchPrice.of(placed).obstacles()).as(name).isNotEmpty();
            assertThat(design.findNet(net)).as(name).isPresent();
        }
    }

    /** Nets that are not named keep their trees; all cells that are not named, their sites. */
    private static void nothingElseChanges(Design design, WatchResult.Placed placed, String name) {
        Set<String> mayDiffer = new HashSet<>(placed.movedNets());
        Set<String> cells = new HashSet<>();
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.RelocateCell cell) {
                cells.add(cell.cell());
            } else if (edit instanceof Edit.SetCell cell) {
                cells.add(cell.cell());
            }
        }
        Set<String> told = new HashSet<>();
        placed.loads().forEach(l -> told.add(l.net()));
        Set<String> losing = new HashSet<>();
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.DisconnectPort port) {
                design.ports().stream()
                        .filter(p -> p.name().equals(port.port()))
                        .flatMap(p -> design.netsAtPort(p.id()).stream())
                        .forEach(n -> losing.add(n.name()));
            }
        }
        for (Net net : design.nets()) {
            if (losing.contains(net.name())) {
                continue;
            }
            Net now = placed.design().findNet(net.name()).orElseThrow();
            List<Long> before = wires(net);
            List<Long> after = wires(now);
            if (!mayDiffer.contains(net.name())) {
                assertThat(after).as(name + ", net " + net.name()).containsAll(before);
            }
            boolean delaysDiffer = !delays(design, net).equals(delays(placed.design(), now, net));
            if (delaysDiffer) {
                assertThat(told).as(name).contains(net.name());
            }
        }
        for (Cell cell : design.cells()) {
            if (!cells.contains(cell.name())) {
                Cell now = placed.design().findCell(cell.name()).orElseThrow();
                assertThat(now.site()).as(name).isEqualTo(cell.site());
                assertThat(now.settings()).as(name).isEqualTo(cell.settings());
            }
        }
    }

    private static List<Long> wires(Net net) {
        List<Long> result = new ArrayList<>();
        for (int place = 1; place < net.route().size(); place++) {
            long parent = net.route().vertex(net.route().parent(place));
            result.add(parent << 32 | net.route().vertex(place));
        }
        return result;
    }

    private static Map<String, String> delays(Design design, Net net) {
        return delays(design, net, net);
    }

    /** By sink that the net had before, its delay. */
    private static Map<String, String> delays(Design design, Net net, Net before) {
        TreeDelays delays = TreeDelays.of(design.fabric(), net.route());
        Map<String, String> result = new HashMap<>();
        for (int s = 0; s < before.sinks().size(); s++) {
            int vertex = design.vertexOf(before.sinks().get(s));
            for (int place = 0; place < net.route().size(); place++) {
                if (net.route().vertex(place) == vertex) {
                    result.put("sink " + s, delays.at(place).toText());
                }
            }
        }
        return result;
    }

    private static void isUndone(Design design, WatchResult.Placed placed, String name) {
        LedgerEntry entry = new LedgerEntry("t", "w", "", "n", "p", placed.edits());
        Ledger ledger = new Ledger("d", "-", List.of(entry));
        Design after = ((Ledger.Applied.Fits) ledger.applyTo(design)).design();
        assertThat(Digest.of(after)).as(name).isEqualTo(Digest.of(placed.design()));
        Ledger undone = EntryRemoval.of(ledger, design, 0).rest();
        Design back = ((Ledger.Applied.Fits) undone.applyTo(design)).design();
        assertThat(Digest.of(back)).as(name).isEqualTo(Digest.of(design));
    }
}
