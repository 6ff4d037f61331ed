/** Why no free route exists: chokepoints, cuts, the fewest obstacles to remove. */
package padward.unblock.why;
