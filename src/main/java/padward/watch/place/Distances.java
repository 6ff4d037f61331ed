package padward.watch.place;

import java.util.Arrays;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/** How far tiles are from nets and pads, along the axes, in tiles. */
final class Distances {
    private static final int FAR = 1 << 20;

    private final Fabric fabric;
    private final int[][] bySource;
    private final int[][] byOutput;

    /**
     * @param pads index of the pad for each output
     */
    Distances(Connections connections, Fabric fabric, int[] pads) {
        this.fabric = fabric;
        this.bySource = new int[connections.sources().size()][];
        for (int s = 0; s < bySource.length; s++) {
            Source source = connections.sources().get(s);
            if (source instanceof Source.OfNet of) {
                bySource[s] = spread(of.net());
            } else if (source instanceof Source.OfPad of) {
                bySource[s] = spread(of.pad());
            }
        }
        this.byOutput = Arrays.stream(pads).mapToObj(this::spread).toArray(int[][]::new);
    }

    private int[] spread(int pad) {
        Pad there = fabric.pads().get(pad);
        return spread(new int[] {there.tile()});
    }

    private int[] spread(Net net) {
        return spread(
                Arrays.stream(net.route().toVertices())
                        .flatMap(v -> Arrays.stream(fabric.tapTiles(v)))
                        .distinct()
                        .toArray());
    }

    /** Two passes over the grid, forwards and backwards; exact for steps along the axes. */
    private int[] spread(int[] tiles) {
        int[] far = new int[fabric.tileCount()];
        Arrays.fill(far, FAR);
        for (int tile : tiles) {
            far[tile] = 0;
        }
        int columns = fabric.columns();
        for (int tile = 0; tile < far.length; tile++) {
            if (tile % columns > 0) {
                far[tile] = Math.min(far[tile], far[tile - 1] + 1);
            }
            if (tile >= columns) {
                far[tile] = Math.min(far[tile], far[tile - columns] + 1);
            }
        }
        for (int tile = far.length - 1; tile >= 0; tile--) {
            if (tile % columns < columns - 1) {
                far[tile] = Math.min(far[tile], far[tile + 1] + 1);
            }
            if (tile + columns < far.length) {
                far[tile] = Math.min(far[tile], far[tile + columns] + 1);
            }
        }
        return far;
    }

    /** From a net or pad that a circuit reads. */
    int fromSource(int source, int tile) {
        return bySource[source][tile];
    }

    /** To the pad of an output. */
    int toOutput(int output, int tile) {
        return byOutput[output][tile];
    }

    int between(int tile, int other) {
        return Math.abs(fabric.column(tile) - fabric.column(other))
                + Math.abs(fabric.row(tile) - fabric.row(other));
    }
}
