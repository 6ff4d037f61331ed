package padward.ui.paint;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.WorldRectangle;

/** What a large fabric shows from far away. */
class StructurePainterTest {
    private static String picture(String file, double scale) throws Exception {
        Design design = DesignReader.read(Path.of(file), Progress.NONE);
        Fabric fabric = design.fabric();
        Viewport view = new Viewport(900, 700, fabric.columns() / 2.0, fabric.rows() / 2.0, scale);
        OpenDesign opened = new OpenDesign(design);
        SvgSurface out = new SvgSurface(900, 700, "map");
        MapPicture.paint(MapPicture.plain(opened, view, Palette.LIGHT), out);
        String text = out.finish();
        for (Pad pad : fabric.pads()) {
            assertThat(text.contains(">bank " + pad.bank() + "<"))
                    .isEqualTo(fabric.columns() > 24 && scale < 20);
        }
        return text;
    }

    @Test
    void banksAndAScale() throws Exception {
        String far = picture("fixtures/workbench/design.json.gz", 8);
        assertThat(far).contains(">10 tiles<");
        assertThat(picture("fixtures/workbench/design.json.gz", 40)).doesNotContain("tiles<");
    }

    /** Saved for paper, a map has one scale, near and far. */
    @Test
    void aSavedMapHasOneScale() throws Exception {
        Path file = Path.of("fixtures/workbench/design.json.gz");
        Design design = DesignReader.read(file, Progress.NONE);
        OpenDesign opened = new OpenDesign(design);
        for (double scale : new double[] {8, 40}) {
            Viewport view = new Viewport(900, 700, 10, 10, scale);
            SvgSurface out = new SvgSurface(900, 900, "map");
            new PrintedMap(MapPicture.plain(opened, view, Palette.LIGHT)).paint(out);
            assertThat(out.finish().split(" tiles?<", -1)).as("at " + scale).hasSize(2);
        }
    }

