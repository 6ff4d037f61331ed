/** Several nets at once: a pad for each, routes without a common wire, their skew. */
package padward.breakout.group;
