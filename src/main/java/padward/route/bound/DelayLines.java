package padward.route.bound;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import padward.base.Progress;

/**
 * Least delays to a goal over some planes of places, between which every step is possible
 * everywhere: what {@link LowerBoundTable} consists of.
 *
 * <p>Method: the places of one plane in one row are a line. A line is improved by all places of
 * another one at once, moved and made later by a step; that is done again, row by row up and down,
 * until no line gets better (Bellman, "On a routing problem", Quarterly of Applied Mathematics
 * 16(1), 1958, 87-90; the order is that of Yen, "An algorithm for finding shortest routes from all
 * source nodes to a given destination in general networks", ibid. 27(4), 1970, 526-530). A line is
 * looked at again only when one that leads to it has changed. O(width × steps of its plane) for
 * each time that a line is looked at, which on regular fabrics is a few times: the best routes turn
 * seldom.
 *
 * <p>Dijkstra's search over the single places does fewer steps, but goes to places all over the
 * table; here it is one loop over arrays. A table of 16 million places took 7.4 s of processor time
 * by Dijkstra's search and a bucket queue, in a fresh process.
 */
final class DelayLines {
    /** No goal can be reached: a bit that no delay has. A delay can be added to it. */
    static final int UNREACHED = 1 << 30;

    /** The longest delay; what is longer is cut off to it. */
    static final int LONGEST = 0xffff - 1;

    /**
     * A step, backwards.
     *
     * @param plane the plane whose places are nearer to the goal
     * @param dx what is added to the column of those
     * @param dy what is added to their row
     */
    private record Step(int plane, int dx, int dy, int delayPs) {}

    private static final int PLANES_BETWEEN_CHECKS = 16;

    private final int width;
    private final int height;
    private final int planes;

    /** By row and plane; one by one, so that a loop knows that it reads and writes two arrays. */
    private final int[][] lines;

    /** By plane, the steps that lead from it. */
    private final List<List<Step>> steps = new ArrayList<>();

    /** When each line changed last, and was looked at last, by a count of changes. */
    private final int[] changedAt;

    private final int[] lookedAt;
    private int changes;
    private final int[] before;

    DelayLines(int width, int height, int planes) {
        this.width = width;
        this.height = height;
        this.planes = planes;
        lines = new int[height * planes][width];
        for (int[] line : lines) {
            Arrays.fill(line, UNREACHED);
        }
        for (int plane = 0; plane < planes; plane++) {
            steps.add(new ArrayList<>());
        }
        changedAt = new int[lines.length];
        lookedAt = new int[lines.length];
        before = new int[width];
    }

    /** A step from one plane to another, nearer to the goal; all before the delays are found. */
    void addStep(int from, int to, int dx, int dy, int delayPs) {
        steps.get(from).add(new Step(to, dx, dy, Math.min(LONGEST, delayPs)));
    }

    /** A place from which no delay is left. */
    void addGoal(int plane, int x, int y) {
        int line = y * planes + plane;
        lines[line][x] = 0;
        changedAt[line] = ++changes;
    }

    /**
     * Finds the least delays.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    void find(Progress progress) {
        int known;
        do {
            known = changes;
            for (int y = 0; y < height; y++) {
                improveRow(y, progress);
            }
            for (int y = height - 1; y >= 0; y--) {
                improveRow(y, progress);
            }
        } while (changes != known);
    }

    private void improveRow(int y, Progress progress) {
        int known;
        do {
            known = changes;
            for (int plane = 0; plane < planes; plane++) {
                if (plane % PLANES_BETWEEN_CHECKS == 0) {
                    progress.check();
                }
                improve(y, plane);
            }
        } while (changes != known);
    }

    private void improve(int y, int plane) {
        int line = y * planes + plane;
        int[] here = lines[line];
        int looked = lookedAt[line];
        lookedAt[line] = changes;
        boolean begun = false;
        for (Step step : steps.get(plane)) {
            int row = y - step.dy;
            if (row < 0 || row >= height || changedAt[row * planes + step.plane] <= looked) {
                continue;
            }
            if (!begun) {
                begun = true;
                System.arraycopy(here, 0, before, 0, width);
            }
            int[] there = lines[row * planes + step.plane];
            if (there == here) {
                along(here, step.dx, step.delayPs);
            } else {
                improve(here, there, step.dx, step.delayPs);
            }
        }
        if (begun) {
            cutOff(here);
            if (!Arrays.equals(here, before)) {
                changedAt[line] = ++changes;
            }
        }
    }

    private static void improve(int[] here, int[] there, int dx, int delayPs) {
        int end = Math.min(here.length, here.length + dx);
        for (int x = Math.max(0, dx); x < end; x++) {
            here[x] = Math.min(here[x], there[x - dx] + delayPs);
        }
    }

    private static void cutOff(int[] line) {
        for (int x = 0; x < line.length; x++) {
            // Written so that it is done to many places at once: what is not reached stays so.
            line[x] = Math.min(line[x], LONGEST | line[x] & UNREACHED);
        }
    }

    /** A line by itself, in the order in which the step can be repeated. */
    private static void along(int[] line, int dx, int delayPs) {
        if (dx > 0) {
            for (int x = dx; x < line.length; x++) {
                line[x] = Math.min(line[x], line[x - dx] + delayPs);
            }
        } else {
            for (int x = line.length - 1 + dx; x >= 0; x--) {
                line[x] = Math.min(line[x], line[x - dx] + delayPs);
            }
        }
    }

    /**
     * The delays left at the places of a plane in a row, or {@link #UNREACHED}; the line itself,
     * not to be changed.
     */
    int[] line(int plane, int y) {
        return lines[y * planes + plane];
    }
}
