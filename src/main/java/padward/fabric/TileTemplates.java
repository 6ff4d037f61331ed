package padward.fabric;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

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
    final int[] edgeClass;

    /**
     * @param outgoing true for edges by source, false for edges by target
     */
    TileTemplates(TileGrid grid, DelayClasses classes, boolean outgoing) {
        this.grid = grid;
        this.classes = classes;
        Collector collector = new Collector(grid, classes, outgoing);
        int tiles = grid.columns * grid.rows;
        templateOfTile = new int[tiles];
        for (int tile = 0; tile < tiles; tile++) {
            templateOfTile[tile] = collector.template(tile);
        }
        templateStart = collector.templateStart.toIntArray();
        rowOfVertex = collector.rowOfVertex.toIntArray();
        collector.rowStart.add(collector.edgeStep.size());
        rowStart = collector.rowStart.toIntArray();
        edgeStep = collector.edgeStep.toIntArray();
        edgeLocal = collector.edgeLocal.toIntArray();
        edgeClass = collector.edgeClass.toIntArray();
    }

    /** Number of different templates. */
    int count() {
        return templateStart.length;
    }

    /** The row of a vertex. */
    int row(int tile, int local) {
        return rowOfVertex[templateStart[templateOfTile[tile]] + local];
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
        public int other() {
            return grid.vertexBase[tile + edgeStep[at]] + edgeLocal[at];
        }

        @Override
        public EdgeKind kind() {
            return classes.kind(edgeClass[at]);
        }

        @Override
        public int delayPs(Corner corner) {
            return classes.delayPs(edgeClass[at], corner);
        }
    }

    /** Collects templates; made for the construction only. */
    private static final class Collector {
        private record Edge(int step, int local, int delayClass) {}

        final IntArrayList templateStart = new IntArrayList();
        final IntArrayList rowOfVertex = new IntArrayList();
        final IntArrayList rowStart = new IntArrayList();
        final IntArrayList edgeStep = new IntArrayList();
        final IntArrayList edgeLocal = new IntArrayList();
        final IntArrayList edgeClass = new IntArrayList();
        private final Map<IntArrayList, Integer> known = new HashMap<>();
        private final Map<List<Edge>, Integer> knownRows = new HashMap<>();
        private final TileGrid grid;
        private final DelayClasses classes;
        private final boolean outgoing;
        private final boolean anyTwoWay;
        private final BoxEdges boxes;

        Collector(TileGrid grid, DelayClasses classes, boolean outgoing) {
            this.grid = grid;
            this.classes = classes;
            this.outgoing = outgoing;
            this.boxes = new BoxEdges(grid);
            this.anyTwoWay = grid.wires.stream().anyMatch(PatternSpec.WireKind::twoWay);
        }

        int template(int tile) {
            IntArrayList signature = signature(tile);
            Integer found = known.get(signature);
            if (found == null) {
                found = templateStart.size();
                build(tile);
                known.put(signature, found);
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
                    int head = grid.step(tile, wire.dx(), wire.dy());
                    if (!result.contains(head)) {
                        result.add(head);
                    }
                }
            }
            return result;
        }

        private IntArrayList signature(int tile) {
            IntArrayList result = new IntArrayList();
            for (int box : boxesAt(tile)) {
                result.add(grid.shapeOfTile[box]);
                for (PatternSpec.WireKind wire : grid.wires) {
                    // Outgoing edges lead to wires that start at the box, and into two-way wires
                    // from their far end; incoming ones come from wires that end there.
                    if (!outgoing || (anyTwoWay && wire.twoWay())) {
                        int owner = grid.step(box, -wire.dx(), -wire.dy());
                        result.add(owner < 0 ? Fabric.NOTHING : grid.shapeOfTile[owner]);
                    }
                }
            }
            return result;
        }

        private void build(int tile) {
            int size = grid.shape(tile).size();
            List<List<Edge>> rows = new ArrayList<>(size);
            for (int i = 0; i < size; i++) {
                rows.add(new ArrayList<>());
            }
            for (int box : boxesAt(tile)) {
                boxes.list(
                        box,
                        (fromTile, fromLocal, toTile, toLocal, kind, delay) -> {
                            int own = outgoing ? fromTile : toTile;
                            if (own == tile) {
                                int far = outgoing ? toTile : fromTile;
                                int farLocal = outgoing ? toLocal : fromLocal;
                                int ownLocal = outgoing ? fromLocal : toLocal;
                                addOnce(
                                        rows.get(ownLocal),
                                        new Edge(
                                                far - tile, farLocal, classes.intern(kind, delay)));
                            }
                        });
            }
            templateStart.add(rowOfVertex.size());
            for (List<Edge> row : rows) {
                rowOfVertex.add(rowNumber(row));
            }
        }

        private int rowNumber(List<Edge> row) {
            Integer found = knownRows.get(row);
            if (found == null) {
                found = rowStart.size();
                knownRows.put(row, found);
                rowStart.add(edgeStep.size());
                for (Edge edge : row) {
                    edgeStep.add(edge.step());
                    edgeLocal.add(edge.local());
                    edgeClass.add(edge.delayClass());
                }
            }
            return found;
        }

        /** Two rules may name the same pair; the quicker connection stands. */
        private void addOnce(List<Edge> row, Edge edge) {
            for (int i = 0; i < row.size(); i++) {
                Edge old = row.get(i);
                if (old.step() == edge.step() && old.local() == edge.local()) {
                    if (classes.delayPs(edge.delayClass(), Corner.SLOW)
                            < classes.delayPs(old.delayClass(), Corner.SLOW)) {
                        row.set(i, edge);
                    }
                    return;
                }
            }
            row.add(edge);
        }
    }
}
