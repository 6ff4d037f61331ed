/** The design's nets by their hierarchy. */
package padward.ui.nets;
