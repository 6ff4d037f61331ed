/** A fabric as a JGraphT graph, and the same searches by JGraphT's algorithms. */
package padward.route.jgrapht;
