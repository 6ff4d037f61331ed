/** The command that looks at wanted nets after each run of the implementation. */
package padward.cli.wanted;
