/** The forms of what the commands print as JSON, from which their schemas follow. */
package padward.cli.form;
