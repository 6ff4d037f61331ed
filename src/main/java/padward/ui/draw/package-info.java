/**
 * Surfaces that pictures are drawn on, in the window and in files, colours, and the part of the
 * fabric that is shown. Knows nothing about designs.
 */
package padward.ui.draw;
