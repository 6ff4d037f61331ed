/** The command line: one class for each command. The only layer, with the window, that prints. */
package padward.cli;
