package padward.synth;

import java.util.Arrays;
import java.util.Comparator;
import padward.fabric.Fabric;

/**
 * Sites in the order of a space-filling curve, so that sites near each other in the order are near
 * each other on the chip (Bartholdi and Platzman, "An O(N log N) planar travelling salesman
 * heuristic based on spacefilling curves", Operations Research Letters 1(4), 1982; the curve is
 * Hilbert's, Math. Annalen 38, 1891). Connected cells that are placed one after the other then lie
 * close together.
 */
final class HilbertOrder {
    private HilbertOrder() {}

    /** Sites sorted along the curve over the grid. */
    static int[] sort(Fabric fabric, int[] sites) {
        int side = Integer.highestOneBit(Math.max(fabric.columns(), fabric.rows())) * 2;
        Integer[] boxed = Arrays.stream(sites).boxed().toArray(Integer[]::new);
        long[] keys = new long[fabric.siteCount()];
        for (int site : sites) {
            int tile = fabric.site(site).tile();
            keys[site] = key(side, fabric.column(tile), fabric.row(tile));
        }
        Arrays.sort(boxed, Comparator.<Integer>comparingLong(s -> keys[s]).thenComparing(s -> s));
        return Arrays.stream(boxed).mapToInt(Integer::intValue).toArray();
    }

    /** Distance along the curve of a cell in a square of {@code side} cells, a power of two. */
    static long key(int side, int column, int row) {
        int x = column;
        int y = row;
        long distance = 0;
        for (int s = side / 2; s > 0; s /= 2) {
            int rx = (x & s) > 0 ? 1 : 0;
            int ry = (y & s) > 0 ? 1 : 0;
            distance += (long) s * s * ((3 * rx) ^ ry);
            if (ry == 0) {
                if (rx == 1) {
                    x = side - 1 - x;
                    y = side - 1 - y;
                }
                int swap = x;
                x = y;
                y = swap;
            }
        }
        return distance;
    }
}
