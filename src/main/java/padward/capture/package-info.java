/** Captures of instruments: read, deskewed by the delays of their channels, and written again. */
package padward.capture;
