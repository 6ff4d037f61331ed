/** Options that several commands share, and what they name. */
package padward.cli.option;
