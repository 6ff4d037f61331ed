package padward.place;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.WholeSite;

/**
 * Where cells go in pairs: two parts of a site of which the first drives the second directly, as a
 * lookup table drives the register of its cell. A pair is one place and has the number of its first
 * part; each other site is a place of its own. Immutable.
 */
final class CellPlaces {
    /** A direct connection, by what is placed at its ends. */
    private record Direct(String fromKind, String fromPin, String toKind, String toPin) {}

    /** What can be in one place though the first does not drive the second. */
    private record Sharing(String firstKind, String secondKind) {}

    private final Fabric fabric;
    private final Int2IntOpenHashMap secondOf = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap firstOf = new Int2IntOpenHashMap();
    private final Set<Direct> directs = new HashSet<>();
    private final Set<Sharing> sharing = new HashSet<>();
    private final Set<Sharing> notSharing = new HashSet<>();

    private CellPlaces(Fabric fabric) {
        this.fabric = fabric;
        secondOf.defaultReturnValue(Fabric.NOTHING);
        firstOf.defaultReturnValue(Fabric.NOTHING);
    }

    /** The places of a fabric. O(sites + edges of parts). */
    static CellPlaces of(Fabric fabric) {
        CellPlaces places = new CellPlaces(fabric);
        EdgeCursor edges = fabric.edgesOut();
        for (WholeSite site : WholeSite.allOf(fabric)) {
            for (SiteView part : site.parts()) {
                if (part.isPart() && places.firstOf.get(part.id()) == Fabric.NOTHING) {
                    places.joinWithNext(site, part, edges);
                }
            }
        }
        return places;
    }

    /** Joins a part with the first one that it drives directly and that is in no pair. */
    private void joinWithNext(WholeSite site, SiteView part, EdgeCursor edges) {
        List<Integer> driven = new ArrayList<>();
        for (int end : directEnds(part, edges)) {
            int other = fabric.siteOf(end);
            boolean inSite = site.parts().stream().anyMatch(p -> p.id() == other);
            if (inSite && other != part.id()) {
                driven.add(other);
            }
        }
        for (int other : driven) {
            boolean taken =
                    firstOf.get(other) != Fabric.NOTHING || secondOf.get(other) != Fabric.NOTHING;
            if (!taken) {
                secondOf.put(part.id(), other);
                firstOf.put(other, part.id());
                addDirects(part, fabric.site(other), edges);
                addSharing(part, fabric.site(other));
                return;
            }
        }
    }

    /** Where switches and connections from a part's out pins lead. */
    private static List<Integer> directEnds(SiteView part, EdgeCursor edges) {
        List<Integer> ends = new ArrayList<>();
        for (int pin = 0; pin < part.pins().size(); pin++) {
            if (part.pins().get(pin).direction() == PinDirection.OUT) {
                edges.reset(part.firstPin() + pin);
                while (edges.next()) {
                    if (edges.kind() != EdgeKind.PASS_THROUGH) {
                        ends.add(edges.other());
                    }
                }
            }
        }
        return ends;
    }

    private void addDirects(SiteView from, SiteView to, EdgeCursor edges) {
        for (int pin = 0; pin < from.pins().size(); pin++) {
            edges.reset(from.firstPin() + pin);
            while (edges.next()) {
                int at = edges.other() - to.firstPin();
                if (at >= 0 && at < to.pins().size() && edges.kind() != EdgeKind.PASS_THROUGH) {
                    String fromPin = from.pins().get(pin).name();
                    String toPin = to.pins().get(at).name();
                    for (String fromKind : from.accepts()) {
                        for (String toKind : to.accepts()) {
                            directs.add(new Direct(fromKind, fromPin, toKind, toPin));
                        }
                    }
                }
            }
        }
    }

    /**
     * Kinds share places if they can in all: what the first part drives is driven otherwise, too.
     */
    private void addSharing(SiteView from, SiteView to) {
        boolean fed = true;
        EdgeCursor in = fabric.edgesIn();
        for (int pin = 0; pin < to.pins().size(); pin++) {
            in.reset(to.firstPin() + pin);
            boolean inside = false;
            boolean outside = false;
            while (in.next()) {
                boolean beside = fabric.siteOf(in.other()) == from.id();
                inside |= beside;
                outside |= !beside && in.kind() != EdgeKind.PASS_THROUGH;
            }
            fed &= outside || !inside;
        }
        for (String fromKind : from.accepts()) {
            for (String toKind : to.accepts()) {
                (fed ? sharing : notSharing).add(new Sharing(fromKind, toKind));
            }
        }
    }

    /** Whether cells of two kinds can be in one place, each with nets of its own. */
    boolean canShare(String firstKind, String secondKind) {
        Sharing both = new Sharing(firstKind, secondKind);
        return sharing.contains(both) && !notSharing.contains(both);
    }

    /** Whether a cell of one kind can drive one of another kind directly, from pin to pin. */
    boolean canDrive(String fromKind, String fromPin, String toKind, String toPin) {
        return directs.contains(new Direct(fromKind, fromPin, toKind, toPin));
    }

    /** The second part of the pair whose first part a site is, or {@link Fabric#NOTHING}. */
    int secondOf(int site) {
        return secondOf.get(site);
    }

    /** The first part of the pair whose second part a site is, or {@link Fabric#NOTHING}. */
    int firstOf(int site) {
        return firstOf.get(site);
    }

    /** Whether a site is the second part of a pair, and thus no place of its own. */
    boolean isSecond(int site) {
        return firstOf.get(site) != Fabric.NOTHING;
    }

    /** The part of a place that accepts a kind, the first before the second, or NOTHING. */
    int siteFor(int place, String kind) {
        if (accepts(place, kind)) {
            return place;
        }
        int second = secondOf(place);
        return second != Fabric.NOTHING && accepts(second, kind) ? second : Fabric.NOTHING;
    }

    /** Whether a place has room for the cells of a block, of which the first drives the second. */
    boolean hasRoomFor(int place, List<String> kinds) {
        if (kinds.size() == 1) {
            return siteFor(place, kinds.get(0)) != Fabric.NOTHING;
        }
        int second = secondOf(place);
        return second != Fabric.NOTHING
                && accepts(place, kinds.get(0))
                && accepts(second, kinds.get(1));
    }

    private boolean accepts(int site, String kind) {
        return !fabric.unusable().isSite(site) && fabric.site(site).accepts().contains(kind);
    }
}
