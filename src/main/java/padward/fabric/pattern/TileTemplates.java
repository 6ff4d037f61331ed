package padward.fabric.pattern;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntIntPair;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.fabric.DelayClasses;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * The edges of a pattern fabric in one direction, stored once per kind of surroundings instead of
 * once per tile. Two tiles share a template when their own shape and the shapes of all tiles that
 * their edges can lead to are the same; an edge is then (step in tiles, local vertex, delay class).
 *
 * <p>Memory: 4 bytes per tile plus the templates, of which there are some dozens whatever the size
 * of the grid.
 */
final class TileTemplates {
    private final TileGrid grid;
    private final DelayClasses classes;
    final int[] templateOfTile;

    /** Where a template's vertices begin in {@link #rowOfVertex}. */
    final int[] templateStart;

    /** For each template and local vertex, its row; vertices with equal edges share one. */
    private final int[] rowOfVertex;

    /** For each row, where its edges begin; the next entry ends them. */
    final int[] rowStart;

    final int[] edgeStep;
    final int[] edgeLocal;

    /** The delay class of each edge, where all are small numbers, as they are nearly always. */
    private final char[] smallClass;

    /** The delay class of each edge where they are not, else empty. */
    private final int[] anyClass;

    /**
     * @param outgoing true for edges by source, false for edges by target
     * @param progress asked at each tile whether to stop
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    TileTemplates(TileGrid grid, DelayClasses classes, boolean outgoing, Progress progress) {
        this.grid = grid;
        this.classes = classes;
        Collector collector = new Collector(grid, classes, outgoing);
        int tiles = grid.columns * grid.rows;
        templateOfTile = new int[tiles];
        for (int tile = 0; tile < tiles; tile++) {
            progress.check();
            templateOfTile[tile] = collector.template(tile);
        }
        templateStart = collector.templateStart.toIntArray();
        rowOfVertex = collector.rowOfVertex.toIntArray();
        collector.rowStart.add(collector.edgeStep.size());
        rowStart = collector.rowStart.toIntArray();
        edgeStep = collector.edgeStep.toIntArray();
        edgeLocal = collector.edgeLocal.toIntArray();
        boolean small = classes.count() <= Character.MAX_VALUE + 1;
        smallClass = new char[small ? edgeStep.length : 0];
        for (int edge = 0; edge < smallClass.length; edge++) {
            smallClass[edge] = (char) collector.edgeClass.getInt(edge);
        }
        anyClass = small ? new int[0] : collector.edgeClass.toIntArray();
    }

    /** Number of different templates. */
    int count() {
        return templateStart.length;
    }

    /** The row of a vertex. */
    int row(int tile, int local) {
        return rowOfVertex[templateStart[templateOfTile[tile]] + local];
    }

    /** The delay class of an edge. */
    int edgeClass(int edge) {
        return anyClass.length == 0 ? smallClass[edge] : anyClass[edge];
    }

    /** Bytes of the arrays. */
    long bytes() {
        int perVertex = templateOfTile.length + templateStart.length + rowOfVertex.length;
        int perEdge = edgeStep.length + edgeLocal.length + anyClass.length;
        return 4L * (perVertex + rowStart.length + perEdge) + 2L * smallClass.length;
    }

    EdgeCursor cursor() {
        return new Cursor();
    }

    private final class Cursor implements EdgeCursor {
        private int tile;
        private int at;
        private int end;

        @Override
        public void reset(int vertex) {
            tile = grid.tileOf(vertex);
            int row = row(tile, vertex - grid.vertexBase[tile]);
            at = rowStart[row] - 1;
            end = rowStart[row + 1];
        }

        @Override
        public boolean next() {
            return ++at < end;
        }

        @Override
        public boolean reset(int vertex, int place) {
            reset(vertex);
            at = (int) Math.min(end, at + 1L + place);
            return at < end;
        }

        @Override
        public int other() {
            return grid.vertexBase[tile + edgeStep[at]] + edgeLocal[at];
        }

        @Override
        public EdgeKind kind() {
            return classes.kind(edgeClass(at));
        }

        @Override
        public int delayPs(Corner corner) {
            return classes.delayPs(edgeClass(at), corner);
        }
    }

    /** Collects templates; made for the construction only. */
    private static final class Collector {
        final IntArrayList templateStart = new IntArrayList();
        final IntArrayList rowOfVertex = new IntArrayList();
        final IntArrayList rowStart = new IntArrayList();
        final IntArrayList edgeStep = new IntArrayList();
        final IntArrayList edgeLocal = new IntArrayList();
        final IntArrayList edgeClass = new IntArrayList();
        private final Map<IntArrayList, Integer> known = new HashMap<>();
        private final Map<IntArrayList, Integer> knownRows = new HashMap<>();
        private final IntArrayList signature = new IntArrayList();

