/** Questions as they are written, one a line, in tables and in JSON. */
package padward.format.question;
