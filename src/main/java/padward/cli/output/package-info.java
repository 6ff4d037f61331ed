/** Answers as text and as JSON. */
package padward.cli.output;
