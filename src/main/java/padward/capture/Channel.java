package padward.capture;

/**
 * A channel of a capture.
 *
 * @param name its name with the scopes that it is declared in, joined by dots
 * @param own the name by itself, which may hold dots too
 */
public record Channel(String name, String own) {}
