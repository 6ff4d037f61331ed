/** Many questions in one run, answered line by line. */
package padward.cli.batch;
