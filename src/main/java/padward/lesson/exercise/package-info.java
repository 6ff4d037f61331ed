/** Random questions to a learner, with calculated answers. */
package padward.lesson.exercise;
