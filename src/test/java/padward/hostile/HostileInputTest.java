package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Every input ends in a fault that is reported, or in what can be written and read again: within
 * five seconds, on a stack of 512 KB. The corpus, and each time other inputs that are made of it.
 *
 * <p>{@code -Dpadward.seed=N} repeats a round; its inputs depend on how many fit into the time, the
 * input that failed is in {@code target/hostile}. Put it into the corpus, {@code
 * src/test/resources/hostile}, into the folder with the target's name.
 */
class HostileInputTest {
    /** All targets together take half a minute. */
    private static final long MILLIS = 350;

    private static final int MOST = 300;
    private static final int SLOW_INPUTS = 1_000_000;

    private Path folder;
    private World world;

    @BeforeEach
    void makeWorld() throws Exception {
        folder = World.newFolder();
        world = new World(folder);
    }

    @AfterEach
    void deleteWorld() throws Exception {
        World.delete(folder);
    }

    private static long seed() {
        return Long.getLong("padward.seed", System.nanoTime() % 1_000_000);
    }

    @Test
    void theCorpusIsReadOrRefused() throws Exception {
        List<String> wrong = new ArrayList<>();
        for (Target target : Targets.all(world)) {
            for (int i = 0; i < target.seeds().size(); i++) {
                Judge.Verdict verdict = target.read(target.seeds().get(i));
                String which = target.name() + ", seed " + i;
                verdict.failure().ifPresent(f -> wrong.add(which + ": " + f));
            }
        }
        assertThat(wrong).isEmpty();
    }

    @Test
    void freshInputsAreReadOrRefused() throws Exception {
        Campaign campaign = new Campaign(seed(), () -> 0);
        for (Target target : Targets.all(world)) {
            Random random = new Random(campaign.seedOf(target));
            campaign.run(target, new ArrayList<>(target.seeds()), MOST, MILLIS, random);
        }
        assertThat(campaign.failures()).as(campaign.report()).isEmpty();
        assertThat(campaign.count()).isPositive();
    }

    @Test
    @Tag("slow")
    void aMillionInputsAreReadOrRefused() throws Exception {
        assertThat(BranchLoader.run("" + seed(), "" + SLOW_INPUTS)).isEmpty();
    }
}
