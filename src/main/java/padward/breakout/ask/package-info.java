/** One question and its answer: how a net gets out to a pad, with its cautions. */
package padward.breakout.ask;
