package padward.ui;

import padward.design.Occupancy;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/** The vertices of each tile, and how full each tile's wires are. Built off the UI thread. */
final class TileIndex {
    private final int[] first;
    private final int[] vertices;
    private final int[] places;
    private final float[] fill;
    private final int reach;

    /** O(vertices). */
    TileIndex(Fabric fabric, Occupancy occupancy) {
        int tiles = fabric.tileCount();
        int count = fabric.vertexCount();
        first = new int[tiles + 1];
        vertices = new int[count];
        places = new int[count];
        fill = new float[tiles];
        int farthest = 0;
        int[] wires = new int[tiles];
        int[] held = new int[tiles];
        for (int v = 0; v < count; v++) {
            int tile = fabric.tile(v);
            places[v] = first[tile + 1]++;
            if (fabric.kind(v) == VertexKind.WIRE) {
                int head = fabric.headTile(v);
                if (head != tile) {
                    int dx = Math.abs(fabric.column(head) - fabric.column(tile));
                    int dy = Math.abs(fabric.row(head) - fabric.row(tile));
                    farthest = Math.max(farthest, Math.max(dx, dy));
                }
                wires[tile]++;
                held[tile] += occupancy.isOccupied(v) ? 1 : 0;
            }
        }
        reach = farthest;
        for (int t = 0; t < tiles; t++) {
            first[t + 1] += first[t];
            fill[t] = wires[t] == 0 ? 0 : (float) held[t] / wires[t];
        }
        for (int v = 0; v < count; v++) {
            vertices[first[fabric.tile(v)] + places[v]] = v;
        }
    }

    int first(int tile) {
        return first[tile];
    }

    int vertex(int position) {
        return vertices[position];
    }

    /** Place of a vertex among those of its tile. */
    int placeOf(int vertex) {
        return places[vertex];
    }

    /** How many tiles the longest wire spans. */
    int reach() {
        return reach;
    }

    /** Share of a tile's wires that nets hold, 0 to 1. */
    float fill(int tile) {
        return fill[tile];
    }
}
