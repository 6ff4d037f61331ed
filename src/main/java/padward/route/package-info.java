/**
 * Searches over the fabric: the project's own A* and Dijkstra, and a view for JGraphT's algorithms.
 */
package padward.route;
