package padward.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.PadWiring;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;
import padward.format.design.DesignReader;

/** What is sound in a design, but seldom meant. The small fabric is invented. */
class DesignReviewTest {
    private final ExplicitBuilder builder =
            new ExplicitBuilder(
                    new FabricInfo("small", "invented", List.of(), List.of(), List.of()), 1, 1);
    private final List<Cell> cells = new ArrayList<>();
    private final List<Net> nets = new ArrayList<>();
    private final List<Port> ports = new ArrayList<>();
    private final List<String> pads = new ArrayList<>();

    /** Built when it is first asked about; no more is added to it then. */
    private Fabric fabric;

    /** Cells {@code from}, {@code to} and {@code far}, wires {@code w}, {@code v} and {@code c}. */
    DesignReviewTest() {
        for (String cell : List.of("from", "to", "far")) {
            addCell(cell);
        }
        builder.addWire("w", 0, 0, "run");
        builder.addWire("v", 0, 0, "run");
        builder.addWire("c", 0, 0, "clock");
    }

    private void addCell(String name) {
        List<SitePin> pins =
                List.of(
                        new SitePin("d", PinDirection.IN),
                        new SitePin("clk", PinDirection.IN),
                        new SitePin("q", PinDirection.OUT));
        int site = builder.addSite("site_" + name, 0, "logic", List.of("any"), pins);
        cells.add(new Cell(cells.size(), name, "any", site, Map.of()));
    }

    private void addPad(String name, PadUse use) {
        builder.addPad(
                name,
                0,
                "",
                "",
                PadDirections.BOTH,
                Fabric.NOTHING,
                Fabric.NOTHING,
                "",
                use,
                PadEnable.UNKNOWN);
        pads.add(name);
    }

    /** A port on a pad of the same name. */
    private Terminal addPort(String name, String setting) {
        int id = ports.size();
        ports.add(new Port(id, name, PortDirection.BOTH, pads.indexOf(name), setting));
        return new Terminal.PortEnd(id);
    }

    private Terminal pin(String cell, String pin) {
        int id = cells.stream().filter(c -> c.name().equals(cell)).findFirst().orElseThrow().id();
        return new Terminal.CellPin(id, pin);
    }

    /**
     * A net over a route.
     *
     * @param route the first vertex, then {@code FROM>TO} for each switch
     */
    private void addNet(
            String name, boolean clock, Terminal driver, List<Terminal> sinks, String... route) {
        RouteTree.Builder tree = new RouteTree.Builder(vertex(route[0]));
        for (String step : Arrays.copyOfRange(route, 1, route.length)) {
            String[] ends = step.split(">");
            tree.add(vertex(ends[0]), vertex(ends[1]));
            builder.addEdge(vertex(ends[0]), vertex(ends[1]), EdgeKind.SWITCH, Delay.ZERO);
        }
        nets.add(new Net(nets.size(), name, driver, sinks, tree.build(), clock));
    }

    private int vertex(String name) {
        int vertex = builder.findVertex(name);
        assertThat(vertex).as(name).isNotEqualTo(Fabric.NOTHING);
        return vertex;
    }

    private List<String> odd(DesignOddity kind) {
        return odd(kind, Board.UNKNOWN);
    }

    private List<String> odd(DesignOddity kind, Board board) {
        if (fabric == null) {
            fabric = builder.build();
        }
        Design design = new Design("small", "invented", fabric, board, cells, nets, ports);
        return DesignReview.findings(design).stream()
                .filter(f -> f.kind() == kind)
                .flatMap(f -> f.names().isEmpty() ? List.of(f.text()).stream() : f.names().stream())
                .toList();
    }

    @Test
    void aNetWithSinksButNoRouteIsNamed() {
        addNet("bare", false, pin("from", "q"), List.of(pin("to", "d")), "site_from.q");
        addNet("idle", false, pin("far", "q"), List.of(), "site_far.q");
        addNet(
                "routed",
                false,
                pin("to", "q"),
                List.of(pin("far", "d")),
                "site_to.q",
                "site_to.q>w",
                "w>site_far.d");
        assertThat(odd(DesignOddity.UNROUTED_NETS)).containsExactly("bare");
        assertThat(odd(DesignOddity.NETS_WITHOUT_SINKS)).containsExactly("idle");
        // What has no route at all is not named a second time for its sinks.
        assertThat(odd(DesignOddity.UNREACHED_SINKS)).isEmpty();
    }

    @Test
    void aSinkThatTheRouteMissesIsNamed() {
        addNet(
                "half",
                false,
                pin("from", "q"),
                List.of(pin("to", "d"), pin("far", "d")),
                "site_from.q",
                "site_from.q>w",
                "w>site_to.d");
        assertThat(odd(DesignOddity.UNREACHED_SINKS)).containsExactly("far.d");
        assertThat(odd(DesignOddity.STUBS)).isEmpty();
    }

