/**
 * A finished design on a fabric: cells on sites, nets on wires, ports on pads, and the board
 * around.
 */
package padward.design;
