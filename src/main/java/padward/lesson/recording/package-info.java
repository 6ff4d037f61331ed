/** Searches recorded step by step, to be played. */
package padward.lesson.recording;
