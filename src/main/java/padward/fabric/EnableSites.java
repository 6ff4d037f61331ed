package padward.fabric;

import it.unimi.dsi.fastutil.ints.Int2ObjectMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.List;

/** Which pads' drivers are switched through a site: one index for each fabric. */
public final class EnableSites {
    private final Fabric fabric;
    private Int2ObjectMap<IntList> padsBySite;

    private EnableSites(Fabric fabric) {
        this.fabric = fabric;
    }

    /** The index of a fabric. */
    public static EnableSites of(Fabric fabric) {
        return fabric.derived().get(EnableSites.class, () -> new EnableSites(fabric));
    }

    /**
     * The pin at which a net that switches a pad's driver ends: the only out pin of its enable's
     * site, or the only in pin of one without out pins; {@link Fabric#NOTHING} when there is none
     * such. O(pins of the site).
     */
    public static int endOf(Fabric fabric, Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        SiteView site = fabric.site(pad.enableSite());
        int only = onlyPin(site, PinDirection.OUT);
        boolean noOutput = site.pins().stream().noneMatch(p -> p.direction() == PinDirection.OUT);
        return noOutput ? onlyPin(site, PinDirection.IN) : only;
    }

    private static int onlyPin(SiteView site, PinDirection direction) {
        int found = Fabric.NOTHING;
        for (int pin = 0; pin < site.pins().size(); pin++) {
            if (site.pins().get(pin).direction() == direction) {
                if (found != Fabric.NOTHING) {
                    return Fabric.NOTHING;
                }
                found = site.firstPin() + pin;
            }
        }
        return found;
    }

    /**
     * Indices of the pads whose drivers are switched through a site; none for most. O(pads) the
     * first time.
     */
    public synchronized IntList padsAt(int site) {
        if (padsBySite == null) {
            padsBySite = new Int2ObjectOpenHashMap<>();
            List<Pad> pads = fabric.pads();
            for (int pad = 0; pad < pads.size(); pad++) {
                int at = pads.get(pad).enableSite();
                if (at != Fabric.NOTHING) {
                    padsBySite.computeIfAbsent(at, s -> new IntArrayList()).add(pad);
                }
            }
        }
        return padsBySite.getOrDefault(site, IntList.of());
    }
}
