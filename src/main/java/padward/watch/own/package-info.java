/** Netlists of the user's own as circuits. */
package padward.watch.own;
