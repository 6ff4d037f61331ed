package padward.api;

/**
 * A net of a design.
 *
 * @param name its full name
 * @param driver what drives it, {@code cell.pin} or {@code port NAME}
 * @param fanOut how many sinks it has
 * @param clock whether it is a clock
 */
public record FoundNet(String name, String driver, int fanOut, boolean clock) {}
