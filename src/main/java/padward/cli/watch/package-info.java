/** The command for watch circuits. */
package padward.cli.watch;
