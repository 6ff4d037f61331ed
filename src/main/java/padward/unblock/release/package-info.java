/** What a breakout may use, and what removing a cell or a net gives back. */
package padward.unblock.release;
