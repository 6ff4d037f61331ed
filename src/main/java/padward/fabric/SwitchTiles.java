package padward.fabric;

import java.util.List;

/** In which tile the connection between two vertices is, where the description does not say it. */
public final class SwitchTiles {
    private SwitchTiles() {}

    /**
     * The only tile in which both vertices have a tap; {@link Fabric#NOTHING} when there is none,
     * or more than one. O(taps of both).
     */
    public static int whereBothMeet(List<Tap> from, List<Tap> to) {
        int found = Fabric.NOTHING;
        for (Tap tap : from) {
            int tile = tap.tile();
            if (tile != found && to.stream().anyMatch(t -> t.tile() == tile)) {
                if (found != Fabric.NOTHING) {
                    return Fabric.NOTHING;
                }
                found = tile;
            }
        }
        return found;
    }
}
