package padward.ui.work;

/**
 * A message to the user, shown until it is dismissed.
 *
 * @param about the part of the program that it belongs to; its notes go when that starts again
 * @param text the message, in plain words
 * @param detail details for a report, which can be copied; empty when the text says everything
 */
public record Note(Object about, String text, String detail) {}
