package padward.format.tables.csv;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A table by its name and columns.
 *
 * @param name the file's name without its ending
 * @param meaning what one row says
 * @param columns what columns it can have, in the order in which they are written
 */
public record TableShape(String name, String meaning, List<ColumnShape> columns) {
    /** Copies the columns. */
    public TableShape {
        columns = List.copyOf(columns);
    }

    /** The column of that name. */
    Optional<ColumnShape> findColumn(String head) {
        return columns.stream().filter(c -> c.name().equals(head)).findFirst();
    }

    /** The names of all columns. */
    Stream<String> heads() {
        return columns.stream().map(ColumnShape::name);
    }

    /** The names of the columns that are written. */
    List<String> written() {
        return columns.stream()
                .filter(c -> c.need() != ColumnShape.Need.INSTEAD)
                .map(ColumnShape::name)
                .toList();
    }
}
