package padward.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.synth.DesignMaker;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.DrawnRecipe;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;
import padward.watch.simulate.DesignSimulation;

/**
 * Drawn circuits of the library on drawn designs, placed and routed, kept in a ledger, applied: the
 * pad of the design as it is then written shows what the specification says, which knows of no
 * tables, no mapping and no routes. The slow test begins with the seed {@code -Dpadward.seed},
 * draws 20 circuits on each of {@code -Dwatch.designs} designs, and prints how many were placed.
 */
class WrittenCircuitsTest {
    private static final int CYCLES = 300;

    @TempDir private Path folder;
    private int placed;
    private int asked;

    @Test
    void aSampleShowsWhatItMust() throws Exception {
        for (long seed = 1; seed <= 2; seed++) {
            onDesign(seed, 14, 6_000);
        }
        Path small = Path.of("fixtures/small/around.design.json");
        drawn(DesignReader.read(small, Progress.NONE), 5, 10);
        assertThat(placed).isGreaterThan(asked / 2);
    }

    @Test
    @Tag("slow")
    void aThousandShowWhatTheyMust() throws Exception {
        long first = Long.getLong("padward.seed", 1);
        int designs = Integer.getInteger("watch.designs", 50);
        for (int i = 1; i <= designs; i++) {
            onDesign(first + i - 1, 20, 4_000 + 200 * i);
        }
        System.out.println(
                "Seeds from " + first + ": " + asked + " circuits drawn, " + placed + " placed");
        assertThat(placed).isGreaterThan(asked / 2);
    }

    private void onDesign(long seed, int count, int wires) throws Exception {
        Design design =
                seed % 2 == 0
                        ? DesignMaker.make(wires, seed, 0.3, Progress.NONE).design()
                        : DesignMaker.makeIrregular(wires, seed, 0.15, Progress.NONE).design();
        drawn(design, seed, count);
    }

    private void drawn(Design design, long seed, int count) throws Exception {
        Random random = new Random(seed);
        String clock = design.nets().stream().filter(Net::clock).findFirst().orElseThrow().name();
        List<String> nets =
                design.nets().stream()
                        .filter(n -> !n.clock())
                        .map(Net::name)
                        .collect(Collectors.toCollection(ArrayList::new));
        for (int i = 0; i < count; i++) {
            Collections.shuffle(nets, random);
            List<String> six = List.copyOf(nets.subList(0, DrawnRecipe.NETS));
            DrawnRecipe drawn = DrawnRecipe.of(six, clock, ConditionNetNames.of(design), random);
            Circuit circuit = drawn.recipe().circuit(CircuitKinds.of(design.fabric().info()));
            int pad = random.nextInt(design.fabric().pads().size());
            WatchResult result =
                    WatchPlacer.place(
                            new WatchQuestion(design, circuit, List.of(pad)), Progress.NONE);
            asked++;
            if (result instanceof WatchResult.Placed there) {
                placed++;
                String name = "seed " + seed + ", circuit " + i + ", " + drawn.recipe();
                check(written(design, there, i % 10 == 0), there, drawn, six, clock, name);
            }
        }
    }

    /** The design with the circuit: by a ledger, and now and then through files. */
    private Design written(Design design, WatchResult.Placed there, boolean file) throws Exception {
        LedgerEntry entry = new LedgerEntry("t", "w", "", "n", "p", there.edits());
        Ledger ledger = new Ledger("d", "-", List.of(entry));
        Design after = ((Ledger.Applied.Fits) ledger.applyTo(design)).design();
        if (!file) {
            return after;
        }
        FabricWriter.write(after.fabric(), folder.resolve("f.json"));
        DesignWriter.write(after, folder.resolve("d.json"), "f.json", "");
        return DesignReader.read(folder.resolve("d.json"), Progress.NONE);
    }

    static void check(
            Design after,
            WatchResult.Placed there,
            DrawnRecipe drawn,
            List<String> nets,
            String clock,
            String name)
            throws Exception {
        String padName = there.legs().get(0).pad();
        int pad = 0;
        while (!after.fabric().pads().get(pad).name().equals(padName)) {
            pad++;
        }
        Set<String> cells =
                there.cells().stream()
                        .map(WatchResult.PlacedCell::cell)
                        .collect(Collectors.toSet());
        DesignSimulation run = new DesignSimulation(after);
        Random random = new Random(name.hashCode());
        List<boolean[]> past = new ArrayList<>();
        for (int t = 0; t < CYCLES; t++) {
            Map<String, Boolean> levels = new HashMap<>();
            boolean[] now = new boolean[nets.size()];
            for (int i = 0; i < now.length; i++) {
                now[i] = random.nextBoolean();
                levels.put(nets.get(i), now[i]);
            }
            past.add(now);
            run.begin(net -> Optional.ofNullable(levels.get(net)));
            boolean shown = run.pad(pad);
            if (t >= drawn.from() && shown != drawn.rule().at(past, t)) {
                throw new AssertionError(name + ", cycle " + t);
            }
            run.edge(clock, cells);
        }
    }
}
