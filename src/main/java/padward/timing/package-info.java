/** Delays along ways and trees, at both corners. */
package padward.timing;
