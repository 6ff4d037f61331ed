/** The library of watch circuits: each a few numbers and nets that make a circuit. */
package padward.watch.library;
