/** Paints scenes on surfaces, each part with its own painter; the same on screen and in files. */
package padward.ui.paint;