    @Test
    void aBranchThatEndsAtNoSinkIsAStub() {
        addNet(
                "whole",
                false,
                pin("from", "q"),
                List.of(pin("to", "d")),
                "site_from.q",
                "site_from.q>w",
                "w>site_to.d");
        addNet(
                "stubby",
                false,
                pin("to", "q"),
                List.of(pin("far", "d")),
                "site_to.q",
                "site_to.q>v",
                "v>site_far.d",
                "site_to.q>c");
        addNet("idle", false, pin("far", "q"), List.of(), "site_far.q");
        assertThat(odd(DesignOddity.STUBS)).containsExactly("stubby");
    }

    @Test
    void aCellAtNoNetIsNamed() {
        addNet("n", false, pin("from", "q"), List.of(pin("to", "d")), "site_from.q");
        assertThat(odd(DesignOddity.UNCONNECTED_CELLS)).containsExactly("far");
    }

    /** Who switches a port's driver says nothing of what comes out there. */
    @Test
    void aPortAtNoNetIsNamedAlsoWhenANetSwitchesItsDriver() {
        for (String pad : List.of("in", "out", "lone")) {
            addPad(pad, PadUse.UNSTATED);
        }
        Terminal driving = addPort("in", "");
        Terminal fed = addPort("out", "");
        addPort("lone", "");
        Terminal enable = Terminal.PortEnd.enableOf(2);
        addNet("n", false, driving, List.of(fed, enable), "in");
        assertThat(odd(DesignOddity.UNCONNECTED_PORTS)).containsExactly("lone");
    }

    @Test
    void aPortOnAPadThatIsNotForSignalsIsNamedWithTheReason() {
        addPad("plain", new PadUse(PadUse.Bonding.BONDED, PadUse.Role.GENERAL));
        addPad("clocked", new PadUse(PadUse.Bonding.UNKNOWN, PadUse.Role.CLOCK));
        addPad("tested", new PadUse(PadUse.Bonding.BONDED, PadUse.Role.TEST));
        addPad("inside", new PadUse(PadUse.Bonding.UNBONDED, PadUse.Role.GENERAL));
        addPad("unused", new PadUse(PadUse.Bonding.BONDED, PadUse.Role.RESERVED));
        for (String pad : List.of("plain", "clocked", "tested", "inside")) {
            addPort(pad, "");
        }
        assertThat(odd(DesignOddity.PORTS_ON_OTHER_PADS))
                .containsExactly("tested, for testing", "inside, not bonded out");
    }

    @Test
    void aSettingThatThePadDoesNotHaveIsNamed() {
        PadDriving weakOnly = new PadDriving(false, List.of("weak"), "");
        PadUse limited =
                new PadUse(PadUse.Bonding.BONDED, PadUse.Role.GENERAL, Delay.ZERO, weakOnly);
        for (String pad : List.of("weak", "strong", "silent")) {
            addPad(pad, limited);
        }
        addPad("any", PadUse.UNSTATED);
        addPort("weak", "weak");
        addPort("strong", "strong");
        addPort("silent", "");
        addPort("any", "strong");
        assertThat(odd(DesignOddity.FOREIGN_SETTINGS)).containsExactly("strong, strong");
    }

    @Test
    void whatLiesOnUnusableSitesAndWiresIsNamed() {
        builder.setSiteUnusable(builder.findSite("site_far"));
        builder.setWireUnusable(vertex("v"));
        addNet(
                "over",
                false,
                pin("from", "q"),
                List.of(pin("to", "d")),
                "site_from.q",
                "site_from.q>v",
                "v>site_to.d");
        addNet(
                "past",
                false,
                pin("to", "q"),
                List.of(pin("from", "d")),
                "site_to.q",
                "site_to.q>w",
                "w>site_from.d");
        assertThat(odd(DesignOddity.CELLS_ON_UNUSABLE)).containsExactly("far on site_far");
        assertThat(odd(DesignOddity.NETS_OVER_UNUSABLE)).containsExactly("over over v");
    }

