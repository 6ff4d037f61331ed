package padward.timing;

import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;

/**
 * Delays from a net's driver to each vertex of its tree, at both corners: the edges' own, added up;
 * where the fabric states resistances and capacitances, by Elmore's formula along stretches that no
 * buffer restores, and with the loads of branches everywhere ({@link BufferedStages}). Immutable.
 */
public final class TreeDelays {
    private final Delay[] byPlace;

    private TreeDelays(Delay[] byPlace) {
        this.byPlace = byPlace;
    }

    /** Adds delays up from the root. O(size × edges at a vertex). */
    public static TreeDelays of(Fabric fabric, RouteTree tree) {
        if (!fabric.info().electrical().isUnknown()) {
            return new TreeDelays(BufferedStages.delays(fabric, tree));
        }
        EdgeFinder finder = new EdgeFinder(fabric);
        Delay[] delays = new Delay[tree.size()];
        delays[0] = Delay.ZERO;
        for (int place = 1; place < tree.size(); place++) {
            int parent = tree.parent(place);
            Delay step = finder.get(tree.vertex(parent), tree.vertex(place)).delay();
            delays[place] = delays[parent].plus(step);
        }
        return new TreeDelays(delays);
    }

    /** The delay at a place of the tree. */
    public Delay at(int place) {
        return byPlace[place];
    }
}
