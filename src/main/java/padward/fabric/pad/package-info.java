/**
 * What a pad is to the board: its direction, role and enable, its bank, and the driver settings it
 * may have.
 */
package padward.fabric.pad;
