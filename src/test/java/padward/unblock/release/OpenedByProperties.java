package padward.unblock.release;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.example.RandomCircuits;
import padward.fabric.Fabric;

/**
 * What some occupants open, against asking every vertex of the fabric, on tangled little circuits.
 */
class OpenedByProperties {
    private static final int SEEDS = 500;

    @ParameterizedTest
    @CsvSource({
        "false, false, false",
        "true, false, false",
        "true, true, false",
        "true, true, true"
    })
    void itIsAllThatIsUsedNowAndUsableThen(boolean open, boolean enables, boolean inputs) {
        RandomCircuits.Sorts sorts = new RandomCircuits.Sorts(open, enables, inputs);
        int opened = 0;
        for (long seed = 0; seed < SEEDS; seed++) {
            Optional<Design> made = RandomCircuits.make(seed, sorts);
            if (made.isPresent()) {
                opened += check(made.get(), new Random(seed), "seed " + seed);
            }
        }
        assertThat(opened).isGreaterThan(2_000);
    }

    private static int check(Design design, Random random, String what) {
        Net net = design.nets().get(random.nextInt(design.nets().size()));
        int pad = random.nextInt(design.fabric().pads().size());
        QuestionContext context =
                new QuestionContext(
                        design, net, PortBranch.find(design, pad), design.fabric().pads().get(pad));
        int already = random.nextInt(3) == 0 ? occupant(design, random) : Fabric.NOTHING;
        ReleaseRules rules = new ReleaseRules(context, already);
        int[] removed =
                random.ints(1 + random.nextInt(3)).map(i -> occupant(design, random)).toArray();
        IntSet expected = new IntOpenHashSet();
        for (int vertex = 0; vertex < design.fabric().vertexCount(); vertex++) {
            boolean blocked = context.isUsed(vertex) && !context.isClosed(vertex);
            if (blocked && rules.isOpen(vertex, removed)) {
                expected.add(vertex);
            }
        }
        assertThat(rules.openedBy(removed)).as(what).isEqualTo(expected);
        return expected.size();
    }

    private static int occupant(Design design, Random random) {
        return random.nextBoolean()
                ? random.nextInt(design.nets().size())
                : Occupant.ofCell(random.nextInt(design.cells().size()));
    }
}
