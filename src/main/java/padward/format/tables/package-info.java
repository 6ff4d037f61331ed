/**
 * Fabrics, designs and boards as plain tables (RFC 4180): the entrance for whatever a user's own
 * tools can list. Every table is described in {@link padward.format.tables.Tables}.
 */
package padward.format.tables;
