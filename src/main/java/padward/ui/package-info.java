/**
 * The window as a whole: the program, its frame, the placement of its parts, which are in the
 * packages below. Views bind; view models decide and know no control.
 */
package padward.ui;
