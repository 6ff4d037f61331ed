package padward.change;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;

/**
 * At which pins of a cell the nets of a draft end. A clock has thousands of ends, and an edit adds
 * one: of a net that only got more sinks, those that it had are looked up in the design before.
 */
final class DraftEnds {
    private static final int NO_EXTENSION = -1;

    private final Design base;
    private final Int2ObjectOpenHashMap<Known> byNet = new Int2ObjectOpenHashMap<>();

    /**
     * A net as it was last asked about.
     *
     * @param had how many of its sinks, the first ones, it had before the edits, with the same
     *     driver; {@link #NO_EXTENSION} when it is not the net before with more sinks
     */
    private record Known(Net net, int had) {}

    DraftEnds(Design base) {
        this.base = base;
    }

    /** Whether a net, as it is now, ends at a cell. O(its new sinks) where it only got sinks. */
    boolean isAt(Net net, int cell) {
        int had = had(net);
        return had == NO_EXTENSION
                ? pins(net.ends(), cell).findAny().isPresent()
                : hadAt(net, cell) || pins(added(net, had), cell).findAny().isPresent();
    }

    /** The pins of a cell at which a net ends now. */
    List<String> pinsAt(Net net, int cell) {
        int had = had(net);
        if (had == NO_EXTENSION) {
            return pins(net.ends(), cell).toList();
        }
        Stream<String> before =
                hadAt(net, cell) ? pins(base.nets().get(net.id()).ends(), cell) : Stream.empty();
        return Stream.concat(before, pins(added(net, had), cell)).toList();
    }

    private static List<Terminal> added(Net net, int had) {
        return net.sinks().subList(had, net.sinks().size());
    }

    private boolean hadAt(Net net, int cell) {
        return base.netsAt(cell).stream().anyMatch(n -> n.id() == net.id());
    }

    private static Stream<String> pins(List<Terminal> ends, int cell) {
        return ends.stream()
                .filter(t -> t instanceof Terminal.CellPin at && at.cell() == cell)
                .map(t -> ((Terminal.CellPin) t).pin());
    }

    private int had(Net net) {
        Known known = byNet.get(net.id());
        if (known == null || known.net() != net) {
            known = new Known(net, calculatedHad(net));
            byNet.put(net.id(), known);
        }
        return known.had();
    }

    private int calculatedHad(Net net) {
        Optional<Net> before = base.nets().find(net.id());
        if (before.isEmpty() || !before.get().driver().equals(net.driver())) {
            return NO_EXTENSION;
        }
        List<Terminal> old = before.get().sinks();
        List<Terminal> now = net.sinks();
        if (old.size() > now.size()) {
            return NO_EXTENSION;
        }
        for (int i = 0; i < old.size(); i++) {
            // Mostly the same object, because edits copy lists of sinks.
            if (!Objects.equals(old.get(i), now.get(i))) {
                return NO_EXTENSION;
            }
        }
        return old.size();
    }
}
