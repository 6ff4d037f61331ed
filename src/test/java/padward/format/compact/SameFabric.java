package padward.format.compact;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.Tap;
import padward.fabric.WholeSite;
import padward.format.fabric.FabricWriter;

/** Whether two fabrics answer everything alike, and whether one answers at all. */
final class SameFabric {
    private SameFabric() {}

    /** Requires that two are the same, asked one by one and as the files that they write. */
    static void require(Fabric one, Fabric other, Path folder) throws Exception {
        assertThat(told(one, true)).isEqualTo(told(other, true));
        FabricWriter.write(one, folder.resolve("one.json"));
        FabricWriter.write(other, folder.resolve("other.json"));
        assertThat(Files.mismatch(folder.resolve("one.json"), folder.resolve("other.json")))
                .isEqualTo(-1);
    }

    /**
     * All that a fabric says, asked by number and by name.
     *
     * @param sound whether what it finds by a name must have the name
     */
    static List<Object> told(Fabric fabric, boolean sound) {
        List<Object> all = new ArrayList<>();
        all.add(fabric.info());
        all.add(List.of(fabric.columns(), fabric.rows(), fabric.vertexCount()));
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            all.add(fabric.tileType(tile));
            all.add(fabric.firstSite(tile));
            all.add(fabric.sitesReaching(tile));
        }
        all.add(fabric.hasWideSites());
        EdgeCursor out = fabric.edgesOut();
        EdgeCursor in = fabric.edgesIn();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            String name = fabric.vertexName(v);
            all.add(List.of(name, fabric.kind(v), fabric.tile(v), fabric.headTile(v)));
            all.add(fabric.wireKind(v) + fabric.siteOf(v) + fabric.listsTaps(v));
            all.add(fabric.unusable().isVertex(v));
            all.add(fabric.taps(v));
            for (Tap tap : fabric.taps(v)) {
                all.add(fabric.findVertex(tap.name()));
                all.add(fabric.nameIn(v, tap.tile()));
            }
            assertThat(!sound || fabric.findVertex(name) == v).as(name).isTrue();
            all.add(fabric.findVertex(name + "x"));
            out.reset(v);
            while (out.next()) {
                all.add(List.of(out.other(), out.kind(), out.delay()));
                all.add(fabric.switchTile(v, out.other()));
                all.add(fabric.switchGroups().groupOf(v, out.other()));
            }
            in.reset(v);
            while (in.next()) {
                all.add(List.of(in.other(), in.kind(), in.delay()));
            }
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            all.add(site);
            all.add(fabric.findSite(site.name()));
            all.add(fabric.findParts(site.isPart() ? site.wholeName() : site.name()));
            all.add(fabric.unusable().isSite(s));
            all.add(WholeSite.of(fabric, s));
        }
        for (int group = 0; group < fabric.switchGroups().count(); group++) {
            all.add(fabric.switchGroups().name(group));
            all.add(fabric.switchGroups().switches(group));
        }
        all.add(fabric.pads());
        all.add(fabric.unusable().siteCount());
        return all;
    }
}
