/**
 * The open design with the indexes that models and views need: names, what is in each tile, where
 * things stand on the map. Values, made off the UI thread; nothing here draws.
 */
package padward.ui.design;
