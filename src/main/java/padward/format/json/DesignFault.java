package padward.format.json;

/**
 * What is wrong with a statement about a design, before it is known where the statement stood.
 *
 * @param expected what should have stood there, as a noun phrase
 * @param found what stood there
 */
public record DesignFault(String expected, String found) {}
