package padward.fabric;

/**
 * A kind of cell that sites accept.
 *
 * @param name name used by sites and cells
 * @param holdsState whether the cell is a register or memory: a signal ends there for timing
 */
public record CellKind(String name, boolean holdsState) {}
