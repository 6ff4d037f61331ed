/**
 * Searches over the fabric. The packages below contain them: what an edge costs, the searches
 * themselves, many nets at once, and the view on which JGraphT's algorithms run.
 */
package padward.route;
