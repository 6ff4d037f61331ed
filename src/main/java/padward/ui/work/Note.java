package padward.ui.work;

import java.util.Optional;

/**
 * A message to the user, shown until it is dismissed.
 *
 * @param about the part of the program that it belongs to; its notes go when that starts again
 * @param text the message, in plain words
 * @param detail details for a report, which can be copied; empty when the text says everything
 * @param offer what can be done about it, if that is one press away
 */
public record Note(Object about, String text, String detail, Optional<Offer> offer) {
    /**
     * What can be done about it.
     *
     * @param text what the button says
     * @param work what it does
     */
    public record Offer(String text, Runnable work) {}
}
