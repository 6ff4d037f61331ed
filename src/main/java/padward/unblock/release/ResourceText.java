package padward.unblock.release;

import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/** How vertices are called when people speak of them: pins by their site. */
public final class ResourceText {
    private ResourceText() {}

    /** The site's name for a pin, else the vertex's own. */
    public static String name(Fabric fabric, int vertex) {
        int site = fabric.siteOf(vertex);
        return site == Fabric.NOTHING ? fabric.vertexName(vertex) : fabric.site(site).name();
    }

    /** {@code IO register site} or {@code site}. O(pads). */
    public static String siteKind(Fabric fabric, int site) {
        boolean io =
                fabric.pads().stream()
                        .anyMatch(p -> p.dataSite() == site || p.enableSite() == site);
        return io ? "IO register site" : "site";
    }

    /** {@code IO register site}, {@code site}, {@code wire} or {@code pad}. O(pads) for sites. */
    public static String kind(Fabric fabric, int vertex) {
        int site = fabric.siteOf(vertex);
        if (site != Fabric.NOTHING) {
            return siteKind(fabric, site);
        }
        return fabric.kind(vertex) == VertexKind.PAD ? "pad" : "wire";
    }
}
