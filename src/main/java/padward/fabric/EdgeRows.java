package padward.fabric;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.Arrays;

/**
 * Edges of an explicit fabric in one direction, as compressed rows. A row holds (difference of
 * vertex numbers, delay class) pairs; equal rows, which repeated tiles have in plenty, are stored
 * once. Costs 4 bytes a vertex and 8 bytes an edge of each distinct row.
 */
final class EdgeRows {
    private final DelayClasses classes;
    private final int[] rowOfVertex;
    private final int[] rowStart;
    private final int[] difference;
    private final int[] edgeClass;

    private EdgeRows(
            DelayClasses classes,
            int[] rowOfVertex,
            int[] rowStart,
            int[] difference,
            int[] edgeClass) {
        this.classes = classes;
        this.rowOfVertex = rowOfVertex;
        this.rowStart = rowStart;
        this.difference = difference;
        this.edgeClass = edgeClass;
    }

    /** Sorts edges by their own end and interns the rows. O(vertices + edges). */
    static EdgeRows of(int vertices, int[] own, int[] far, int[] kinds, DelayClasses classes) {
        int[] start = new int[vertices + 1];
        for (int vertex : own) {
            start[vertex + 1]++;
        }
        for (int v = 0; v < vertices; v++) {
            start[v + 1] += start[v];
        }
        int[] order = new int[own.length];
        int[] next = Arrays.copyOf(start, vertices);
        for (int edge = 0; edge < own.length; edge++) {
            order[next[own[edge]]++] = edge;
        }
        Object2IntOpenHashMap<IntArrayList> known = new Object2IntOpenHashMap<>();
        IntArrayList rowStart = new IntArrayList();
        IntArrayList difference = new IntArrayList();
        IntArrayList edgeClass = new IntArrayList();
        int[] rowOfVertex = new int[vertices];
        for (int v = 0; v < vertices; v++) {
            IntArrayList row = new IntArrayList(2 * (start[v + 1] - start[v]));
            for (int i = start[v]; i < start[v + 1]; i++) {
                row.add(far[order[i]] - v);
                row.add(kinds[order[i]]);
            }
            int number = known.getOrDefault(row, Fabric.NOTHING);
            if (number == Fabric.NOTHING) {
                number = rowStart.size();
                known.put(row, number);
                rowStart.add(difference.size());
                for (int i = 0; i < row.size(); i += 2) {
                    difference.add(row.getInt(i));
                    edgeClass.add(row.getInt(i + 1));
                }
            }
            rowOfVertex[v] = number;
        }
        rowStart.add(difference.size());
        return new EdgeRows(
                classes,
                rowOfVertex,
                rowStart.toIntArray(),
                difference.toIntArray(),
                edgeClass.toIntArray());
    }

    EdgeCursor cursor() {
        return new Cursor();
    }

    private final class Cursor implements EdgeCursor {
        private int vertex;
        private int at;
        private int end;

        @Override
        public void reset(int start) {
            vertex = start;
            int row = rowOfVertex[start];
            at = rowStart[row] - 1;
            end = rowStart[row + 1];
        }

        @Override
        public boolean next() {
            return ++at < end;
        }

        @Override
        public int other() {
            return vertex + difference[at];
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
}
