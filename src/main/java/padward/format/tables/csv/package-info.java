/** One folder of plain tables (RFC 4180): their shapes, rows, fields and faults. */
package padward.format.tables.csv;
