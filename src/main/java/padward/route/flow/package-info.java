/** The most routes that share no vertex: a minimum-cost flow on the fabric. */
package padward.route.flow;
