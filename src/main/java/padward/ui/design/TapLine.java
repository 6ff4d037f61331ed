package padward.ui.design;

import padward.fabric.Fabric;

/** The line on which all taps of a wire are, wherever the wire begins. */
enum TapLine {
    /** In several tiles of one row. */
    ROW,
    /** In several tiles of one column. */
    COLUMN,
    /** In one tile. */
    TILE,
    /** Neither in one row nor in one column: the wire turns. */
    NONE;

    /**
     * That of a wire. O(taps) time, no memory.
     *
     * @param taps the tiles of its taps, at least one
     */
    static TapLine of(Fabric fabric, int[] taps) {
        int row = fabric.row(taps[0]);
        int column = fabric.column(taps[0]);
        boolean inRow = true;
        boolean inColumn = true;
        for (int i = 1; i < taps.length && (inRow || inColumn); i++) {
            inRow &= fabric.row(taps[i]) == row;
            inColumn &= fabric.column(taps[i]) == column;
        }
        if (inRow) {
            return inColumn ? TILE : ROW;
        }
        return inColumn ? COLUMN : NONE;
    }

    /** Whether it leads straight from tile to tile. */
    boolean isStraight() {
        return this == ROW || this == COLUMN;
    }

    /**
     * Whether taps in a row or column follow each other in one direction, each in a tile of its
     * own.
     */
    static boolean goOneWay(int[] taps) {
        boolean rises = taps[0] < taps[taps.length - 1];
        for (int i = 1; i < taps.length; i++) {
            if (taps[i] == taps[i - 1] || taps[i - 1] < taps[i] != rises) {
                return false;
            }
        }
        return true;
    }
}
