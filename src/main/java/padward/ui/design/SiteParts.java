package padward.ui.design;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReferenceArray;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * Which of the sites in each tile are parts of one site, such as lookup table and register of one
 * cell. Found out when a tile is first drawn, and kept. Thread-safe.
 */
final class SiteParts {
    /**
     * The sites in a tile, its own ones and those that extend over it: for each of them the number
     * of its whole site among those of the tile, its number among the parts of that, and how many
     * parts that has.
     *
     * @param wholes number of whole sites
     * @param anyParts whether some site has parts
     */
    record OfTile(int wholes, int[] whole, int[] part, int[] parts, boolean anyParts) {}

    private final Fabric fabric;
    private final AtomicReferenceArray<OfTile> byTile;

    SiteParts(Fabric fabric) {
        this.fabric = fabric;
        this.byTile = new AtomicReferenceArray<>(fabric.tileCount());
    }

    OfTile in(int tile) {
        OfTile known = byTile.get(tile);
        if (known != null) {
            return known;
        }
        OfTile found = find(tile);
        byTile.set(tile, found);
        return found;
    }

    private OfTile find(int tile) {
        List<SiteView> sites = new ArrayList<>();
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            sites.add(fabric.site(site));
        }
        fabric.sitesReaching(tile).forEach(s -> sites.add(fabric.site(s)));
        int[] whole = new int[sites.size()];
        int[] part = new int[sites.size()];
        int[] parts = new int[sites.size()];
        int wholes = 0;
        boolean any = false;
        for (int first = 0; first < whole.length; wholes++) {
            int end = first + 1;
            while (end < whole.length && areOne(sites.get(first), sites.get(end))) {
                end++;
            }
            for (int i = first; i < end; i++) {
                whole[i] = wholes;
                part[i] = i - first;
                parts[i] = end - first;
                any |= sites.get(i).isPart();
            }
            first = end;
        }
        return new OfTile(wholes, whole, part, parts, any);
    }

    private static boolean areOne(SiteView one, SiteView other) {
        return one.isPart()
                && other.isPart()
                && one.tile() == other.tile()
                && one.wholeName().equals(other.wholeName());
    }
}
