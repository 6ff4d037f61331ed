/** Reads lessons; reads and writes learners' progress. */
package padward.lesson.file;
