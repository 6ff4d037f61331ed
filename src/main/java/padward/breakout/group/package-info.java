/** Several nets at once: a pad for each, routes that do not meet, their skew. */
package padward.breakout.group;
