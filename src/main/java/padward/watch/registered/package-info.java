/** Groups of lines that registers sample, in the pads or in the fabric. */
package padward.watch.registered;
