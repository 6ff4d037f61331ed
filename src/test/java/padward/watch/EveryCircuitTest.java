package padward.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.format.design.DesignReader;
import padward.synth.DesignMaker;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.Count;
import padward.watch.library.DrawnRecipe;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;

/**
 * Every circuit of the library on each sort of device: it fits, and the pad of the design as it is
 * then written shows what the specification says. A million wires: {@code -Dwatch.million=true}.
 */
class EveryCircuitTest {
    private static final Set<String> ALL =
            Set.of(
                    "AnyChange",
                    "Count",
                    "Divide",
                    "Parity",
                    "Registered",
                    "Select",
                    "Signature",
                    "Sticky",
                    "Stretch",
                    "Synchronised",
                    "Toggle",
                    "Trigger");

    private static final int MOST_DRAWN = 150;

    @Test
    void onTheSmallExample() throws Exception {
        every(DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE));
    }

    @Test
    void onTheWorkbench() throws Exception {
        every(DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE));
    }

    @Test
    void onAnIrregularDevice() throws Exception {
        every(DesignMaker.makeIrregular(12_000, 3, 0.3, Progress.NONE).design());
    }

    @Test
    @EnabledIfSystemProperty(named = "watch.million", matches = "true")
    void onAMillionWires() throws Exception {
        every(DesignMaker.make(1_000_000, 9, 0.6, Progress.NONE).design());
    }

    private static void every(Design design) throws Exception {
        Random random = new Random(11);
        Set<String> missing = new TreeSet<>(ALL);
        String clock = design.nets().stream().filter(Net::clock).findFirst().orElseThrow().name();
        List<String> nets = design.nets().stream().filter(n -> !n.clock()).map(Net::name).toList();
        ConditionNetNames names = ConditionNetNames.of(design);
        Map<String, String> why = new HashMap<>();
        for (int i = 0; i < MOST_DRAWN && !missing.isEmpty(); i++) {
            // Nets that lie near each other, as one watches them.
            int first = random.nextInt(nets.size() - DrawnRecipe.NETS + 1);
            List<String> six = nets.subList(first, first + DrawnRecipe.NETS);
            DrawnRecipe drawn =
                    missing.equals(Set.of("Count"))
                            ? counted(six, clock, 2 + random.nextInt(4))
                            : DrawnRecipe.of(six, clock, names, random);
            String sort = drawn.recipe().getClass().getSimpleName();
            if (!missing.contains(sort)) {
                continue;
            }
            Circuit circuit = drawn.recipe().circuit(CircuitKinds.of(design.fabric().info()));
            List<Integer> pads = new ArrayList<>();
            for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
                boolean free =
                        design.findPortOn(pad).isEmpty()
                                && design.fabric().pads().get(pad).directions().canDrive();
                if (free) {
                    pads.add(pad);
                }
            }
            Collections.shuffle(pads, random);
            WatchResult result =
                    WatchPlacer.place(
                            new WatchQuestion(
                                    design, circuit, pads.subList(0, circuit.outputs().size())),
                            Progress.NONE);
            if (result instanceof WatchResult.Placed placed) {
                missing.remove(sort);
                WrittenCircuitsTest.check(
                        written(design, placed), placed, drawn, six, clock, sort + " " + i);
            } else {
                why.put(sort, ((WatchResult.DoesNotFit) result).text());
            }
        }
        assertThat(missing).as(why.toString()).isEmpty();
    }

    /** Each of three nets for some cycles. */
    private static DrawnRecipe counted(List<String> nets, String clock, int cycles) {
        return new DrawnRecipe(
                new Count(nets.subList(0, 3), clock, cycles),
                (past, t) -> past.get(t - 1)[(t - 1) / cycles % 3],
                1);
    }

    private static Design written(Design design, WatchResult.Placed placed) {
        LedgerEntry entry = new LedgerEntry("t", "w", "", "n", "p", placed.edits());
        Ledger ledger = new Ledger("d", "-", List.of(entry));
        return ((Ledger.Applied.Fits) ledger.applyTo(design)).design();
    }
}
