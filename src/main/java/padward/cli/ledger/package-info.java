/** The command that shows what is in a ledger. */
package padward.cli.ledger;
