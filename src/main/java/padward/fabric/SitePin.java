package padward.fabric;

/**
 * A pin of a site.
 *
 * @param name name inside the site, {@code in[2]}
 * @param direction in which direction the signal goes
 */
public record SitePin(String name, PinDirection direction) {}
