package padward.fabric;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;

/**
 * A site as a description states it, with all its parts. Fabric, design and searches know only the
 * parts, each as a site; who reads, writes or places asks here which of them belong together.
 *
 * @param parts its parts in the order of their numbers, which have no gaps; one for a site without
 *     parts, the site itself
 */
public record WholeSite(List<SiteView> parts) {
    /** Copies the list. */
    public WholeSite {
        parts = List.copyOf(parts);
    }

    /** Its first part, or itself: kind and tiles are those of all parts. */
    public SiteView first() {
        return parts.get(0);
    }

    /** Whether it states parts. */
    public boolean hasParts() {
        return first().isPart();
    }

    /** Its full name. */
    public String name() {
        return first().wholeName();
    }

    /** All sites of a fabric, one after the other. */
    public static Iterable<WholeSite> allOf(Fabric fabric) {
        return () ->
                new Iterator<>() {
                    private int next;

                    @Override
                    public boolean hasNext() {
                        return next < fabric.siteCount();
                    }

                    @Override
                    public WholeSite next() {
                        if (!hasNext()) {
                            throw new NoSuchElementException();
                        }
                        WholeSite site = from(fabric, next);
                        next += site.parts().size();
                        return site;
                    }
                };
    }

    /** The site of which a site's number is a part. */
    public static WholeSite of(Fabric fabric, int site) {
        SiteView view = fabric.site(site);
        int first = site;
        while (view.isPart() && first > 0 && isOneOf(view, fabric.site(first - 1))) {
            first--;
        }
        return from(fabric, first);
    }

    /** The site of which the first part has a number. */
    private static WholeSite from(Fabric fabric, int first) {
        SiteView view = fabric.site(first);
        List<SiteView> parts = new ArrayList<>(List.of(view));
        if (view.isPart()) {
            for (int next = first + 1; next < fabric.siteCount(); next++) {
                SiteView other = fabric.site(next);
                if (!isOneOf(view, other)) {
                    break;
                }
                parts.add(other);
            }
        }
        return new WholeSite(parts);
    }

    private static boolean isOneOf(SiteView part, SiteView other) {
        return other.isPart()
                && other.tile() == part.tile()
                && other.wholeName().equals(part.wholeName());
    }
}
