/** The fabric map and the strip map, and their actions. */
package padward.ui.map;
