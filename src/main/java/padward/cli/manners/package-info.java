/** How the command line behaves towards terminals and scripts, whatever the command. */
package padward.cli.manners;
