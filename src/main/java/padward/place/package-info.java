/** Place and route: packs a netlist, places it on a fabric, routes it, and reports the quality. */
package padward.place;
