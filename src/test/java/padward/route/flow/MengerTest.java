package padward.route.flow;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.example.HandMade;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchSources;

/**
 * Menger's theorem (1927) by brute force on tiny fabrics: the greatest number of disjoint routes is
 * the smallest number of vertices, nets included, without which no net reaches a goal, found by
 * trying all sets.
 */
class MengerTest {
    private static final int WIRES = 7;

    @Test
    void theMostRoutesAreAsManyAsTheSmallestCut() throws Exception {
        int[] seen = new int[5];
        for (int seed = 0; seed < 300; seed++) {
            Random random = new Random(seed);
            Design design = drawn(random);
            Fabric fabric = design.fabric();
            int nets = 1 + random.nextInt(3);
            List<Integer> starts = new ArrayList<>();
            for (int i = 0; i < nets; i++) {
                starts.add(vertex(fabric, "s" + i + ".q"));
            }
            List<Integer> goals =
                    List.of(vertex(fabric, "p0"), vertex(fabric, "p1"), vertex(fabric, "p2"));
            DisjointRoutes found =
                    DisjointRouteFinder.find(
                            fabric,
                            Corner.SLOW,
                            BlockedVertices.of(new BitSet()),
                            starts.stream().map(SearchSources::at).toList(),
                            goals.stream().map(g -> new FlowGoal(g, 0)).toList(),
                            Progress.NONE);
            int least = smallestCut(fabric, starts, goals);
            assertThat(found.served()).as("seed %d", seed).isEqualTo(least);
            seen[least]++;
        }
        assertThat(seen[0]).isPositive();
        assertThat(seen[1]).isPositive();
        assertThat(seen[2]).isPositive();
        assertThat(seen[3]).isPositive();
    }

    private static Design drawn(Random random) {
        StringBuilder wires = new StringBuilder();
        for (int i = 0; i < WIRES; i++) {
            wires.append(i == 0 ? "" : " ").append("w").append(i);
        }
        HandMade made = new HandMade().wires(wires.toString());
        for (int i = 0; i < 3; i++) {
            made.site("s" + i, "", "q").pad("p" + i);
        }
        for (int i = 0; i < 6 + random.nextInt(18); i++) {
            String from = random.nextInt(5) < 2 ? "s" + random.nextInt(3) + ".q" : wire(random);
            String to = random.nextInt(5) < 2 ? "p" + random.nextInt(3) : wire(random);
            if (!from.equals(to)) {
                made.chain(from + " " + to);
            }
        }
        return made.design();
    }

    private static String wire(Random random) {
        return "w" + random.nextInt(WIRES);
    }

    private static int vertex(Fabric fabric, String name) {
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.vertexName(v).endsWith(name)) {
                return v;
            }
        }
        throw new IllegalArgumentException(name);
    }

    private static int smallestCut(Fabric fabric, List<Integer> starts, List<Integer> goals) {
        int least = Integer.MAX_VALUE;
        for (int set = 0; set < 1 << fabric.vertexCount(); set++) {
            if (Integer.bitCount(set) < least && !leads(fabric, starts, goals, set)) {
                least = Integer.bitCount(set);
            }
        }
        return least;
    }

    private static boolean leads(
            Fabric fabric, List<Integer> starts, List<Integer> goals, int without) {
        Set<Integer> seen = new HashSet<>();
        List<Integer> todo = new ArrayList<>();
        for (int start : starts) {
            if ((without >> start & 1) == 0 && seen.add(start)) {
                todo.add(start);
            }
        }
        EdgeCursor edges = fabric.edgesOut();
        while (!todo.isEmpty()) {
            int vertex = todo.remove(todo.size() - 1);
            if (goals.contains(vertex)) {
                return true;
            }
            edges.reset(vertex);
            while (edges.next()) {
                int other = edges.other();
                boolean enters = (without >> other & 1) == 0 && !starts.contains(other);
                if (enters && seen.add(other)) {
                    todo.add(other);
                }
            }
        }
        return false;
    }
}
