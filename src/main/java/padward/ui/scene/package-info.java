/**
 * What a picture of the map or of the strip map shows, as values: the opened design with where its
 * things stand, layers, how far a net gets. Nothing here is a control.
 */
package padward.ui.scene;
