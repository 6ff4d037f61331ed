/** The fabric map and the strip map, and what can be done on them. */
package padward.ui.map;
