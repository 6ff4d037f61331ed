/** Puts netlists on fabrics: packs, places, routes, and tells how well it went. */
package padward.place;
