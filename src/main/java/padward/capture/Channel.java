package padward.capture;

/**
 * A channel of a capture.
 *
 * @param name its full name, with the scopes that it is declared in, joined by dots
 * @param own the name without scopes, which may itself contain dots
 */
public record Channel(String name, String own) {}
