/**
 * Compact copies of explicit fabrics in the user's cache folder: found by the digest of the file
 * that was read, checked, replaced when they are damaged, and never more than a stated size.
 */
package padward.format.compact;
