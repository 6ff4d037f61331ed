/** The design's nets by hierarchy. */
package padward.ui.nets;
