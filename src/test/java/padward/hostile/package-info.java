/** Damaged and hostile input of every kind: each ends in a fault that is reported, or is sound. */
package padward.hostile;
