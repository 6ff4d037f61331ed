package padward.ui.work;

/**
 * Something that the user has to be told, until it is put away.
 *
 * @param about whose note it is; when that starts afresh, its notes go
 * @param text what to tell, in plain words
 * @param detail more, for whoever looks into it: may be copied; empty when the text tells all
 */
public record Note(Object about, String text, String detail) {}
