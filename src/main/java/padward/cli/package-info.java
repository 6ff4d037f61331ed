/** The command line: one class a command. The only layer, with the window, that prints. */
package padward.cli;
