/**
 * One declaration for each record of a file: from its fields follow how it is read and written, its
 * JSON Schema, its columns in tables, and the tables of the documentation.
 */
package padward.format.form;
