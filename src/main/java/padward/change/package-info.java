/**
 * Changes to a finished design as values: edits, their check, the what-if that they make, and the
 * ledger of those that are kept.
 */
package padward.change;
