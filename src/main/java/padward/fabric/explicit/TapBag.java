package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.Fabric;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.Interner;

/**
 * Taps as they come, in any order of their wires, and the names that wires have there. 12 bytes a
 * tap, and some 20 for each name. Belongs to one thread.
 */
final class TapBag {
    private final NameIndex names;
    private final IntArrayList vertexOfName = new IntArrayList();
    private final IntArrayList vertices = new IntArrayList();
    private final IntArrayList tiles = new IntArrayList();
    private final IntArrayList nameOfTap = new IntArrayList();

    TapBag(int columns, InternedBytes pool) {
        this.names = new NameIndex(columns, pool);
    }

    boolean isEmpty() {
        return vertices.isEmpty();
    }

    /** The vertex that has a name at a tap, or {@link Fabric#NOTHING}. */
    int find(TileRelativeName name) {
        if (vertexOfName.isEmpty()) {
            return Fabric.NOTHING; // most fabrics have none, and each of their names is asked for
        }
        int found = names.find(name);
        return found == Fabric.NOTHING ? Fabric.NOTHING : vertexOfName.getInt(found);
    }

    /** Adds a tap at which the wire has its own name. */
    void add(int vertex, int tile) {
        add(vertex, tile, Fabric.NOTHING);
    }

    /** Adds a tap with a name that no other vertex has; the same vertex may have it already. */
    void add(int vertex, int tile, TileRelativeName name) {
        int known = names.find(name);
        if (known == Fabric.NOTHING) {
            known = names.add(name);
            vertexOfName.add(vertex);
        }
        add(vertex, tile, known);
    }

    private void add(int vertex, int tile, int name) {
        vertices.add(vertex);
        tiles.add(tile);
        nameOfTap.add(name);
    }

    /**
     * For each vertex its sort, with its taps where it has some.
     *
     * @param sorts the sorts without taps, to which those with taps are added
     * @param sortOf for each vertex its sort without taps
     * @param begins for each vertex the tile in which it begins
     */
    int[] sortsWithTaps(
            Interner<VertexClasses.Sort> sorts, IntArrayList sortOf, IntArrayList begins) {
        int[] result = sortOf.toIntArray();
        if (isEmpty()) {
            return result;
        }
        TileOffsets ranges =
                TileOffsets.counting(result.length, vertices.elements(), vertices.size());
        int[] order = ranges.order(vertices.elements(), vertices.size());
        List<VertexClasses.Sort> plain = sorts.values();
        for (int vertex = 0; vertex < result.length; vertex++) {
            int size = ranges.size(vertex);
            if (size > 0) {
                List<TapStep> steps = new ArrayList<>();
                for (int i = 0; i < size; i++) {
                    steps.add(step(order[ranges.first(vertex) + i], begins.getInt(vertex)));
                }
                VertexClasses.Sort sort = plain.get(result[vertex]);
                result[vertex] =
                        sorts.number(new VertexClasses.Sort(sort.kind(), sort.wireKind(), steps));
            }
        }
        return result;
    }

    private TapStep step(int tap, int begin) {
        int name = nameOfTap.getInt(tap);
        int tileStep = tiles.getInt(tap) - begin;
        if (name == Fabric.NOTHING) {
            return new TapStep(tileStep, 0, Fabric.NOTHING);
        }
        int stated = names.tile(name);
        return new TapStep(
                tileStep, stated == Fabric.NOTHING ? 0 : stated - begin, names.rest(name));
    }

    /**
     * The names, once no tap is added any more.
     *
     * @param number the vertices' final numbers
     */
    TapNames freeze(int columns, int rows, InternedBytes pool, int[] number) {
        names.trim();
        int[] vertexByName = vertexOfName.intStream().map(v -> number[v]).toArray();
        return new TapNames(columns, rows, pool, names, vertexByName);
    }
}
