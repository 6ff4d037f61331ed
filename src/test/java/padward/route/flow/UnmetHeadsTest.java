package padward.route.flow;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;

/** The heads of edges that were not met yet, beside the edges one by one. */
class UnmetHeadsTest {
    private int met;
    private int unmet;

    @Test
    void whatWasMetIsLeftOutAndNothingElse() throws Exception {
        for (int seed = 0; seed < 40; seed++) {
            Fabric fabric = DisjointRouteProperties.draw(seed).fabric();
            Random random = new Random(seed);
            UnmetHeads heads = new UnmetHeads(fabric);
            Set<Integer> done = new TreeSet<>();
            EdgeCursor edges = fabric.edgesOut();
            for (int i = 0; i < 300; i++) {
                int vertex = random.nextInt(fabric.vertexCount());
                Set<Integer> expected = new TreeSet<>();
                edges.reset(vertex);
                while (edges.next()) {
                    if (done.contains(edges.other())) {
                        met++;
                    } else {
                        expected.add(edges.other());
                    }
                }
                Set<Integer> found = new TreeSet<>();
                heads.reset(vertex);
                while (heads.next()) {
                    assertThat(done).as("seed %d", seed).doesNotContain(heads.other());
                    found.add(heads.other());
                    if (random.nextBoolean()) {
                        heads.meet(heads.other());
                        done.add(heads.other());
                    }
                }
                assertThat(found).as("seed %d, vertex %d", seed, vertex).isEqualTo(expected);
                unmet += expected.size();
            }
        }
        assertThat(met).isGreaterThan(1_000);
        assertThat(unmet).isGreaterThan(1_000);
    }
}
