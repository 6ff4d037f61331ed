package padward.fabric;

/**
 * A place at which a wire can be entered or left. A wire that is entered at its begin and left at
 * its end has two; one with stops on its way, that bends or that spreads over the chip has more.
 *
 * @param tile number of the tile
 * @param name what the wire is called there, a full name: its own, or another one by which {@link
 *     Fabric#findVertex} finds it, too
 */
public record Tap(int tile, String name) {}
