package padward.watch.place;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntLists;
import java.util.Random;
import padward.fabric.EdgeCursor;

/** Which pin of its site each input of an element gets: the easiest to reach, or a drawn one. */
final class CircuitPinChoice {
    /** A pin to which this many free vertices lead counts as easy. */
    private static final int EASY = 40;

    /** What a pin that is not easy to reach counts as, in tiles. */
    private static final int DETOUR = 6;

    private final UnusedResources unused;
    private final EdgeCursor into;
    private final EdgeCursor out;

    CircuitPinChoice(UnusedResources unused) {
        this.unused = unused;
        this.into = unused.design().fabric().edgesIn();
        this.out = unused.design().fabric().edgesOut();
    }

    /** What stands against a site for an element with that many inputs, in tiles. */
    int against(FreeSite site, int inputs) {
        int easy = 0;
        for (int vertex : site.inputVertices()) {
            easy += Reachable.countUpTo(EASY, vertex, into, unused.closed()) >= EASY ? 1 : 0;
        }
        boolean leaves = Reachable.countUpTo(EASY, site.outVertex(), out, unused.closed()) >= EASY;
        return DETOUR * (Math.max(0, inputs - easy) + (leaves ? 0 : 2));
    }

    /** A vertex for each input, the easiest ones. */
    int[] easiest(FreeSite site, int inputs) {
        IntArrayList pins = IntArrayList.wrap(site.inputVertices());
        IntArrayList eased = new IntArrayList();
        for (int rank = EASY; rank > 0 && eased.size() < inputs; rank = rank / 2) {
            for (int vertex : pins) {
                boolean easy = Reachable.countUpTo(rank, vertex, into, unused.closed()) >= rank;
                if (easy && !eased.contains(vertex) && eased.size() < inputs) {
                    eased.add(vertex);
                }
            }
        }
        return eased.toIntArray();
    }

    /** A vertex for each input, at random. */
    int[] drawn(FreeSite site, int inputs, Random random) {
        IntArrayList pins = new IntArrayList(site.inputVertices());
        IntLists.shuffle(pins, random);
        return pins.subList(0, inputs).toIntArray();
    }
}
