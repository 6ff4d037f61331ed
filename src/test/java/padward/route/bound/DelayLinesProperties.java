package padward.route.bound;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.PriorityQueue;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;

/** Delays over random planes and steps, against a textbook's Dijkstra over single places. */
class DelayLinesProperties {
    private record Step(int from, int to, int dx, int dy, int delayPs) {}

    private record Node(int plane, int x, int y, long delayPs) {}

    private final List<Step> steps = new ArrayList<>();
    private int width;
    private int height;
    private int planes;

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 7, 500, 40_000, Integer.MAX_VALUE})
    void delaysAreTheLeastAndLongOnesAreCutOff(int longestStep) {
        for (int seed = 0; seed < 100; seed++) {
            Random random = new Random(seed);
            width = 1 + random.nextInt(24);
            height = 1 + random.nextInt(24);
            planes = 1 + random.nextInt(5);
            steps.clear();
            for (int i = random.nextInt(4 * planes); i >= 0; i--) {
                steps.add(step(random, longestStep));
            }
            int x = random.nextInt(width);
            int y = random.nextInt(height);
            DelayLines lines = new DelayLines(width, height, planes);
            steps.forEach(s -> lines.addStep(s.from, s.to, s.dx, s.dy, s.delayPs));
            lines.addGoal(0, x, y);
            lines.find(Progress.NONE);
            long[][] expected = dijkstra(x, y);
            for (int line = 0; line < expected.length; line++) {
                int[] found = lines.line(line % planes, line / planes);
                assertEquals(
                        Arrays.toString(expected[line]),
                        Arrays.toString(found),
                        "seed " + seed + ", line " + line);
            }
        }
    }

    private Step step(Random random, int longest) {
        int delayPs = longest == Integer.MAX_VALUE ? longest : random.nextInt(longest + 1);
        return new Step(
                random.nextInt(planes),
                random.nextInt(planes),
                random.nextInt(9) - 4,
                random.nextInt(9) - 4,
                delayPs);
    }

    private long[][] dijkstra(int x, int y) {
        long[][] least = new long[height * planes][width];
        for (long[] line : least) {
            Arrays.fill(line, Long.MAX_VALUE);
        }
        PriorityQueue<Node> open =
                new PriorityQueue<>((a, b) -> Long.compare(a.delayPs, b.delayPs));
        open.add(new Node(0, x, y, 0));
        while (!open.isEmpty()) {
            Node node = open.remove();
            if (least[node.y * planes + node.plane][node.x] <= node.delayPs) {
                continue;
            }
            least[node.y * planes + node.plane][node.x] = node.delayPs;
            for (Step step : steps) {
                int nextX = node.x + step.dx;
                int nextY = node.y + step.dy;
                boolean inside = nextX >= 0 && nextX < width && nextY >= 0 && nextY < height;
                if (step.to == node.plane && inside) {
                    open.add(new Node(step.from, nextX, nextY, node.delayPs + step.delayPs));
                }
            }
        }
        for (long[] line : least) {
            for (int i = 0; i < width; i++) {
                line[i] =
                        line[i] == Long.MAX_VALUE
                                ? DelayLines.UNREACHED
                                : Math.min(line[i], DelayLines.LONGEST);
            }
        }
        return least;
    }
}
