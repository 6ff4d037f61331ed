package padward.ui.paint;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.fabric.Pad;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapScene;

/** Names on the map, at usual and at larger sizes of text. */
class SitePainterTest {
    private static final int SIZE = 2000;
    private static OpenDesign opened;

    @BeforeAll
    static void read() throws Exception {
        Path file = Path.of("fixtures/small/only.design.json");
        opened = new OpenDesign(DesignReader.read(file, Progress.NONE));
    }

    private static MapScene scene(
            Viewport view, double letters, Set<MapLayer> layers, Optional<MapOverlay> overlay) {
        return scene(view, Palette.LIGHT, letters, layers, overlay);
    }

    private static MapScene scene(
            Viewport view,
            Palette palette,
            double letters,
            Set<MapLayer> layers,
            Optional<MapOverlay> overlay) {
        MapScene plain = MapPicture.plain(opened, view, palette);
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
                overlay);
    }

    private static String picture(MapScene scene) {
        SvgSurface out =
                new SvgSurface((int) scene.view().width(), (int) scene.view().height(), "map");
        MapPicture.paint(scene, out);
        return out.finish();
    }

    private static Set<String> texts(String svg) {
        Set<String> found = new HashSet<>();
        Matcher text = Pattern.compile("<text[^>]*>([^<]*)<").matcher(svg);
        while (text.find()) {
            found.add(text.group(1));
        }
        return found;
    }

    /** 14 pixels, which is usual, 20, and 24. */
    @ParameterizedTest
    @CsvSource({"56, 1", "56, 1.43", "56, 1.71", "70, 1.43", "100, 1.43", "200, 1.71"})
    void everyPadHasItsNameWhateverTheSizeOfText(double scale, double letters) {
        Viewport view = new Viewport(SIZE, SIZE, 4, 4, scale);
        MapScene scene = scene(view, letters, MapLayer.shownFirst(), Optional.empty());
        assertThat(texts(picture(scene)))
                .containsAll(
                        opened.design().fabric().pads().stream().map(Pad::packagePin).toList());
    }

    @Test
    void aLongNameIsShortenedAndShortOnesStayWhole(@TempDir Path folder) throws Exception {
        for (String file : List.of("only.design.json", "only.fabric.json", "board.json")) {
            String text = Files.readString(Path.of("fixtures/small", file));
            Files.writeString(folder.resolve(file), text.replace("\"D7\"", "\"D7654321\""));
        }
        OpenDesign longer =
                new OpenDesign(
                        DesignReader.read(folder.resolve("only.design.json"), Progress.NONE));
        Viewport view = new Viewport(SIZE, SIZE, 4, 4, 80);
        Set<String> texts = texts(picture(MapPicture.plain(longer, view, Palette.LIGHT)));
        assertThat(texts).contains("D8", "E2").doesNotContain("D7654321");
        assertThat(texts).anyMatch(t -> t.matches("…[0-9]*21"));
    }

    /** Pins are on the rim of a site. */
    @ParameterizedTest
    @CsvSource({"200", "320", "500", "650", "800"})
    void namesTouchNeitherTheRimOfASiteNorItsPins(double scale) {
        Viewport view = new Viewport(9 * scale, 9 * scale, 4, 4, scale);
        Matcher text =
                Pattern.compile(
                                "<text x=\"([\\d.]+)\" y=\"([\\d.]+)\" font-size=\"([\\d.]+)\""
                                        + "([^>]*)>([^<]*)<")
                        .matcher(picture(MapPicture.plain(opened, view, Palette.LIGHT)));
        int seen = 0;
        while (text.find()) {
            double x = view.worldX(Double.parseDouble(text.group(1)));
            double y = view.worldY(Double.parseDouble(text.group(2)));
            boolean upwards = text.group(4).contains("rotate");
            double wide = Surface.Lettering.width(text.group(5), Double.parseDouble(text.group(3)));
            for (int site = 0; site < opened.design().fabric().siteCount(); site++) {
                TileLayout.Box box = opened.layout().site(site);
                boolean inside =
                        Math.abs(x - box.centreX()) < box.width() / 2
                                && Math.abs(y - box.centreY()) < box.height() / 2;
                if (inside) {
                    double room = (upwards ? box.height() : box.width()) * scale;
                    assertThat(wide).as(text.group(5)).isLessThan(room - 4);
                    seen++;
                }
            }
        }
        assertThat(seen).isGreaterThan(20);
    }

    /** Tiles in use become darker on paper, lighter in the dark theme. */
    @ParameterizedTest
    @CsvSource({"false, darker", "true, lighter"})
    void theLegendSaysHowTilesInUseLook(boolean dark, String word) {
        Set<MapLayer> layers = EnumSet.of(MapLayer.LEGEND, MapLayer.OCCUPANCY);
        Viewport view = new Viewport(900, 600, 4, 4, 20);
        MapScene scene =
                scene(view, dark ? Palette.DARK : Palette.LIGHT, 1, layers, Optional.empty());
        assertThat(texts(picture(scene))).contains("tile: the " + word + ", the more is in use");
    }

    /** The legend lies above everything else, so no name of a route may be below it. */
    @Test
    void noNameOfARouteIsUnderTheLegend() {
        Set<MapLayer> layers = EnumSet.copyOf(MapLayer.shownFirst());
        layers.add(MapLayer.LEGEND);
        List<MarkedRoutes.Line> lines = new ArrayList<>();
        for (Pad pad : opened.design().fabric().pads()) {
            String name = "a net on " + pad.packagePin();
            lines.add(
                    new MarkedRoutes.Line(
                            List.of(pad.vertex()), name, new RouteMark(0), Optional.empty()));
        }
        int seen = 0;
        for (int from = 0; from < lines.size(); from += 6) {
            MarkedRoutes overlay = new MarkedRoutes(lines.subList(from, from + 6));
            Viewport view = new Viewport(900, 600, 4, 4, 50);
            MapScene scene = scene(view, 1, layers, Optional.of(overlay));
            LegendPainter.Place at =
                    new LegendPainter(scene, new SvgSurface(1, 1, "")).findPlace().orElseThrow();
            Matcher tag =
                    Pattern.compile("<text x=\"([\\d.]+)\" y=\"([\\d.]+)\"[^>]*>(a net on[^<]*)<")
                            .matcher(picture(scene));
            while (tag.find()) {
                seen++;
                double x = Double.parseDouble(tag.group(1));
                double y = Double.parseDouble(tag.group(2));
                boolean under =
                        x + 70 > at.left()
                                && x < at.left() + at.width()
                                && y > at.top()
                                && y < at.top() + at.height();
                assertThat(under).as(tag.group(3)).isFalse();
            }
        }
        assertThat(seen).isGreaterThan(20);
    }
}
