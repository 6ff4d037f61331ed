package padward.fabric;

/** What the taps of two vertices say about the switch between them. */
public final class Taps {
    private Taps() {}

    /**
     * The only tile in which both vertices have a tap; {@link Fabric#NOTHING} when there is none,
     * or more than one. O(taps of one × taps of the other).
     */
    public static int whereBothMeet(Fabric fabric, int from, int to) {
        int[] others = fabric.tapTiles(to);
        int found = Fabric.NOTHING;
        for (int tile : fabric.tapTiles(from)) {
            if (tile != found && contains(others, tile)) {
                if (found != Fabric.NOTHING) {
                    return Fabric.NOTHING;
                }
                found = tile;
            }
        }
        return found;
    }

    private static boolean contains(int[] tiles, int tile) {
        for (int other : tiles) {
            if (other == tile) {
                return true;
            }
        }
        return false;
    }
}
