/** Searches recorded step by step, for replaying. */
package padward.lesson.recording;
