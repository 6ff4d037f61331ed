package padward.format.tables;

import padward.fabric.FabricLimits;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.Place;
import padward.format.tables.csv.PlaceColumns;
import padward.format.tables.csv.TableFolder;

/**
 * The smallest grid with all places that the tables state; found in a first pass, so that users
 * need not state the size of their device.
 *
 * @param columns tiles from left to right, at least 1
 * @param rows tiles from bottom to top, at least 1
 */
record GridExtent(int columns, int rows) {
    static GridExtent of(TableFolder folder) {
        long[] most = new long[2];
        folder.readAgain(Tables.TILES, t -> look(t, "", false, most));
        folder.readAgain(Tables.WIRES, t -> look(t, "", true, most));
        folder.readAgain(Tables.WIRES, t -> look(t, "to_", false, most));
        folder.readAgain(Tables.TAPS, t -> look(t, "", true, most));
        folder.readAgain(Tables.SITES, t -> look(t, "", true, most));
        folder.readAgain(Tables.SITES, t -> lookAtMore(t, most));
        folder.readAgain(Tables.PADS, t -> look(t, "", true, most));
        int limit = FabricLimits.GRID_SIDE;
        return new GridExtent(
                (int) Math.min(limit, most[0] + 1), (int) Math.min(limit, most[1] + 1));
    }

    private static void look(CsvTable table, String prefix, boolean named, long[] most) {
        PlaceColumns place = new PlaceColumns(table, prefix);
        CsvTable.Column name = named ? table.column("name") : null;
        while (table.next()) {
            long at =
                    place.isStated()
                            ? place.readStated()
                            : named ? Place.first(table.text(name)) : Place.NONE;
            if (at != Place.NONE) {
                include(at, most);
            }
        }
    }

    private static void lookAtMore(CsvTable table, long[] most) {
        CsvTable.Column more = table.column("more_tiles");
        while (table.next()) {
            PlaceColumns.listed(table, more).forEach(at -> include(at, most));
        }
    }

    private static void include(long place, long[] most) {
        most[0] = Math.max(most[0], Place.column(place));
        most[1] = Math.max(most[1], Place.row(place));
    }
}
