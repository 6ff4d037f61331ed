/** Lessons and exercises in the window. */
package padward.ui.lesson;
