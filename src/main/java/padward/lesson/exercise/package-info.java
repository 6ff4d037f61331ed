/** Random questions to a learner, with the computed truth. */
package padward.lesson.exercise;
