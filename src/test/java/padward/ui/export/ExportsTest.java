package padward.ui.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import padward.breakout.ask.Route;
import padward.ui.OpenWindow;
import padward.ui.control.Actions;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.map.MapModel;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;
import padward.ui.paint.MapPicture;
import padward.ui.paint.StripPainter;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;

/** Pictures and tables saved from the window, read again by parsers of others. */
@ExtendWith(ApplicationExtension.class)
class ExportsTest {
    private WindowModel model;
    private Actions actions;
    private Exports exports;

    @TempDir private Path folder;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
        actions = OpenWindow.actions(stage);
        exports = OpenWindow.exports(stage);
        exports.setDialog((title, name) -> Optional.of(folder.resolve(name)));
        model.shown().netTextProperty().set("pump/level/sample[1]");
        model.shown().padTextProperty().set("J1.3");
        model.shown().ask();
    }

    private Path save(FxRobot robot, String action, String name) {
        robot.interact(() -> actions.get(action).run());
        assertThat(model.notes().statusProperty().get()).contains("Saved").contains(name);
        assertThat(model.notes().all()).as("success is no fault").isEmpty();
        return folder.resolve(name);
    }

    private static Document parse(String text) {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        try {
            return factory.newDocumentBuilder().parse(new InputSource(new StringReader(text)));
        } catch (ParserConfigurationException | SAXException | IOException fault) {
            throw new AssertionError(fault);
        }
    }

    private static List<Element> all(Document document, String name) {
        NodeList nodes = document.getElementsByTagNameNS("http://www.w3.org/2000/svg", name);
        List<Element> result = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            result.add((Element) nodes.item(i));
        }
        return result;
    }

    @Test
    void theMapIsADrawing(FxRobot robot) throws Exception {
        Document svg = parse(Files.readString(save(robot, "save-map-svg", "map.svg")));
        Element root = svg.getDocumentElement();
        MapScene scene = robot.lookup("#map").queryAs(MapView.class).scene().orElseThrow();
        assertThat(Double.parseDouble(root.getAttribute("width"))).isEqualTo(scene.view().width());
        assertThat(all(svg, "text"))
                .extracting(Element::getTextContent)
                .contains("D7", "pump/run/motor_out");
        // The way: thick lines in the way's colour, as many as its hops need.
        String blue = "#0072b2";
        Route route = model.shown().route().orElseThrow();
        long wires = route.hops().stream().filter(h -> h.kind().name().equals("WIRE")).count();
        assertThat(all(svg, "line"))
                .filteredOn(
                        l ->
                                l.getAttribute("stroke").equals(blue)
                                        && l.getAttribute("stroke-width").equals("4"))
                .hasSizeGreaterThanOrEqualTo((int) wires);
        assertThat(all(svg, "path")).as("wires, a path a colour").isNotEmpty();
        assertThat(all(svg, "line"))
                .filteredOn(l -> l.getAttribute("stroke-width").equals("1.6"))
                .as("the obstacle's hatching")
                .hasSizeGreaterThan(5);
        assertThat(all(svg, "g"))
                .extracting(g -> g.getAttribute("id"))
                .contains("fabric", "routes")
                .doesNotContain("overview");
    }

    /** A saved map of the whole fabric has every pad, and nothing lies over one. */
    @Test
    void theWholeFabricIsSavedWithAllItsPads(FxRobot robot) throws Exception {
        robot.interact(() -> actions.get("whole-fabric").run());
        Document svg = parse(Files.readString(save(robot, "save-map-svg", "map.svg")));
        MapScene scene = robot.lookup("#map").queryAs(MapView.class).scene().orElseThrow();
        var pads = scene.opened().design().fabric().pads();
        Viewport view = scene.view();
        for (int pad = 0; pad < pads.size(); pad++) {
            TileLayout.Box pill = scene.opened().layout().pad(pad);
            assertThat(view.screenX(pill.x())).isBetween(0.0, view.width());
            assertThat(view.screenX(pill.x() + pill.width())).isBetween(0.0, view.width());
            assertThat(view.screenY(pill.y())).isBetween(0.0, view.height());
            assertThat(view.screenY(pill.y() + pill.height())).isBetween(0.0, view.height());
        }
        List<Element> texts = all(svg, "text");
        double legend =
                texts.stream()
                        .filter(t -> t.getTextContent().equals("switch box"))
                        .mapToDouble(t -> Double.parseDouble(t.getAttribute("y")))
                        .min()
                        .orElseThrow();
        assertThat(legend).as("below the map").isGreaterThan(view.height());
        assertThat(all(svg, "g")).extracting(g -> g.getAttribute("id")).doesNotContain("overview");
    }

    private static String onScreen(MapScene scene) {
        SvgSurface out = new SvgSurface(scene.view().width(), scene.view().height(), "map");
        MapPicture.paint(scene, out);
        return out.finish();
    }

    /** Light, whatever the window is; scale and legend below the map, and not on it. */
    @Test
    void picturesAreForPaper(FxRobot robot) throws Exception {
        robot.interact(() -> model.look().darkProperty().set(true));
        String text = Files.readString(save(robot, "save-map-svg", "map.svg"));
        assertThat(text).contains("#faf8f4").doesNotContain("#1f2733");
        Document svg = parse(text);
        MapScene scene = robot.lookup("#map").queryAs(MapView.class).scene().orElseThrow();
        assertThat(scene.shows(MapLayer.LEGEND)).isFalse();
        double map = scene.view().height();
        assertThat(Double.parseDouble(svg.getDocumentElement().getAttribute("height")))
                .isGreaterThan(map + 60);
        assertThat(all(svg, "text"))
                .filteredOn(t -> Double.parseDouble(t.getAttribute("y")) > map)
                .extracting(Element::getTextContent)
                .contains(
                        "1 tile",
                        "what blocks the route",
                        "the route, from the disc to the pad; dots are switches")
                .anyMatch(t -> t.startsWith("bilge-pump on larch-8-only, tiles x"));
        assertThat(Files.readString(save(robot, "save-strip-svg", "strip-map.svg")))
                .contains("#faf8f4")
                .doesNotContain("#1f2733");
    }

    @Test
    void theLegendSaysWhatTheMapShowsAndNothingElse(FxRobot robot) throws Exception {
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        MapModel map = new MapModel(model);
        TileImage cells = new TileImage(opened.design().fabric(), tile -> 0);
        Viewport near = new Viewport(900, 700, 5, 4, 110);
        Supplier<List<String>> texts =
                () ->
                        all(parse(onScreen(map.scene(opened, near, Palette.LIGHT, cells))), "text")
                                .stream()
                                .map(Element::getTextContent)
                                .toList();
        assertThat(texts.get()).doesNotContain("switch box");
        robot.interact(() -> map.options().toggle(MapLayer.LEGEND));
        assertThat(texts.get())
                .contains("switch box", "wires in use", "what blocks the route")
                .contains("the route, from the disc to the pad; dots are switches")
                .doesNotContain("tile: the darker, the more is in use");
        robot.interact(() -> map.options().toggle(MapLayer.OCCUPANCY));
        robot.interact(() -> map.options().toggle(MapLayer.OBSTACLES));
        assertThat(texts.get()).doesNotContain("wires in use", "what blocks the route");
    }

    @Test
    void allWiresInViewAreInTheDrawing() throws Exception {
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        MapModel map = new MapModel(model);
        int columns = opened.design().fabric().columns();
        int rows = opened.design().fabric().rows();
        Viewport all = new Viewport(100 * columns, 100 * rows, columns / 2.0, rows / 2.0, 80);
        TileImage cells = new TileImage(opened.design().fabric(), tile -> 0);
        Document svg = parse(Pictures.mapSvg(map.scene(opened, all, Palette.LIGHT, cells)));
        long lines =
                all(svg, "path").stream()
                        .mapToLong(p -> p.getAttribute("d").chars().filter(c -> c == 'M').count())
                        .sum();
        long wires = 0;
        for (int v = 0; v < opened.design().fabric().vertexCount(); v++) {
            wires += opened.index().head(v) >= 0 ? 1 : 0;
        }
        assertThat(lines).isEqualTo(wires);
    }

    @Test
    void namesThatXmlWouldTakeForItsOwnComeBack() throws Exception {
        SvgSurface out = new SvgSurface(100, 50, "a <title> & \u0001 \"more\"");
        String name = "top/<bus>[3]&\u20ac'\uD835\uDD38";
        out.text(
                name, 3, 4, new Surface.Lettering(10, Surface.Align.RIGHT, Palette.DARK.ink(), 90));
        Document svg = parse(out.finish());
        assertThat(all(svg, "text").get(0).getTextContent()).isEqualTo(name);
        assertThat(all(svg, "text").get(0).getAttribute("text-anchor")).isEqualTo("end");
        assertThat(all(svg, "title").get(0).getTextContent()).startsWith("a <title> & \ufffd");
    }

    /** The whole name, or as much of its end as there is room for. */
    private static boolean isEndOf(String name, String text) {
        return text.equals(name)
                || text.length() > 8 && text.startsWith("…") && name.endsWith(text.substring(1));
    }

    @Test
    void theStripMapIsADrawing(FxRobot robot) throws Exception {
        Document svg = parse(Files.readString(save(robot, "save-strip-svg", "strip-map.svg")));
        List<String> texts = all(svg, "text").stream().map(Element::getTextContent).toList();
        model.shown()
                .route()
                .orElseThrow()
                .hops()
                .forEach(h -> assertThat(texts).anyMatch(t -> isEndOf(h.name(), t)));
        assertThat(texts).contains("0.000 ns", "2.520–4.150 ns");
    }

    @Test
    void picturesHaveTwoPixelsForEachOfTheScreen(FxRobot robot) throws Exception {
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        Viewport view = map.viewport();
        var image = ImageIO.read(save(robot, "save-map-png", "map.png").toFile());
        assertThat(image.getWidth()).isEqualTo((int) Math.ceil(2 * view.width()));
        assertThat(image.getHeight()).isGreaterThan((int) Math.ceil(2 * view.height()));
        var strip = ImageIO.read(save(robot, "save-strip-png", "strip-map.png").toFile());
        assertThat(strip.getHeight()).isEqualTo((int) (2 * StripPainter.height(1)));
    }

    private static List<CSVRecord> read(Path file) throws Exception {
        String text = Files.readString(file);
        assertThat(text).contains("\r\n");
        try (CSVParser parser =
                CSVParser.parse(
                        text,
                        CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
            return parser.getRecords();
        }
    }

    @Test
    void tablesComeBackAsTheyWere(FxRobot robot) throws Exception {
        List<CSVRecord> routes = read(save(robot, "save-routes-out-csv", "routes-out.csv"));
        assertThat(routes)
                .hasSize(model.shown().surveyProperty().get().orElseThrow().answers().size());
        assertThat(routes.get(0).get("slow_ps")).isEqualTo("3980");
        List<CSVRecord> hops = read(save(robot, "save-route-csv", "route.csv"));
        assertThat(hops).hasSize(model.shown().route().orElseThrow().hops().size() + 1);
        assertThat(hops.get(hops.size() - 1).get("slow_ps")).isEqualTo("4150");
        List<CSVRecord> nets = read(save(robot, "save-nets-csv", "nets.csv"));
        assertThat(nets).hasSize(13);
        assertThat(nets)
                .anyMatch(r -> r.get("net").equals("clk12") && r.get("clock").equals("yes"));
        List<CSVRecord> options = read(save(robot, "save-options-csv", "options.csv"));
        assertThat(options.get(0).get("obstacle")).isEqualTo("cell pump/run/motor_out");
        assertThat(options.get(0).get("consequence")).startsWith("removable: ");
    }

    @Test
    void quotesAndLineEndsInNamesComeBack() throws Exception {
        CsvTable.Builder table = new CsvTable.Builder("name", "with,comma");
        table.row("say \"so\"", "two\r\nlines");
        try (CSVParser parser = CSVParser.parse(table.build().toCsv(), CSVFormat.RFC4180)) {
            List<CSVRecord> rows = parser.getRecords();
            assertThat(rows.get(0).get(1)).isEqualTo("with,comma");
            assertThat(rows.get(1).get(0)).isEqualTo("say \"so\"");
            assertThat(rows.get(1).get(1)).isEqualTo("two\r\nlines");
        }
    }

    @Test
    void nothingIsSavedWhenTheUserThinksBetterOfIt(FxRobot robot) {
        exports.setDialog((title, name) -> Optional.empty());
        robot.interact(() -> actions.get("save-map-svg").run());
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void aFolderThatIsNotThereIsTold(FxRobot robot) {
        exports.setDialog((title, name) -> Optional.of(folder.resolve("missing").resolve(name)));
        robot.interact(() -> actions.get("save-nets-csv").run());
        assertThat(model.notes().all().get(0).text())
                .contains("nets.csv")
                .contains("no such folder");
    }
}
