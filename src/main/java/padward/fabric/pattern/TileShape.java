package padward.fabric.pattern;

import java.util.Arrays;
import padward.fabric.Fabric;

/**
 * Which vertices one tile has, in the order of their local numbers: the wires that start there,
 * kind by kind, then the pins of its sites, then its pads. Tiles of one type differ only in the
 * wires that the rim cuts off.
 */
final class TileShape {
    final TileModel model;

    /**
     * First local number by kind of wire, {@link Fabric#NOTHING} for kinds that do not start here.
     */
    private final int[] wireStart;

    /** The kind of wire of each run, and the first local number of the run. */
    private final int[] runKind;

    private final int[] runStart;
    final int wireCount;

    TileShape(TileModel model, int kinds, boolean[] exists, int[] countByKind) {
        this.model = model;
        wireStart = new int[kinds];
        Arrays.fill(wireStart, Fabric.NOTHING);
        int[] runs = new int[model.wireKinds.length];
        int[] starts = new int[model.wireKinds.length];
        int used = 0;
        int next = 0;
        for (int kind : model.wireKinds) {
            if (exists[kind]) {
                wireStart[kind] = next;
                runs[used] = kind;
                starts[used++] = next;
                next += countByKind[kind];
            }
        }
        runKind = Arrays.copyOf(runs, used);
        runStart = Arrays.copyOf(starts, used);
        wireCount = next;
    }

    /** Number of vertices. */
    int size() {
        return wireCount + model.pinCount + model.pads.size();
    }

    /** Local number of the first wire of a kind, or {@link Fabric#NOTHING}. */
    int wireStart(int kind) {
        return wireStart[kind];
    }

    /** Kind of the wire with a local number below {@link #wireCount}. O(kinds). */
    int kindOfWire(int local) {
        int run = runStart.length - 1;
        while (runStart[run] > local) {
            run--;
        }
        return runKind[run];
    }

    /** Local number of the pin at an offset among the tile's pins. */
    int pin(int offset) {
        return wireCount + offset;
    }

    /** Local number of a pad. */
    int pad(int index) {
        return wireCount + model.pinCount + index;
    }
}
