/** Simulates designs as they are written, clock cycle by clock cycle. */
package padward.watch.simulate;
