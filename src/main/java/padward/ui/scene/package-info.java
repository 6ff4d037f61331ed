/**
 * What a picture of the map or of the strip map shows, as values: the open design, the part of it
 * that is shown, layers, how far a net gets. Contains no controls.
 */
package padward.ui.scene;
