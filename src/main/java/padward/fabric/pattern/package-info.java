/**
 * Fabrics described by tile types on a grid: edges come from one template for each kind of
 * surroundings, and nothing is stored per vertex.
 */
package padward.fabric.pattern;
