/** Recorded searches, played step by step on the map and side by side. */
package padward.ui.play;
