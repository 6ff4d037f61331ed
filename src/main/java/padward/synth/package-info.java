/** Invented fabrics and designs of any size, the same for the same seed. */
package padward.synth;
