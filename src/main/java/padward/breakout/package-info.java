/** The job itself: one net to one pad, one net to all pads, several nets at once. */
package padward.breakout;
