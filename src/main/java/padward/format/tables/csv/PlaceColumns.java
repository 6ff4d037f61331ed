package padward.format.tables.csv;

import java.util.ArrayList;
import java.util.List;
import padward.fabric.FabricLimits;
import padward.format.source.Text;

/** The columns in which a table says where something is. */
public final class PlaceColumns {
    private static final int UNKNOWN = -1;

    private final CsvTable table;
    private final CsvTable.Column tile;
    private final CsvTable.Column column;
    private final CsvTable.Column row;

    /**
     * @param prefix what the columns' names begin with, {@code to_} or nothing
     */
    public PlaceColumns(CsvTable table, String prefix) {
        this.table = table;
        this.tile = table.column(prefix + "tile");
        this.column = table.column(prefix + "column");
        this.row = table.column(prefix + "row");
    }

    /** The place that a row or its name states; {@link Place#NONE} after a fault. */
    public long read(String name) {
        if (isStated()) {
            return readStated();
        }
        long place = Place.first(name);
        if (place == Place.NONE && !name.isEmpty()) {
            table.fault(
                    tile,
                    "a tile, or a name that contains one, such as x3y4/…",
                    () -> "no place in " + Text.quote(name));
        }
        return place;
    }

    public boolean isStated() {
        return table.has(tile) || table.has(column) || table.has(row);
    }

    public long readStated() {
        if (table.has(tile)) {
            long place = Place.parse(table.text(tile));
            if (place == Place.NONE) {
                String found = table.text(tile);
                table.fault(tile, "a tile's name, such as x3y4", () -> Text.quote(found));
            }
            return place;
        }
        int x = table.integer(column, 0, FabricLimits.GRID_SIDE - 1, UNKNOWN);
        int y = table.integer(row, 0, FabricLimits.GRID_SIDE - 1, UNKNOWN);
        if (!table.has(column) || !table.has(row)) {
            table.fault(
                    table.has(column) ? row : column, "a column and a row", () -> "one of them");
        }
        return x == UNKNOWN || y == UNKNOWN ? Place.NONE : Place.of(x, y);
    }

    /** The places that a field lists, without those that are no places, which are reported. */
    public static List<Long> listed(CsvTable table, CsvTable.Column column) {
        List<Long> places = new ArrayList<>();
        if (table.has(column)) {
            for (String name : Listed.split(table.text(column))) {
                long place = Place.parse(name);
                if (place == Place.NONE) {
                    table.fault(
                            column,
                            "names of tiles, such as x3y4, with | between them",
                            () -> Text.quote(name));
                } else {
                    places.add(place);
                }
            }
        }
        return places;
    }

    /** The number of the tile at a place, 0 after a fault. */
    public int tile(long place, int columns, int rows) {
        if (place == Place.NONE) {
            return 0;
        }
        int x = Place.column(place);
        int y = Place.row(place);
        if (x >= columns || y >= rows) {
            table.fault(
                    tile,
                    "a tile of the grid of " + columns + " × " + rows,
                    () -> "x" + x + "y" + y);
            return 0;
        }
        return y * columns + x;
    }
}
