/** Steps through searches, lessons, exercises: how pads are reached, and why a way fails. */
package padward.lesson;
