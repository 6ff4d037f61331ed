/**
 * What hangs on the pins of a chip, from a board's net list: bare-board test data (IPC-D-356A) or a
 * plain table, with a table of the parts.
 */
package padward.format.bareboard;
