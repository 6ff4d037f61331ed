/** Answers and explanations in words. */
package padward.breakout.text;
