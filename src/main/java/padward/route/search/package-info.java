/** A* and Dijkstra's search from a net to a pad or to everything, with their lower bounds. */
package padward.route.search;
