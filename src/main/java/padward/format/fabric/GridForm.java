package padward.format.fabric;

/**
 * The size of a grid.
 *
 * @param columns tiles from left to right
 * @param rows tiles from bottom to top
 */
record GridForm(int columns, int rows) {}
