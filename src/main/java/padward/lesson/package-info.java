/** Lessons: their tasks, what a learner has done, and how that is marked. */
package padward.lesson;
