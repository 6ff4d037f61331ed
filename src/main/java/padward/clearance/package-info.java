/**
 * Why a way is blocked and what would open it: chokepoints, clearances with their consequences,
 * blocked cuts. Everything here is worked out on top of a design, which stays as it is.
 */
package padward.clearance;
