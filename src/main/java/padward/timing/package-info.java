/** Delays along routes and trees, at both corners. */
package padward.timing;
