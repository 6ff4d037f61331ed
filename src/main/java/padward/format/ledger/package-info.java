/** Reads and writes ledgers, and the journal of the changes kept in the window. */
package padward.format.ledger;
