/** Captures of instruments: read, aligned by the delays of their channels, and written again. */
package padward.capture;
