/** Watch circuits as somebody asks for them: in the texts of options or of fields. */
package padward.watch.request;