        /** For each shape, pairs of steps in columns and rows. */
        private final Int2ObjectOpenHashMap<int[]> around = new Int2ObjectOpenHashMap<>();

        private final TileGrid grid;
        private final DelayClasses classes;
        private final boolean outgoing;
        private final boolean anyTwoWay;
        private final BoxEdges boxes;

        Collector(TileGrid grid, DelayClasses classes, boolean outgoing) {
            this.grid = grid;
            this.classes = classes;
            this.outgoing = outgoing;
            this.boxes = new BoxEdges(grid, classes);
            this.anyTwoWay = grid.wires.stream().anyMatch(PatternSpec.WireKind::twoWay);
        }

        int template(int tile) {
            IntArrayList signature = signature(tile);
            Integer found = known.get(signature);
            if (found == null) {
                found = templateStart.size();
                build(tile);
                known.put(signature.clone(), found);
            }
            return found;
        }

        /** The boxes whose edges can begin (or, for incoming edges, end) in a tile. */
        private IntArrayList boxesAt(int tile) {
            IntArrayList result = new IntArrayList();
            result.add(tile);
            TileShape shape = grid.shape(tile);
            for (int kind : shape.model.wireKinds) {
                PatternSpec.WireKind wire = grid.wires.get(kind);
                if (shape.wireStart(kind) >= 0 && (outgoing || wire.twoWay())) {
                    for (int exit = 0; exit < wire.exits(); exit++) {
                        int box = grid.step(tile, wire.exitDx(exit), wire.exitDy(exit));
                        if (!result.contains(box)) {
                            result.add(box);
                        }
                    }
                }
            }
            return result;
        }

        /**
         * The shapes of all tiles that the edges of a tile depend on, its own shape first. The list
         * is used again for the next tile.
         */
        private IntArrayList signature(int tile) {
            signature.clear();
            int shape = grid.shapeOfTile[tile];
            signature.add(shape);
            int column = tile % grid.columns;
            int row = tile / grid.columns;
            int[] steps = around.computeIfAbsent(shape, s -> stepsAround(tile));
            for (int i = 0; i < steps.length; i += 2) {
                int x = column + steps[i];
                int y = row + steps[i + 1];
                boolean inside = x >= 0 && y >= 0 && x < grid.columns && y < grid.rows;
                signature.add(inside ? grid.shapeOfTile[y * grid.columns + x] : Fabric.NOTHING);
            }
            return signature;
        }

        /** Steps from a tile to those that its edges depend on; equal for tiles of one shape. */
        private int[] stepsAround(int tile) {
            Set<IntIntPair> result = new LinkedHashSet<>();
            for (int box : boxesAt(tile)) {
                int dx = box % grid.columns - tile % grid.columns;
                int dy = box / grid.columns - tile / grid.columns;
                result.add(IntIntPair.of(dx, dy));
                for (PatternSpec.WireKind wire : grid.wires) {
                    // Outgoing edges lead to wires that start at the box, and into bidirectional
                    // wires elsewhere than at their start; incoming ones come from wires that end
                    // or have a tap there.
                    if (!outgoing || (anyTwoWay && wire.twoWay())) {
                        for (int exit = 0; exit < wire.exits(); exit++) {
                            result.add(
                                    IntIntPair.of(dx - wire.exitDx(exit), dy - wire.exitDy(exit)));
                        }
                    }
                }
            }
            return result.stream()
                    .flatMapToInt(step -> IntStream.of(step.leftInt(), step.rightInt()))
                    .toArray();
        }

        private void build(int tile) {
            int size = grid.shape(tile).size();
            List<EdgeRow> rows = new ArrayList<>(size);
            for (int i = 0; i < size; i++) {
                rows.add(new EdgeRow(classes));
            }
            for (int box : boxesAt(tile)) {
                boxes.list(
                        box,
                        tile,
                        outgoing,
                        (fromTile, fromLocal, toTile, toLocal, delayClass) -> {
                            int far = outgoing ? toTile : fromTile;
                            int farLocal = outgoing ? toLocal : fromLocal;
                            int ownLocal = outgoing ? fromLocal : toLocal;
                            rows.get(ownLocal).add(far - tile, farLocal, delayClass);
                        });
            }
            templateStart.add(rowOfVertex.size());
            for (EdgeRow row : rows) {
                rowOfVertex.add(rowNumber(row.all()));
            }
        }

        private int rowNumber(IntArrayList row) {
            Integer found = knownRows.get(row);
            if (found == null) {
                found = rowStart.size();
                knownRows.put(row, found);
                rowStart.add(edgeStep.size());
                for (int i = 0; i < row.size(); i += EdgeRow.EDGE) {
                    edgeStep.add(row.getInt(i));
                    edgeLocal.add(row.getInt(i + 1));
                    edgeClass.add(row.getInt(i + 2));
                }
            }
            return found;
        }
    }
}
