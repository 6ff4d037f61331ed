/** Delays in picoseconds at two timing corners, and sums of them that refuse to overflow. */
package padward.fabric.delay;
