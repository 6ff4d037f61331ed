/**
 * Paints scenes on surfaces, each part with a painter of its own; the same on screen and in files.
 */
package padward.ui.paint;
