/** Lessons: their tasks, a learner's progress, and how a task is recognised as done. */
package padward.lesson;
