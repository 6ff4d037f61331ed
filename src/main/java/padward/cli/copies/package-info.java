/** The command for compact copies of fabrics. */
package padward.cli.copies;
