package padward.ui.map;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javafx.scene.paint.Color;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.DelayField;
import padward.breakout.ask.Hop;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.WholeSite;
import padward.format.tables.TableImport;
import padward.synth.DesignMaker;
import padward.ui.design.BoxDiagram;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.model.WindowModel;
import padward.ui.paint.MapPicture;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.work.BackgroundWork;

/** What the map shows of a device as devices are: the irregular fixture. */
class DeviceMapTest {
    private static final Path FIXTURE = Path.of("fixtures/irregular");

    private final WindowModel model = new WindowModel(BackgroundWork.immediate());
    private final MapModel map = new MapModel(model);
    private OpenDesign opened;
    private Fabric fabric;
    private TileLayout layout;

    @BeforeEach
    void open() throws Exception {
        TableImport.Sound read = (TableImport.Sound) TableImport.read(FIXTURE, 10, Progress.NONE);
        open(read.design().orElseThrow());
    }

    private void open(Design design) {
        model.openLesson(progress -> design);
        opened = model.openedProperty().get().orElseThrow();
        fabric = design.fabric();
        layout = opened.layout();
    }

    private void ask(String net, String pad) {
        model.shown().netTextProperty().set(net);
        model.shown().padTextProperty().set(pad);
        model.shown().ask();
    }

    private MapScene scene(double x, double y, double scale) {
        TileImage cells = new TileImage(fabric, tile -> 0);
        return map.scene(opened, new Viewport(1280, 800, x, y, scale), Palette.LIGHT, cells);
    }

    private String picture(double x, double y, double scale) {
        SvgSurface out = new SvgSurface(1280, 800, "map");
        MapPicture.paint(scene(x, y, scale), out);
        return out.finish();
    }

    private String pictureOfBox(int tile) {
        TileLayout.Point box = layout.box(tile);
        return picture(box.x(), box.y(), 2600);
    }

    private MapItem at(double x, double y, double scale) {
        return new MapHitTest(opened).find(x, y, scale).orElseThrow();
    }

