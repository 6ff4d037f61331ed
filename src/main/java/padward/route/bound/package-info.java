/**
 * Lower bounds, which guide every search: what can be said about all routes of a fabric from its
 * regularity, calculated once and kept with the fabric; and, for long questions, what the present
 * occupancy costs at least, searched for each question ({@link padward.route.bound.TileSearch}).
 */
package padward.route.bound;
