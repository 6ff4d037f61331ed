package padward.place;

import java.util.BitSet;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;

/**
 * The vertices that routes may enter only at their end: all pads and all pins, except those of
 * sites in the tiles of pads through which signals enter and leave. Such a site stays open when all
 * its pass-throughs end at one pin, so that no two nets can pass through it. Unusable wires are
 * among them.
 */
public final class ClosedPins {
    private ClosedPins() {}

    /** The vertices. O(sites). */
    public static BitSet closed(Fabric fabric) {
        BitSet closed = new BitSet(fabric.vertexCount());
        closed.or(fabric.unusable().vertices());
        BitSet padTiles = new BitSet(fabric.tileCount());
        for (Pad pad : fabric.pads()) {
            closed.set(pad.vertex());
            padTiles.set(pad.tile());
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            if (!padTiles.get(site.tile()) || !hasOneRouteOut(site, edges)) {
                close(closed, site);
            }
        }
        return closed;
    }

    static void close(BitSet closed, SiteView site) {
        closed.set(site.firstPin(), site.firstPin() + site.pins().size());
    }

    /** Whether all pass-throughs of a site end at one pin, so that only one net can take them. */
    static boolean hasOneRouteOut(SiteView site, EdgeCursor edges) {
        int end = Fabric.NOTHING;
        for (int i = 0; i < site.pins().size(); i++) {
            edges.reset(site.firstPin() + i);
            while (edges.next()) {
                if (edges.kind() == EdgeKind.PASS_THROUGH) {
                    if (end != Fabric.NOTHING && end != edges.other()) {
                        return false;
                    }
                    end = edges.other();
                }
            }
        }
        return end != Fabric.NOTHING;
    }
}
