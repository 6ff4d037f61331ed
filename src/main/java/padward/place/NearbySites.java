package padward.place;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import java.util.Random;
import padward.fabric.Fabric;

/** Draws spots of one group near a place: column by column, each sorted by row. */
final class NearbySites {
    private final int[] columns;
    private final int[][] rows;
    private final int[][] spotsOfColumn;

    NearbySites(Fabric fabric, PlacementSites sites, int group) {
        IntArrayList[] byColumn = new IntArrayList[fabric.columns()];
        for (int spot = 0; spot < sites.count(); spot++) {
            if (sites.accepts(spot, group)) {
                int column = fabric.column(sites.tile(spot));
                if (byColumn[column] == null) {
                    byColumn[column] = new IntArrayList();
                }
                byColumn[column].add(spot);
            }
        }
        IntArrayList used = new IntArrayList();
        for (int x = 0; x < byColumn.length; x++) {
            if (byColumn[x] != null) {
                used.add(x);
            }
        }
        columns = used.toIntArray();
        rows = new int[columns.length][];
        spotsOfColumn = new int[columns.length][];
        for (int i = 0; i < columns.length; i++) {
            IntArrayList own = byColumn[columns[i]];
            own.sort(
                    (a, b) ->
                            Integer.compare(fabric.row(sites.tile(a)), fabric.row(sites.tile(b))));
            spotsOfColumn[i] = own.toIntArray();
            rows[i] = own.intStream().map(s -> fabric.row(sites.tile(s))).toArray();
        }
    }

    /** A spot within that many columns and rows; {@link Fabric#NOTHING} when none was found. */
    int draw(int column, int row, int range, Random random) {
        int first = from(columns, column - range);
        int last = from(columns, column + range + 1);
        if (first == last) {
            return Fabric.NOTHING;
        }
        int i = first + random.nextInt(last - first);
        int low = from(rows[i], row - range);
        int high = from(rows[i], row + range + 1);
        return low == high ? Fabric.NOTHING : spotsOfColumn[i][low + random.nextInt(high - low)];
    }

    /** The first place whose value is at least that. */
    private static int from(int[] sorted, int value) {
        int at = Arrays.binarySearch(sorted, value);
        if (at < 0) {
            return -at - 1;
        }
        while (at > 0 && sorted[at - 1] == value) {
            at--;
        }
        return at;
    }
}
