package padward.fabric.explicit;

import java.io.IOException;
import padward.fabric.Fabric;
import padward.fabric.array.InternedBytes;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The names that wires have at their taps in addition to their own. 12 bytes a name and a table of
 * 5 to 11 more; the texts are in the pool. Safe for all threads.
 */
final class TapNames {
    private final int columns;
    private final int rows;
    private final InternedBytes pool;
    private final NameIndex names;
    private final int[] vertexByName;

    TapNames(int columns, int rows, InternedBytes pool, NameIndex names, int[] vertexByName) {
        this.columns = columns;
        this.rows = rows;
        this.pool = pool;
        this.names = names;
        this.vertexByName = vertexByName;
    }

    /** The vertex of a name, or {@link Fabric#NOTHING}. O(length). */
    int find(String name) {
        if (vertexByName.length == 0) {
            return Fabric.NOTHING;
        }
        int found = names.find(new TileRelativeName(columns, rows).of(name));
        return found == Fabric.NOTHING ? Fabric.NOTHING : vertexByName[found];
    }

    /** What a vertex that begins in a tile is called at a tap. */
    String name(int vertex, int tile, TapStep tap, TileNames own) {
        return tap.rest() == Fabric.NOTHING
                ? own.name(vertex)
                : TileRelativeName.join(
                        pool.bytes(),
                        pool.start(tap.rest()),
                        pool.end(tap.rest()),
                        tile + tap.nameStep(),
                        columns);
    }

    /** Bytes of the arrays, without the pool. */
    long memory() {
        return 4L * vertexByName.length + names.memory();
    }

    void write(CompactOut out) throws IOException {
        names.write(out);
        out.numbers(vertexByName);
    }

    static TapNames read(CompactIn in, int columns, int rows, InternedBytes pool, int vertices)
            throws IOException {
        NameIndex names = NameIndex.read(in, columns, columns * rows, pool);
        int[] vertexByName = in.numbers(0, vertices - 1);
        Damaged.unless(vertexByName.length == names.size(), "names at taps");
        return new TapNames(columns, rows, pool, names, vertexByName);
    }
}
