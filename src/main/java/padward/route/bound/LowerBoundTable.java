package padward.route.bound;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.IntUnaryOperator;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;

/**
 * The least delays to a goal on the empty fabric, by group of wires and distance in tiles, as a
 * table: a lower bound for every search, and on a regular fabric nearly the truth.
 *
 * <p><b>Why it is admissible and consistent.</b> The table contains the least delays D over the
 * steps of {@link WireGroups} on an endless plane. Every edge from u to v is one of the steps at
 * the step's delay or more, so D(u) <= delay(u, v) + D(v); D of the goal's own group at its own
 * tile is zero. Values beyond 16 bits are cut off to the largest, which keeps the inequality. Costs
 * are never less than delays, so it is valid for every {@link CostModel}. Idea: pattern databases
 * (Culberson, Schaeffer, Computational Intelligence 14(3), 1998, 318-334), the pattern being the
 * position and kind of wire.
 *
 * <p>Groups with one outgoing step have no plane of their own; they use the plane of the next
 * group, plus the delay. Memory: 2 bytes for each plane and tile of distance, (2 columns - 1)(2
 * rows - 1) of them.
 */
public final class LowerBoundTable {
    /** Which vertices the table leads to. */
    public enum Goals {
        /** Pads. */
        PADS,
        /** Any pin or pad: weaker, but for goals of all kinds. */
        PINS
    }

    /**
     * Largest number of entries of one table: 128 million, a quarter of a gigabyte, and twice that
     * again while it is calculated.
     */
    private static final long MOST_ENTRIES = 1L << 27;

    private static final int LARGEST = DelayLines.LONGEST;
    private static final int UNREACHED = LARGEST + 1;

    /** Stands in {@link #add} for groups from which no goal can be reached. */
    private static final int NEVER = Integer.MAX_VALUE;

    private final int columns;
    private final int rows;
    private final int width;

    /** Number of planes. */
    private final int depth;

    /**
     * Cell by cell, the delays of all planes side by side: what is read together is together in
     * memory.
     */
    private final short[] delays;

    /** For each place (row of masked edges, or vertex): the number of its plane. */
    private final int[] plane;

    /** For each place: what is added to the plane's value. */
    private final int[] add;

    private final WireGroups.VertexPlaces places;

    private LowerBoundTable(
            Fabric fabric, WireGroups groups, Planes planes, Corner corner, Progress progress) {
        columns = fabric.columns();
        rows = fabric.rows();
        width = 2 * columns - 1;
        depth = planes.count;
        delays = new short[depth * width * (2 * rows - 1)];
        places = groups.places();
        plane = new int[groups.placeCount()];
        add = new int[groups.placeCount()];
        for (int i = 0; i < plane.length; i++) {
            int group = groups.groupAt(i);
            plane[i] = planes.planeOfGroup[group];
            add[i] = planes.addOfGroup[group];
        }
        fill(planes, corner, progress);
    }

    /**
     * Calculates the table of a fabric; empty when the fabric has too little order for one, or
     * would need too much memory. O(entries × steps of a group) for each pass of {@link
     * DelayLines}.
     *
     * @throws CancellationException when {@code progress} says so
     */
    static Optional<LowerBoundTable> of(
            Fabric fabric, WireGroups groups, Corner corner, Goals goals, Progress progress) {
        if (!groups.areSound()) {
            return Optional.empty();
        }
        Planes planes = new Planes(groups, corner, goals);
        long entries = (long) planes.count * (2L * fabric.columns() - 1) * (2L * fabric.rows() - 1);
        return entries > MOST_ENTRIES
                ? Optional.empty()
                : Optional.of(new LowerBoundTable(fabric, groups, planes, corner, progress));
    }

    /** Which groups share a plane, and the steps between planes, backwards. */
    private static final class Planes {
        final int[] planeOfGroup;
        final int[] addOfGroup;
        final int count;
        final List<List<WireGroups.Step>> stepsInto = new ArrayList<>();
        final List<Integer> goalPlanes = new ArrayList<>();

        Planes(WireGroups groups, Corner corner, Goals goals) {
            int n = groups.count();
            boolean[] goal = new boolean[n];
            for (int g = 0; g < n; g++) {
                goal[g] = goals == Goals.PADS ? groups.isPad(g) : !groups.isWire(g);
            }
            boolean[] alive = aliveGroups(groups, goal);
            List<List<WireGroups.Step>> out = new ArrayList<>();
            for (int g = 0; g < n; g++) {
                out.add(new ArrayList<>());
            }
            for (WireGroups.Step step : groups.steps()) {
                if (alive[step.from()] && alive[step.to()]) {
                    out.get(step.from()).add(step);
                }
            }
            int[] next = new int[n];
            Arrays.fill(next, Fabric.NOTHING);
            for (int g = 0; g < n; g++) {
                boolean single = !goal[g] && out.get(g).size() == 1;
                if (alive[g] && single) {
                    WireGroups.Step only = out.get(g).get(0);
                    if (only.dx() == 0 && only.dy() == 0 && only.to() != g) {
                        next[g] = only.to();
                    }
                }
            }
            cutCycles(next);
            planeOfGroup = new int[n];
            addOfGroup = new int[n];
            Arrays.fill(addOfGroup, NEVER);
            int planes = 0;
            for (int g = 0; g < n; g++) {
                if (alive[g] && next[g] == Fabric.NOTHING) {
                    addOfGroup[g] = 0;
                    planeOfGroup[g] = planes++;
                    if (goal[g]) {
                        goalPlanes.add(planeOfGroup[g]);
                    }
                }
            }
            count = planes;
            for (int g = 0; g < n; g++) {
                int sum = 0;
                int at = g;
                while (next[at] != Fabric.NOTHING) {
                    sum += out.get(at).get(0).delayPs(corner);
                    at = next[at];
                }
                if (at != g) {
                    planeOfGroup[g] = planeOfGroup[at];
                    addOfGroup[g] = sum;
                }
            }
            for (int p = 0; p < planes; p++) {
                stepsInto.add(new ArrayList<>());
            }
            for (int g = 0; g < n; g++) {
                if (alive[g] && next[g] == Fabric.NOTHING) {
                    for (WireGroups.Step step : out.get(g)) {
                        stepsInto.get(planeOfGroup[step.to()]).add(step);
                    }
                }
            }
        }

