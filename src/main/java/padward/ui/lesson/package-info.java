/** Lessons and exercises, done in the window and marked by its state. */
package padward.ui.lesson;
