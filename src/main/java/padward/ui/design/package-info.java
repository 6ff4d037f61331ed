/**
 * The open design with the indexes that models and views need: names, what is in each tile, where
 * things are drawn on the map. Values, created off the UI thread; nothing here draws.
 */
package padward.ui.design;
