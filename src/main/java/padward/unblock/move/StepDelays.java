package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.delay.Delay;
import padward.timing.EdgeFinder;

/** Looks up what single steps of a route take. One object belongs to one thread. */
final class StepDelays {
    private final Fabric fabric;
    private final EdgeFinder finder;

    StepDelays(Fabric fabric) {
        this.fabric = fabric;
        this.finder = new EdgeFinder(fabric);
    }

    /** Whether a step goes through a site, of which it then takes all pins. */
    boolean isThrough(int from, int to) {
        return finder.isThrough(from, to);
    }

    Delay delay(int from, int to) {
        return finder.get(from, to).delay();
    }

    /** All pins of a site. */
    IntArrayList pinsOf(int site) {
        return pinsOf(fabric.site(site));
    }

    /** All pins of a site. */
    static IntArrayList pinsOf(SiteView view) {
        IntArrayList result = new IntArrayList();
        for (int pin = 0; pin < view.pins().size(); pin++) {
            result.add(view.firstPin() + pin);
        }
        return result;
    }
}
