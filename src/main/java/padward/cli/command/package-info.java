/** The commands, one class each. */
package padward.cli.command;
