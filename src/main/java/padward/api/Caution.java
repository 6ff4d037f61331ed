package padward.api;

/**
 * A caution, to be read before anything is driven.
 *
 * @param kind what it is about, such as {@code drives} or {@code follows}
 * @param serious whether it can do harm
 * @param text in words
 */
public record Caution(String kind, boolean serious, String text) {}
