/** What is kept, with undo at each entry, and its bench sheet. */
package padward.ui.ledger;