    /** The wire {@code c} is for clocks: a pad for clocks leads to it, and no other pad does. */
    @Test
    void aSinkThatAClockReachesOverAPlainWireIsNamed() {
        addClockPad(true);
        addPad("out", PadUse.UNSTATED);
        Terminal clock = addPort("k", "");
        Terminal out = addPort("out", "");
        addNet(
                "clock",
                true,
                clock,
                List.of(pin("to", "clk"), pin("far", "clk"), pin("from", "clk"), out),
                "k",
                "k>c",
                "c>site_to.clk",
                "c>w",
                "w>site_far.clk",
                // That a port is fed over a plain wire is as it should be.
                "w>out");
        addNet(
                "data",
                false,
                pin("from", "q"),
                List.of(pin("far", "d")),
                "site_from.q",
                "site_from.q>v",
                "v>site_far.d");
        // Cell from is not reached at all, which is told elsewhere.
        assertThat(odd(DesignOddity.SINKS_OFF_CLOCK_WIRES)).containsExactly("far.clk");
        assertThat(odd(DesignOddity.NO_CLOCK)).isEmpty();
    }

    @Test
    void whereNoWireIsForClocksOnlyNoSinkIsOffThem() {
        addClockPad(false);
        Terminal clock = addPort("k", "");
        addNet("clock", true, clock, List.of(pin("to", "clk")), "k", "k>c", "c>w", "w>site_to.clk");
        assertThat(odd(DesignOddity.SINKS_OFF_CLOCK_WIRES)).isEmpty();
    }

    /** A pad {@code k} for clocks, and another, which leads to wire {@code c} as well or not. */
    private void addClockPad(boolean alone) {
        addPad("k", new PadUse(PadUse.Bonding.BONDED, PadUse.Role.CLOCK));
        addPad("p", PadUse.UNSTATED);
        builder.addEdge(vertex("p"), vertex(alone ? "v" : "c"), EdgeKind.SWITCH, Delay.ZERO);
    }

    @Test
    void aDesignWithNetsButWithoutAClockIsOdd() {
        assertThat(odd(DesignOddity.NO_CLOCK)).isEmpty();
        addNet("n", false, pin("from", "q"), List.of(), "site_from.q");
        assertThat(odd(DesignOddity.NO_CLOCK)).containsExactly("no net is marked as a clock");
        addNet("clk", true, pin("to", "q"), List.of(), "site_to.q");
        addNet("last", false, pin("far", "q"), List.of(), "site_far.q");
        assertThat(odd(DesignOddity.NO_CLOCK)).isEmpty();
    }

    @Test
    void aDesignWithoutABoardIsOdd() {
        assertThat(odd(DesignOddity.NO_BOARD)).hasSize(1);
        assertThat(odd(DesignOddity.NO_BOARD, new Board("b", "invented", List.of()))).isEmpty();
    }

    /** A resistor between two nets of the board is on both, and means no fault. */
    @Test
    void aPartBetweenTwoNetsOfTheBoardIsNotOdd() {
        addPad("a", PadUse.UNSTATED);
        addPad("b", PadUse.UNSTATED);
        assertThat(odd(DesignOddity.PINS_ON_TWO_NETS, joinedBy(AttachmentKind.PULL))).isEmpty();
        assertThat(odd(DesignOddity.PINS_ON_TWO_NETS, joinedBy(AttachmentKind.HEADER)))
                .containsExactly("X1 on A and B");
    }

    private static Board joinedBy(AttachmentKind kind) {
        List<Attachment> same = List.of(new Attachment(kind, "X1", ""));
        return new Board(
                "b",
                "invented",
                List.of(new PadWiring(0, "A", 1, same), new PadWiring(1, "B", 1, same)));
    }

    @Test
    void aHeaderPinOnTwoNetsOfTheBoardIsNamed(@TempDir Path folder) throws Exception {
        Path small = Path.of("fixtures/small");
        for (String name : new String[] {"only.design.json", "only.fabric.json"}) {
            Files.copy(small.resolve(name), folder.resolve(name));
        }
        String board = Files.readString(small.resolve("board.json"));
        assertThat(board)
                .contains("\"net\": \"AUX1\"")
                .contains("\"name\": \"J2\", \"pin\": \"2\"");
        String doubled =
                board.replace(
                        "\"name\": \"J2\", \"pin\": \"2\"", "\"name\": \"J2\", \"pin\": \"1\"");
        String finding = "pins of the board on two of its nets: 1 (J2.1 on AUX0 and AUX1)";
        assertThat(review(folder, doubled)).contains(finding);
        // Two pads may be on one net, and so on one pin.
        String joined = doubled.replace("\"net\": \"AUX1\"", "\"net\": \"AUX0\"");
        assertThat(review(folder, joined)).doesNotContain(finding);
        assertThat(review(folder, board)).doesNotContain(finding);
    }

    private static List<String> review(Path folder, String board) throws Exception {
        Files.writeString(folder.resolve("board.json"), board);
        Path design = folder.resolve("only.design.json");
        return DesignReview.of(DesignReader.read(design, Progress.NONE));
    }
}
