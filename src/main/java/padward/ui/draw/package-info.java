/**
 * What pictures are drawn on, in the window and in files, and with what: surfaces, colours, the
 * part of the fabric that is seen. Knows nothing of designs.
 */
package padward.ui.draw;