        /** Groups from which a goal can be reached at all. */
        private static boolean[] aliveGroups(WireGroups groups, boolean[] goal) {
            List<BitSet> into = new ArrayList<>();
            for (int g = 0; g < groups.count(); g++) {
                into.add(new BitSet());
            }
            for (WireGroups.Step step : groups.steps()) {
                into.get(step.to()).set(step.from());
            }
            boolean[] alive = goal.clone();
            IntArrayList open = new IntArrayList();
            for (int g = 0; g < alive.length; g++) {
                if (alive[g]) {
                    open.add(g);
                }
            }
            while (!open.isEmpty()) {
                into.get(open.popInt()).stream()
                        .filter(g -> !alive[g])
                        .forEach(
                                g -> {
                                    alive[g] = true;
                                    open.add(g);
                                });
            }
            return alive;
        }

        /**
         * A cycle of groups with one outgoing step leads nowhere; one of its groups must have its
         * own plane.
         */
        private static void cutCycles(int[] next) {
            for (int g = 0; g < next.length; g++) {
                int at = g;
                for (int i = 0; i <= next.length && at != Fabric.NOTHING; i++) {
                    at = next[at];
                    if (at == g) {
                        next[g] = Fabric.NOTHING;
                        at = Fabric.NOTHING;
                    }
                }
            }
        }
    }

    /** Least delays backwards from the goals, over planes and distances. */
    private void fill(Planes planes, Corner corner, Progress progress) {
        progress.report(-1, "calculating the table of least delays");
        int height = 2 * rows - 1;
        DelayLines lines = new DelayLines(width, height, depth);
        for (int p = 0; p < depth; p++) {
            for (WireGroups.Step step : planes.stepsInto.get(p)) {
                int delayPs = step.delayPs(corner) + planes.addOfGroup[step.to()];
                lines.addStep(planes.planeOfGroup[step.from()], p, step.dx(), step.dy(), delayPs);
            }
        }
        for (int goalPlane : planes.goalPlanes) {
            lines.addGoal(goalPlane, columns - 1, rows - 1);
        }
        lines.find(progress);
        for (int y = 0; y < height; y++) {
            for (int p = 0; p < depth; p++) {
                copy(lines.line(p, y), y * width * depth + p);
            }
        }
    }

    /** Copies the delays of one plane and row to where they are in the table. */
    private void copy(int[] line, int first) {
        int entry = first;
        for (int delay : line) {
            delays[entry] = (short) (delay == DelayLines.UNREACHED ? UNREACHED : delay);
            entry += depth;
        }
    }

    /** The bound towards a goal, which is of the kind that the table was computed for. */
    public Aim towards(Fabric fabric, int goal) {
        int tile = fabric.tile(goal);
        int goalCell = (fabric.row(tile) + rows - 1) * width + fabric.column(tile) + columns - 1;
        return new Aim(this, fabric::tile, goalCell);
    }

    /** Bytes of the table itself. */
    public long bytes() {
        return 2L * delays.length + 8L * plane.length;
    }

    /** The table with one goal. */
    public static final class Aim implements LowerBound {
        /** Zero everywhere; the object for "no table". */
        public static final Aim NONE = new Aim();

        private final IntUnaryOperator tileOf;
        private final WireGroups.VertexPlaces places;
        private final short[] delays;
        private final int[] plane;
        private final int[] add;
        private final int columns;
        private final int rimColumns;
        private final int depth;

        /** The number of the goal's own cell, from which that of a tile is counted. */
        private final int goalCell;

        private Aim(LowerBoundTable table, IntUnaryOperator tileOf, int goalCell) {
            this.tileOf = tileOf;
            this.goalCell = goalCell;
            places = table.places;
            delays = table.delays;
            plane = table.plane;
            add = table.add;
            columns = table.columns;
            rimColumns = table.width - table.columns;
            depth = table.depth;
        }

        private Aim() {
            tileOf = vertex -> 0;
            goalCell = 0;
            places = (tile, vertex) -> 0;
            delays = new short[1];
            plane = new int[1];
            add = new int[1];
            columns = 1;
            rimColumns = 0;
            depth = 1;
        }

        /** Where the cell for vertices that begin in a tile starts. */
        public int cell(int tile) {
            return (goalCell - tile - tile / columns * rimColumns) * depth;
        }

        /**
         * The bound for a place (a row of the masked edges, or a vertex) at a cell, or {@link
         * Integer#MAX_VALUE} when no route can lead to the goal.
         */
        public int at(int place, int cell) {
            int more = add[place];
            if (more == NEVER) {
                return NEVER;
            }
            int delay = delays[plane[place] + cell] & 0xffff;
            return delay == UNREACHED ? NEVER : Math.min(LARGEST, delay + more);
        }

        @Override
        public long at(int vertex) {
            int tile = tileOf.applyAsInt(vertex);
            int value = at(places.placeOf(tile, vertex), cell(tile));
            return value == NEVER ? CostModel.CLOSED : value;
        }
    }
}