    /** Whatever the size of map and letters, the legend does not cover the scale. */
    @ParameterizedTest
    @CsvSource({"345, 190, 1.43, 2", "540, 240, 1, 3", "900, 700, 1, 8", "540, 300, 1.43, 6"})
    void theScaleStandsBesideTheLegend(int width, int height, double letters, double scale)
            throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE);
        Fabric fabric = design.fabric();
        Viewport view =
                new Viewport(width, height, fabric.columns() / 2.0, fabric.rows() / 2.0, scale);
        MapScene plain = MapPicture.plain(new OpenDesign(design), view, Palette.LIGHT);
        Set<MapLayer> layers = EnumSet.copyOf(MapLayer.shownFirst());
        layers.add(MapLayer.LEGEND);
        MapScene scene =
                new MapScene(
                        plain.opened(),
                        view,
                        plain.palette(),
                        letters,
                        layers,
                        plain.cells(),
                        plain.net(),
                        plain.route(),
                        plain.alternatives(),
                        plain.before(),
                        plain.obstacles(),
                        plain.chosenObstacle(),
                        plain.marked(),
                        plain.reach(),
                        plain.overlay());
        SvgSurface out = new SvgSurface(width, height, "map");
        MapPicture.paint(scene, out);
        String svg = out.finish();
        Matcher text =
                Pattern.compile("<text x=\"([\\d.]+)\" y=\"([\\d.]+)\"[^>]*>\\d+ tiles<")
                        .matcher(svg);
        assertThat(text.find()).isTrue();
        double x = Double.parseDouble(text.group(1));
        double y = Double.parseDouble(text.group(2));
        LegendPainter.Place legend =
                new LegendPainter(scene, new SvgSurface(1, 1, "")).findPlace().orElseThrow();
        boolean beside = x < legend.left() || x > legend.left() + legend.width();
        assertThat(beside || y < legend.top()).as(x + "," + y + " " + legend).isTrue();
        assertThat(x).isBetween(0.0, (double) width);
        assertThat(y).isBetween(0.0, (double) height);
    }

    /** Nor does the scale cover the name of the bank below. */
    @ParameterizedTest
    @CsvSource({"1180, 700, 9.6", "900, 560, 7.8", "700, 480, 6.5"})
    void theScaleLeavesTheNamesOfBanks(int width, int height, double scale) throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE);
        Fabric fabric = design.fabric();
        Viewport view =
                new Viewport(width, height, fabric.columns() / 2.0, fabric.rows() / 2.0, scale);
        SvgSurface out = new SvgSurface(width, height, "map");
        MapPicture.paint(MapPicture.plain(new OpenDesign(design), view, Palette.LIGHT), out);
        String svg = out.finish();
        double[] bank = place(svg, "bank south");
        double[] tiles = place(svg, "\\d+ tiles");
        // The ruler is at the left of its text, the bank's name around its place.
        boolean apart =
                Math.abs(bank[1] - tiles[1]) > 14
                        || tiles[0] + 60 < bank[0] - 35
                        || tiles[0] - 150 > bank[0] + 35;
        assertThat(apart).as(bank[0] + "," + bank[1] + " " + tiles[0] + "," + tiles[1]).isTrue();
    }

    /** A whole fabric is fitted so that its pads and banks are clear of legend and scale. */
    @ParameterizedTest
    @CsvSource({
        "1180, 560, 1",
        "1180, 560, 1.43",
        "900, 700, 1",
        "520, 700, 1.43",
        "540, 300, 1",
        "536, 238, 1"
    })
    void aFittedFabricIsClearOfLegendAndScale(int width, int height, double letters)
            throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE);
        Fabric fabric = design.fabric();
        WorldRectangle all =
                new WorldRectangle(-0.5, -0.5, fabric.columns() + 0.5, fabric.rows() + 0.5);
        MapScene any =
                withLegend(new OpenDesign(design), new Viewport(width, height, 0, 0, 9), letters);
        Viewport view = FabricFit.in(any, all, 260);
        SvgSurface out = new SvgSurface(width, height, "map");
        MapScene scene = any.seenIn(view);
        MapPicture.paint(scene, out);
        String svg = out.finish();
        double left = view.screenX(all.x0());
        double right = view.screenX(all.x1());
        double top = view.screenY(all.y1());
        double bottom = view.screenY(all.y0());
        LegendPainter.Place legend =
                new LegendPainter(scene, new SvgSurface(1, 1, "")).findPlace().orElseThrow();
        assertThat(legend.left() + legend.width() <= left || legend.top() >= bottom)
                .as("legend %s, fabric from %s, %s", legend, left, bottom)
                .isTrue();
        double half = 11 * letters / 2;
        for (String bank : new String[] {"bank south", "bank north", "bank west", "bank east"}) {
            double[] at = place(svg, bank);
            assertThat(at[1]).as(bank).isBetween(half, height - half);
            assertThat(at[0])
                    .as(bank)
                    .isBetween(bank.endsWith("west") ? 60 * letters : 0.0, (double) width);
        }
        double[] scale = place(svg, "\\d+ tiles");
        // The text begins at the right end of the scale.
        boolean clear = scale[0] < left || scale[0] - 145 > right || scale[1] > bottom;
        double[] south = place(svg, "bank south");
        boolean apart =
                Math.abs(south[1] - scale[1]) > 1.4 * 11 * letters
                        || scale[0] + 55 * letters < south[0] - 35 * letters
                        || scale[0] - 150 > south[0] + 35 * letters;
        assertThat(apart).as("scale at %s, bank at %s", scale[0], south[0]).isTrue();
        assertThat(clear)
                .as(
                        "scale at %s,%s, fabric %s–%s, %s–%s",
                        scale[0], scale[1], left, right, top, bottom)
                .isTrue();
    }

    private static MapScene withLegend(OpenDesign opened, Viewport view, double letters) {
        MapScene plain = MapPicture.plain(opened, view, Palette.LIGHT);
        Set<MapLayer> layers = EnumSet.copyOf(MapLayer.shownFirst());
        layers.add(MapLayer.LEGEND);
        return new MapScene(
                plain.opened(),
                view,
                plain.palette(),
                letters,
                layers,
                plain.cells(),
                plain.net(),
                plain.route(),
                plain.alternatives(),
                plain.before(),
                plain.obstacles(),
                plain.chosenObstacle(),
                plain.marked(),
                plain.reach(),
                plain.overlay());
    }

    private static double[] place(String svg, String text) {
        Matcher found =
                Pattern.compile("<text x=\"([\\d.]+)\" y=\"([\\d.]+)\"[^>]*>" + text + "<")
                        .matcher(svg);
        assertThat(found.find()).as(text).isTrue();
        return new double[] {
            Double.parseDouble(found.group(1)), Double.parseDouble(found.group(2))
        };
    }

    @Test
    void aSmallFabricNeedsNone() throws Exception {
        assertThat(picture("fixtures/small/only.design.json", 12)).doesNotContain("tiles<");
    }
}
