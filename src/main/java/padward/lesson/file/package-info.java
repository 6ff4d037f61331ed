/** Reads lessons and reads and writes what learners have done. */
package padward.lesson.file;
