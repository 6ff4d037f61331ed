package padward.fabric.pad;

/**
 * A group of pads with one supply.
 *
 * @param name name used by pads
 * @param millivolts supply of its drivers, mV
 */
public record Bank(String name, int millivolts) {}
