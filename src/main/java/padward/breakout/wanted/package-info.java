/** Nets that are wanted at the bench, looked at again after each run of the implementation. */
package padward.breakout.wanted;
