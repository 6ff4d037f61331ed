/** The panel for watch circuits: asked for, drawn, tried on the map, kept. */
package padward.ui.watch;
