/** The job itself: a question, its answer, the survey of all pads for one net. */
package padward.breakout;
