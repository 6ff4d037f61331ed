/** Conditions on the state of the window, by which a lesson recognises a task as done. */
package padward.lesson.condition;
