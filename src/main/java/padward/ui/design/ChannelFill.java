package padward.ui.design;

import padward.design.Occupancy;
import padward.fabric.Fabric;

/**
 * How full each tile is, and each of the two channels through it: the share of their wires that
 * nets use. A wire counts in every tile that it passes, including those of its two ends. O(vertices
 * + tiles).
 */
public final class ChannelFill {
    private final float[] whole;
    private final float[] across;
    private final float[] along;

    ChannelFill(Fabric fabric, TileIndex index, Occupancy occupancy) {
        int tiles = fabric.tileCount();
        whole = new float[tiles];
        Passing rows = new Passing(tiles, 1);
        Passing columns = new Passing(tiles, fabric.columns());
        for (int tile = 0; tile < tiles; tile++) {
            int wires = 0;
            int used = 0;
            for (int i = index.first(tile); i < index.first(tile + 1); i++) {
                int vertex = index.vertex(i);
                int head = index.head(vertex);
                if (head == Fabric.NOTHING) {
                    continue;
                }
                boolean isUsed = occupancy.isOccupied(vertex);
                wires++;
                used += isUsed ? 1 : 0;
                if (head != tile && fabric.row(head) == fabric.row(tile)) {
                    rows.add(tile, head, isUsed);
                } else if (head != tile && fabric.column(head) == fabric.column(tile)) {
                    columns.add(tile, head, isUsed);
                }
            }
            whole[tile] = wires == 0 ? 0 : (float) used / wires;
        }
        across = rows.shares(fabric.columns(), tiles / fabric.columns());
        along = columns.shares(tiles / fabric.columns(), fabric.columns());
    }

    /** Share of the wires starting in a tile that are used, 0 to 1. */
    public float of(int tile) {
        return whole[tile];
    }

    /** Share of the wires along the row through a tile that are used, 0 to 1. */
    public float across(int tile) {
        return across[tile];
    }

    /** Share of the wires along the column through a tile that are used, 0 to 1. */
    public float along(int tile) {
        return along[tile];
    }

    /** Counts wires at both of their ends and adds the counts up along the channel afterwards. */
    private static final class Passing {
        private final int step;
        private final int[] begin;
        private final int[] end;
        private final int[] usedBegin;
        private final int[] usedEnd;

        /**
         * @param step from one tile to the next of the same channel, as a difference of tile
         *     numbers
         */
        Passing(int tiles, int step) {
            this.step = step;
            this.begin = new int[tiles];
            this.end = new int[tiles];
            this.usedBegin = new int[tiles];
            this.usedEnd = new int[tiles];
        }

        void add(int from, int to, boolean isUsed) {
            begin[Math.min(from, to)]++;
            end[Math.max(from, to)]++;
            if (isUsed) {
                usedBegin[Math.min(from, to)]++;
                usedEnd[Math.max(from, to)]++;
            }
        }

        float[] shares(int length, int channels) {
            float[] result = new float[length * channels];
            for (int channel = 0; channel < channels; channel++) {
                int passing = 0;
                int used = 0;
                int tile = step == 1 ? channel * length : channel;
                for (int at = 0; at < length; at++, tile += step) {
                    passing += begin[tile];
                    used += usedBegin[tile];
                    result[tile] = passing == 0 ? 0 : (float) used / passing;
                    passing -= end[tile];
                    used -= usedEnd[tile];
                }
            }
            return result;
        }
    }
}
