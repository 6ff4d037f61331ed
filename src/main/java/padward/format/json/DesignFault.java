package padward.format.json;

/**
 * What is wrong with a statement about a design; where the statement is comes later.
 *
 * @param expected what was expected, as a noun phrase
 * @param found what was found
 */
public record DesignFault(String expected, String found) {}
