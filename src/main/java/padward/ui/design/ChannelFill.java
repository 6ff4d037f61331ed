package padward.ui.design;

import padward.design.Occupancy;
import padward.fabric.Fabric;

/**
 * How full each tile is, and each of the two channels that pass through it: the share of the wires
 * there that nets hold. A wire counts in every tile that it passes, the ones of its two ends
 * included. O(vertices + tiles).
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

    /** Share of the wires that begin in a tile, 0 to 1. */
    public float of(int tile) {
        return whole[tile];
    }

    /** Share of the wires of the row's channel that pass a tile, 0 to 1. */
    public float across(int tile) {
        return across[tile];
    }

    /** Share of the wires of the column's channel that pass a tile, 0 to 1. */
    public float along(int tile) {
        return along[tile];
    }

    /** Counts wires where they begin and where they end, and adds up afterwards. */
    private static final class Passing {
        private final int step;
        private final int[] begin;
        private final int[] end;
        private final int[] usedBegin;
        private final int[] usedEnd;

        /**
         * @param step from one tile to the next of the same channel
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
