package padward.design;

/**
 * A port of the design on a pad.
 *
 * @param id dense number in the design
 * @param name name, {@code led[0]}
 * @param direction the direction of its signal
 * @param pad index of its pad in {@code fabric.pads()}
 * @param setting name of the pad driver's setting, {@code ""} for the pad's default
 */
public record Port(int id, String name, PortDirection direction, int pad, String setting) {}
