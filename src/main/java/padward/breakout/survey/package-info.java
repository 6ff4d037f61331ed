/** One net and all pads, ranked; and what a what-if does to a question. */
package padward.breakout.survey;
