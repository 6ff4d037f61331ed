/** Places and routes watch circuits on what a design leaves unused. */
package padward.watch.place;
