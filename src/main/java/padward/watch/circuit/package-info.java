/** Watch circuits as values: lookup tables and registers between nets of a design and a pad. */
package padward.watch.circuit;
