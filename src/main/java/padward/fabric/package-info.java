/**
 * What is fixed in the chip: tiles, wires, switches, sites, pads, as one immutable graph of dense
 * {@code int} vertices. Here is what every fabric offers; the two descriptions are in {@link
 * padward.fabric.pattern} and {@link padward.fabric.explicit} and know nothing of each other.
 */
package padward.fabric;
