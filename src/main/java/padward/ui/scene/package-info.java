/**
 * What a picture of the map or of the strip map shows, as values: the open design, the part of it
 * that is seen, layers, how far a net gets. Nothing here is a control.
 */
package padward.ui.scene;
