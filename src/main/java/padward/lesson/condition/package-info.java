/** What a lesson's task is marked by: conditions on the state of the window. */
package padward.lesson.condition;
