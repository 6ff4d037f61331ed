/**
 * What is fixed in the chip: tiles, wires, switches, sites, pads, as one immutable graph of dense
 * {@code int} vertices. Patterns store one template per kind of tile; explicit fabrics store
 * compressed rows. Both look the same to a search.
 */
package padward.fabric;
