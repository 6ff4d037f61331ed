/**
 * What it costs to follow an edge: delay alone, free vertices only, a price for each obstacle,
 * negotiated congestion.
 */
package padward.route.cost;
