package padward.format.tables.csv;

/**
 * A column that a table can have.
 *
 * @param name its name in the header
 * @param need whether a table must have it
 * @param meaning what its fields mean, and what an empty field means
 */
public record ColumnShape(String name, Need need, String meaning) {
    /** Whether a column must be there. */
    public enum Need {
        /** The column must be there, and no field of it may be empty. */
        MUST,
        /** May be left out, or left empty in some rows. */
        MAY,
        /** May be left out, and is left out on export: another spelling of the same. */
        INSTEAD
    }
}
