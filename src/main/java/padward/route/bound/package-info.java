/**
 * Lower bounds on delay, which guide every search: what can be said about all routes of a fabric
 * from its regularity, calculated once and kept with the fabric.
 */
package padward.route.bound;
