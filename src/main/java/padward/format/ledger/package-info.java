/** Reads and writes ledgers, and the journal of what is kept in the window. */
package padward.format.ledger;