    private int tile(String name) {
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            if (fabric.tileName(tile).equals(name)) {
                return tile;
            }
        }
        throw new AssertionError(name);
    }

    private static List<String[]> rows(String table) throws IOException {
        return Files.readAllLines(FIXTURE.resolve(table + ".csv")).stream()
                .skip(1)
                .map(l -> l.split(",", -1))
                .toList();
    }

    /** The switches of each tile, by names alone, from the lines of the tables. */
    private static Map<String, Set<String>> switchesByTile() throws IOException {
        Map<String, String> wireOf = new HashMap<>();
        Map<String, Set<String>> tilesOf = new HashMap<>();
        for (String[] tap : rows("taps")) {
            tilesOf.computeIfAbsent(tap[0], w -> new HashSet<>()).add(tap[1]);
            wireOf.put(tap[2].isEmpty() ? tap[0] : tap[2], tap[0]);
        }
        Set<String> wires = new HashSet<>();
        rows("wires").forEach(w -> wires.add(w[0]));
        Map<String, Set<String>> result = new TreeMap<>();
        for (String[] row : rows("switches")) {
            String from = wireOf.getOrDefault(row[0], row[0]);
            String to = wireOf.getOrDefault(row[1], row[1]);
            if (!wires.contains(from) && !wires.contains(to)) {
                continue;
            }
            Set<String> tiles =
                    new HashSet<>(tilesOf.getOrDefault(from, Set.of(row[0].split("/")[0])));
            tiles.retainAll(tilesOf.getOrDefault(to, Set.of(row[1].split("/")[0])));
            String tile = row[3].isEmpty() ? tiles.iterator().next() : row[3];
            assertThat(row[3].isEmpty() ? tiles.size() : 1).isEqualTo(1);
            result.computeIfAbsent(tile, t -> new TreeSet<>()).add(from + " > " + to);
        }
        return result;
    }

    @Test
    void aBoxShowsTheSwitchesOfItsTile() throws Exception {
        Map<String, Set<String>> shown = new TreeMap<>();
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            BoxDiagram diagram = opened.diagram(tile);
            for (BoxDiagram.Switch one : diagram.switches()) {
                String from = fabric.vertexName(diagram.input(one.from()));
                String to = fabric.vertexName(diagram.output(one.to()));
                assertThat(
                                shown.computeIfAbsent(fabric.tileName(tile), t -> new TreeSet<>())
                                        .add(from + " > " + to))
                        .as("once")
                        .isTrue();
            }
        }
        Map<String, Set<String>> stated = switchesByTile();
        assertThat(shown.keySet()).isEqualTo(stated.keySet());
        stated.forEach((tile, set) -> assertThat(shown.get(tile)).as(tile).isEqualTo(set));
    }

    @Test
    void eachRowOfABoxIsInsideItAndIsFoundThere() {
        open(DesignMaker.makeIrregular(6000, 3, 0.6, Progress.NONE).design());
        for (int tile = 0; tile < fabric.tileCount(); tile += 5) {
            BoxDiagram diagram = opened.diagram(tile);
            for (int row = 0; row < diagram.inputCount(); row++) {
                TileLayout.Point dot = diagram.inputAt(row);
                assertThat(diagram.contains(dot.x(), dot.y())).isTrue();
                assertThat(diagram.vertexAt(dot.x(), dot.y())).hasValue(diagram.input(row));
            }
            for (int row = 0; row < diagram.outputCount(); row++) {
                TileLayout.Point dot = diagram.outputAt(row);
                assertThat(diagram.contains(dot.x(), dot.y())).isTrue();
                assertThat(diagram.vertexAt(dot.x(), dot.y())).hasValue(diagram.output(row));
            }
        }
    }

    /**
     * Bars of many multiplexers, of which no switch is drawn, would hide the question's switches.
     */
    @Test
    void aFullBoxShowsOnlyTheMultiplexersThatTheQuestionIsAbout() {
        open(DesignMaker.makeIrregular(6000, 3, 0.6, Progress.NONE).design());
        int tile = 0;
        while (opened.diagram(tile).switches().size() < 300
                || opened.diagram(tile).groups().size() < 10) {
            tile++;
        }
        BoxDiagram diagram = opened.diagram(tile);
        String bar = "stroke=\"#" + Palette.LIGHT.frontier().toString().substring(2, 8) + "\"";
        assertThat(pictureOfBox(tile)).doesNotContain(bar);
        BoxDiagram.Switch one = diagram.groups().get(0).switches().get(0);
        int to = diagram.output(one.to());
        map.pinnedProperty().set(Optional.of(new MapItemDescriber(opened).vertex(to)));
        assertThat(pictureOfBox(tile)).contains(bar);
    }

    @Test
    void theNearestZoomNamesWhatABoxSwitchesAndItsMultiplexers() {
        int tile = tile("x1y1");
        String picture = pictureOfBox(tile);
        assertThat(picture).contains(">e1[0]<", ">w2[1]<", ">cell.y<", ">cell.d<");
        assertThat(picture).contains(">one of turn0<", ">one of turn1<");
        assertThat(picture).contains("switch box of x1y1: 21 switches");
        TileLayout.Point middle = layout.box(tile);
        MapItem box = at(middle.x(), middle.y(), 2600);
        assertThat(box.line()).startsWith("switch box x1y1: 21 switches from 9 inputs");
        assertThat(box.details()).anyMatch(d -> d.contains("switch group x1y1/turn0"));
    }

    /** A straight piece of a line of the picture, pixels. */
    private record Piece(double x0, double y0, double x1, double y1) {
        double length() {
            return Math.hypot(x1 - x0, y1 - y0);
        }

        /** The distance of a place on this piece, a share of its length, to another piece. */
        double apart(double share, Piece other) {
            double x = x0 + share * (x1 - x0) - other.x0;
            double y = y0 + share * (y1 - y0) - other.y0;
            double dx = other.x1 - other.x0;
            double dy = other.y1 - other.y0;
            double at = (x * dx + y * dy) / Math.max(1e-9, dx * dx + dy * dy);
            double within = Math.max(0, Math.min(1, at));
            return Math.hypot(x - within * dx, y - within * dy);
        }

        /** Pixels of this piece so close to other ones that two wide lines would be one. */
        double besides(List<Piece> others) {
            long near =
                    IntStream.range(0, 100)
                            .filter(i -> others.stream().anyMatch(o -> apart(i / 99.0, o) < 6))
                            .count();
            return near / 100.0 * length();
        }

        boolean meets(Piece other) {
            return Math.min(
                            Math.min(apart(0, other), apart(1, other)),
                            Math.min(other.apart(0, this), other.apart(1, this)))
                    < 0.1;
        }
    }

    private static List<Piece> pieces(String svg, Color color) {
        Pattern line =
                Pattern.compile(
                        "<line x1=\"(.*?)\" y1=\"(.*?)\" x2=\"(.*?)\" y2=\"(.*?)\" stroke=\"#"
                                + color.toString().substring(2, 8));
        return line.matcher(svg)
                .results()
                .map(
                        m ->
                                new Piece(
                                        Double.parseDouble(m.group(1)),
                                        Double.parseDouble(m.group(2)),
                                        Double.parseDouble(m.group(3)),
                                        Double.parseDouble(m.group(4))))
                .filter(p -> p.length() > 1)
                .toList();
    }

    /** In a box, no piece of the route lies beside another so close that both are one line. */
    @Test
    void aRouteDoesNotRunOnItselfInABox() {
        open(DesignMaker.makeIrregular(6000, 3, 0.6, Progress.NONE).design());
        int boxes = 0;
        for (String pad : List.of("x0y2/pad[0]", "x4y11/pad[0]", "x11y8/pad[0]", "x8y0/pad[1]")) {
            ask("pump/phase/state[4]", pad);
            int[] hops =
                    model.shown().route().orElseThrow().hops().stream()
                            .mapToInt(Hop::vertex)
                            .toArray();
            for (int i = 1; i < hops.length; i++) {
                int tile = layout.meeting(hops[i - 1], hops[i]).toTile();
                String picture = pictureOfBox(tile);
                // What is drawn before the disc of the box is below it.
                String inside = picture.substring(picture.lastIndexOf("r=\"338\""));
                List<Piece> route = pieces(inside, Palette.LIGHT.route());
                assertThat(route).isNotEmpty();
                for (Piece one : route) {
                    List<Piece> others = route.stream().filter(o -> !one.meets(o)).toList();
                    assertThat(one.besides(others))
                            .as(fabric.tileName(tile) + " to " + pad)
                            .isLessThan(20);
                }
                boxes++;
            }
        }
        assertThat(boxes).isGreaterThan(12);
    }

    /** Left and right of a box, a route's rows lead to the right: into it, and out of it. */
    @Test
    void arrowheadsShowWhichWayTheSignalGoes() {
        open(DesignMaker.makeIrregular(6000, 3, 0.6, Progress.NONE).design());
        int onRows = 0;
        for (String pad : List.of("x0y2/pad[0]", "x4y11/pad[0]", "x11y8/pad[0]", "x8y0/pad[1]")) {
            ask("pump/phase/state[4]", pad);
            int[] hops =
                    model.shown().route().orElseThrow().hops().stream()
                            .mapToInt(Hop::vertex)
                            .toArray();
            for (int i = 1; i < hops.length; i++) {
                int tile = layout.meeting(hops[i - 1], hops[i]).toTile();
                BoxDiagram diagram = opened.diagram(tile);
                int row = diagram.inputRow(hops[i - 1]);
                if (row == Fabric.NOTHING || diagram.outputRow(hops[i]) == Fabric.NOTHING) {
                    continue;
                }
                String picture = pictureOfBox(tile);
                double y = 400 - (diagram.inputAt(row).y() - layout.box(tile).y()) * 2600;
                List<double[]> heads = heads(picture, Palette.LIGHT.route());
                for (double[] head : heads) {
                    if (Math.abs(head[1] - y) < 0.1 && head[0] < 640) {
                        assertThat(head[0]).isGreaterThan(head[2]);
                        onRows++;
                    }
                }
            }
        }
        assertThat(onRows).isGreaterThan(8);
    }

    /** Tip (x, y), and x of one corner of the base, of each triangle of a colour. */
    private static List<double[]> heads(String svg, Color color) {
        String number = "([-\\d.]+)";
        Pattern triangle =
                Pattern.compile(
                        "<polygon points=\"%s,%s %s,%s %s,%s\" fill=\"#%s"
                                .formatted(
                                        number,
                                        number,
                                        number,
                                        number,
                                        number,
                                        number,
                                        color.toString().substring(2, 8)));
        return triangle.matcher(svg)
                .results()
                .map(
                        m ->
                                IntStream.rangeClosed(1, 3)
                                        .mapToDouble(g -> Double.parseDouble(m.group(g)))
                                        .toArray())
                .toList();
    }

    /** A box with many switches is no blot: those of the wire under the pointer are drawn. */
    @Test
    void switchesOfACrowdedBoxAreShownOnDemand() {
        open(DesignMaker.makeIrregular(6000, 3, 0.6, Progress.NONE).design());
        int tile = 0;
        for (int other = 0; other < fabric.tileCount(); other++) {
            int most = opened.diagram(tile).switches().size();
            tile = opened.diagram(other).switches().size() > most ? other : tile;
        }
        BoxDiagram diagram = opened.diagram(tile);
        assertThat(diagram.switches()).hasSizeGreaterThan(300);
        int quiet = lines(pictureOfBox(tile));
        int row = diagram.switches().get(0).to();
        long leadHere = diagram.switches().stream().filter(s -> s.to() == row).count();
        map.pointedProperty().set(Optional.of(diagram.output(row)));
        assertThat(lines(pictureOfBox(tile)) - quiet).isGreaterThanOrEqualTo((int) leadHere);
        map.pointedProperty().set(Optional.empty());
        assertThat(lines(pictureOfBox(tile))).isEqualTo(quiet);
    }

    /** Straight lines among the small marks. */
    private static int strokes(String svg) {
        return svg.split("M-?[0-9.]+ -?[0-9.]+L", -1).length;
    }

    private static int lines(String svg) {
        return svg.split("<line", -1).length;
    }

    private static boolean contains(TileLayout.Box outer, TileLayout.Box inner) {
        double least = 1e-9;
        return outer.x() <= inner.x() + least
                && outer.y() <= inner.y() + least
                && outer.x() + outer.width() >= inner.x() + inner.width() - least
                && outer.y() + outer.height() >= inner.y() + inner.height() - least;
    }

    private static boolean overlap(TileLayout.Box one, TileLayout.Box other) {
        double least = 1e-9;
        return one.x() + one.width() > other.x() + least
                && other.x() + other.width() > one.x() + least
                && one.y() + one.height() > other.y() + least
                && other.y() + other.height() > one.y() + least;
    }

    @Test
    void partsAreInTheFrameOfTheirSite() {
        for (Design design :
                List.of(
                        opened.design(),
                        DesignMaker.makeIrregular(6000, 3, 0.6, Progress.NONE).design())) {
            open(design);
            int framed = 0;
            for (WholeSite site : WholeSite.allOf(fabric)) {
                if (!site.hasParts()) {
                    assertThat(layout.frame(site.first().id())).isEmpty();
                    continue;
                }
                framed++;
                TileLayout.Box frame = layout.frame(site.first().id()).orElseThrow();
                List<TileLayout.Box> parts =
                        site.parts().stream().map(p -> layout.site(p.id())).toList();
                for (int i = 0; i < parts.size(); i++) {
                    assertThat(contains(frame, parts.get(i))).as(site.name()).isTrue();
                    for (int j = 0; j < i; j++) {
                        assertThat(overlap(parts.get(i), parts.get(j))).isFalse();
                    }
                }
            }
            assertThat(framed).isGreaterThan(3);
        }
    }

    @Test
    void aSiteTellsWhichOfItsPartsAreUsed() {
        int table = fabric.findSite("x1y0/cell/table");
        TileLayout.Box frame = layout.frame(table).orElseThrow();
        TileLayout.Box part = layout.site(table);
        MapItem whole = at(frame.centreX(), frame.y() + frame.height() - 0.01, 300);
        assertThat(whole.line()).isEqualTo("cell site x1y0/cell: 1 of its 2 parts used");
        assertThat(whole.details())
                .containsExactly("Part table: free.", "Part register: used by cell hold.");
        assertThat(at(part.centreX(), part.centreY(), 300).line())
                .isEqualTo("part of a cell site x1y0/cell/table: free");
        String picture = picture(1.7, 0.7, 420);
        assertThat(picture).contains(">cell<", ">table<", ">register<", ">hold<");
    }

    /** The memory is one frame across its two tiles, and found in both. */
    @Test
    void aSiteOverTwoTilesIsOneFrame() {
        TileLayout.Box memory = layout.site(fabric.findSite("x2y0/mem"));
        assertThat(memory.y()).isLessThan(1);
        assertThat(memory.y() + memory.height()).isGreaterThan(1.5);
        for (double y : new double[] {0.6, 1.0, 1.6}) {
            assertThat(at(memory.centreX(), y, 300).line())
                    .startsWith("memory site x2y0/mem: used by cell store");
        }
    }

    /** The least delay to a wire with a tap in a tile, from the lines of the tables. */
    @Test
    void aWireIsReachedInTheTilesOfItsTaps() throws Exception {
        ask("data_en", "x3y1/pad4");
        map.options().toggle(MapLayer.DELAY);
        DelayField field = map.reachProperty().get().orElseThrow().field();
        Map<String, Integer> least = new HashMap<>();
        Set<String> tapped = new HashSet<>();
        for (String[] tap : rows("taps")) {
            tapped.add(tap[0]);
            least.merge(tap[1], field.atPs(fabric.findVertex(tap[0])), Math::min);
        }
        for (String[] wire : rows("wires")) {
            assertThat(tapped).contains(wire[0]);
        }
        int reached = 0;
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            int stated = least.getOrDefault(fabric.tileName(tile), DelayField.NEVER);
            assertThat(field.arrivalPs(tile)).as(fabric.tileName(tile)).isEqualTo(stated);
            reached += stated == DelayField.NEVER ? 0 : 1;
        }
        assertThat(reached).isGreaterThan(4);
    }

    private Viewport found(String name) {
        MapNavigation navigation = MapNavigationTest.navigation(map);
        navigation.resize(900, 600);
        navigation.goTo(0, 0, 800);
        navigation.flyTo(NameFinder.find(opened, name).orElseThrow());
        return navigation.view();
    }

    private static void sees(Viewport view, double x, double y) {
        assertThat(view.screenX(x)).isBetween(0.0, view.width());
        assertThat(view.screenY(y)).isBetween(0.0, view.height());
    }

    private static void sees(Viewport view, TileLayout.Box box) {
        sees(view, box.x(), box.y());
        sees(view, box.x() + box.width(), box.y() + box.height());
    }

    @Test
    void whatIsFoundIsSeenWhole() throws Exception {
        Viewport net = found("level");
        for (int vertex : opened.design().findNet("level").orElseThrow().route().toVertices()) {
            sees(net, layout.end(vertex).x(), layout.end(vertex).y());
        }
        assertThat(scene(1, 1, 60).net().orElseThrow().name()).isEqualTo("level");
        Viewport wire = found("x2y1/e2[0]");
        for (String[] tap : rows("taps")) {
            if (tap[0].equals("x0y1/e[0]")) {
                TileLayout.Point box = layout.box(tile(tap[1]));
                sees(wire, box.x(), box.y());
            }
        }
        Viewport pad = found("x0y0/pad0");
        sees(pad, layout.pillAt(fabric.findVertex("x0y0/pad0")));
        sees(pad, layout.site(fabric.findSite("x0y0/out0")));
        sees(pad, layout.site(fabric.findSite("x0y0/en0")));
        sees(found("store"), layout.site(fabric.findSite("x2y0/mem")));
        sees(found("x1y0/cell"), layout.frame(fabric.findSite("x1y0/cell/table")).orElseThrow());
        sees(found("x3y2"), 3.5, 2.5);
    }

    /** The fixture with another column in a table, filled in some rows. */
    private static void extend(Path folder, String table, String column, Map<String, String> rows)
            throws IOException {
        Path file = folder.resolve(table + ".csv");
        List<String> lines = new ArrayList<>();
        for (String line : Files.readAllLines(file)) {
            String key = line.split(",", -1)[0];
            lines.add(line + "," + (lines.isEmpty() ? column : rows.getOrDefault(key, "")));
        }
        Files.write(file, lines);
    }

    private void openExtended(Path folder) throws Exception {
        try (Stream<Path> files = Files.list(FIXTURE)) {
            for (Path file : files.filter(f -> f.toString().endsWith(".csv")).toList()) {
                Files.copy(file, folder.resolve(file.getFileName()));
            }
        }
        extend(folder, "cells", "locked", Map.of("hold", "yes"));
        extend(folder, "nets", "locked", Map.of("level", "wires"));
        extend(folder, "wires", "unusable", Map.of("x3y1/w[1]", "yes"));
        extend(
                folder,
                "pads",
                "partner",
                Map.of("x3y1/pad4", "x3y1/pad5", "x3y1/pad5", "x3y1/pad4"));
        TableImport.Result read = TableImport.read(folder, 10, Progress.NONE);
        assertThat(read).isInstanceOf(TableImport.Sound.class);
        open(((TableImport.Sound) read).design().orElseThrow());
    }

    private MapItem pin(String name) {
        return new MapItemDescriber(opened).vertex(fabric.findVertex(name));
    }

    @Test
    void aWireHasTheNameOfTheTileUnderThePointer() {
        int wire = fabric.findVertex("x0y1/e[0]");
        double[] middle = new double[2];
        layout.forEachLeg(
                wire,
                tile("x2y1"),
                tile("x3y1"),
                (x0, y0, x1, y1) -> {
                    middle[0] = x0 * 0.8 + x1 * 0.2;
                    middle[1] = y0 * 0.8 + y1 * 0.2;
                });
        MapItem item = at(middle[0], middle[1], 1000);
        assertThat(item.name()).isEqualTo("x2y1/e2[0]");
        assertThat(item.details().get(0)).isEqualTo("Called x0y1/e[0] in answers.");
        assertThat(item.details().get(1))
                .isEqualTo(
                        "Entered and left in 4 tiles: x0y1/e[0], x1y1/e1[0], x2y1/e2[0],"
                                + " x3y1/e3[0].");
    }

    @Test
    void switchesSayTheirTileAndTheirMultiplexer() {
        String leads = String.join(" ", pin("x0y1/e[0]").details());
        assertThat(leads).contains("in x1y1 (one of x1y1/turn0)");
        assertThat(leads).contains("x2y0/mem.we").contains("in x2y1");
    }

    @Test
    void kindsAreToldAtTheirSites() {
        assertThat(pin("x1y1/cell.a").details()).contains("lut is a lookup table: a, b to y.");
        assertThat(pin("x1y1/cell.d").details())
                .anyMatch(d -> d.startsWith("register is a register: pins d, clk, q"));
        assertThat(pin("x3y1/out4.d").details())
                .anyMatch(d -> d.startsWith("io-double is a register of both edges: pins up"));
    }

    @Test
    void padsShowWhatTheyAreFor() {
        assertThat(pin("x3y0/pad3").details())
                .contains("Not bonded out: the package connects it to no pin.");
        assertThat(pin("x3y1/pad5").details())
                .contains("Role: configuration. It is not offered unless you name it.");
        assertThat(pin("x0y2/pad2").details())
                .contains("For a clock from the board; it leads to clock wires.");
        assertThat(picture(3, 1, 260)).contains(">unbonded<", ">config<");
        assertThat(picture(0, 2, 260)).contains(">clock<");
    }

    @Test
    void whatIsLockedUnusableOrPairedIsMarked(@TempDir Path folder) throws Exception {
        int plain = strokes(picture(2, 1.5, 200));
        int rims = picture(2, 1.5, 200).split("<rect", -1).length;
        openExtended(folder);
        assertThat(strokes(picture(2, 1.5, 200))).as("pair and crosses").isEqualTo(plain + 3);
        assertThat(picture(2, 1.5, 200).split("<rect", -1)).as("second rim").hasSize(rims + 1);
        assertThat(pin("x3y1/pad4").details()).contains("Differential pair with x3y1/pad5.");
        assertThat(pin("x1y0/cell.d").state()).contains("locked cell hold");
        assertThat(pin("x2y0/bend").state()).startsWith("locked, used by");
        assertThat(pin("x3y1/w[1]").state()).isEqualTo("unusable");
        map.options().toggle(MapLayer.LEGEND);
        assertThat(picture(2, 1.5, 200))
                .contains(
                        ">locked: a second rim, darker wires<",
                        ">differential pair<",
                        ">crossed out: unusable wire or site<",
                        ">pad not offered: no pin, or not for signals<");
    }

    /** No connection of a pin inside the fabric crosses a part of a site. */
    @Test
    void connectionsGoAroundSites() {
        int checked = 0;
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            if (layout.isRim(tile)) {
                continue;
            }
            BoxDiagram diagram = opened.diagram(tile);
            for (BoxDiagram.Switch one : diagram.switches()) {
                int from = diagram.input(one.from());
                int to = diagram.output(one.to());
                checked += isClear(from, to) ? 1 : 0;
            }
        }
        assertThat(checked).isGreaterThan(30);
    }

    private boolean isClear(int from, int to) {
        int pin = fabric.kind(from) == VertexKind.PIN ? from : to;
        if (fabric.kind(pin) != VertexKind.PIN
                || !fabric.site(fabric.siteOf(pin)).moreTiles().isEmpty()) {
            return false;
        }
        layout.connection(
                from,
                to,
                layout.meeting(from, to),
                (x0, y0, x1, y1) -> {
                    for (int step = 0; step <= 100; step++) {
                        double x = x0 + (x1 - x0) * step / 100;
                        double y = y0 + (y1 - y0) * step / 100;
                        for (String site :
                                List.of("x1y0/cell", "x1y1/cell", "x1y2/cell", "x2y2/cell")) {
                            for (int part : fabric.findParts(site)) {
                                TileLayout.Box box = layout.site(part);
                                TileLayout.Box inner =
                                        new TileLayout.Box(
                                                box.x() + 0.001,
                                                box.y() + 0.001,
                                                box.width() - 0.002,
                                                box.height() - 0.002);
                                assertThat(inner.contains(x, y))
                                        .as(fabric.vertexName(from) + " " + fabric.vertexName(to))
                                        .isFalse();
                            }
                        }
                    }
                });
        return true;
    }
}
