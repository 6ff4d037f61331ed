package padward.format.netlist;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Netlist;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.synth.FabricMaker;

/** From a netlist's types to a fabric's kinds of cell. */
class MapperTest {
    private static final String MAPPING =
            """
            {"format": "padward-mapping/1", "name": "t", "types": [
             {"type": "look", "kind": "lookup-table", "pins": {"i": "in", "o": "out"}},
             {"type": "keep", "kind": "register", "pins": {"d": "in[0]", "c": "clk", "q": "out"},
              "clocks": ["c"], "settings": {"start": "0"}},
             {"type": "ram", "kind": "memory",
              "pins": {"a": "address", "d": "data", "w": "write", "c": "clk", "q": "q"}},
             {"type": "bufif1", "atPort": {"pad": "out", "out": "in[0]", "enable": "in[1]"}},
             {"type": "padcell", "atPort": {"pad": "p", "out": "o", "in": "i", "enable": "e"}},
             {"type": "pass", "joins": ["i", "o"]},
             {"type": "low", "constant": 0, "pin": "y"}]}
            """;

    @TempDir private Path folder;
    private final Fabric fabric = fabric();

    private static Fabric fabric() {
        try {
            return PatternFabric.compile(FabricMaker.make(8_000, 5));
        } catch (PatternFault fault) {
            throw new IllegalStateException(fault);
        }
    }

    private NetlistReader.Mapped read(String verilog, String mapping) throws Exception {
        Path file = Files.writeString(folder.resolve("t.v"), verilog);
        Path types = Files.writeString(folder.resolve("t.json"), mapping);
        return NetlistReader.read(
                file, "", CellMappingReader.read(types, Progress.NONE), fabric, Progress.NONE);
    }

    @Test
    void vectorsConstantsAndJoins() throws Exception {
        NetlistReader.Mapped mapped =
                read(
                        "module m (input clock, input [3:0] a, output y, output z, output k);\n"
                                + "  wire low, t, u; wire [3:0] q;\n"
                                + "  low g (.y(low));\n  pass p (.i(t), .o(u));\n"
                                + "  ram r (.a(a), .d({a[0], a[1], low, 1'b1}), .w(t), .c(clock),"
                                + " .q(q));\n"
                                + "  keep #(.MODE(3)) s (.d(u), .c(clock), .q(y));\n"
                                + "  look l (.i(q), .o(t));\n  assign z = u; assign k = low;\n"
                                + "endmodule\n",
                        MAPPING);
        Netlist netlist = mapped.netlist();
        assertThat(netlist.cells()).extracting(Netlist.LogicalCell::kind).contains("memory");
        Netlist.LogicalCell ram = netlist.cells().get(0);
        assertThat(ram.settings())
                .containsExactlyInAnyOrderEntriesOf(
                        Map.of("tied data[1]", "0", "tied data[0]", "1"));
        assertThat(netlist.cells().get(1).settings())
                .containsExactlyInAnyOrderEntriesOf(Map.of("start", "0", "MODE", "3"));
        Netlist.LogicalNet t =
                netlist.nets().stream()
                        .filter(n -> n.driver().equals(new Terminal.CellPin(2, "out")))
                        .findFirst()
                        .orElseThrow();
        // t, u and z are one net; the port's name comes first in the module
        assertThat(t.name()).isEqualTo("z");
        assertThat(t.sinks())
                .containsExactlyInAnyOrder(
                        new Terminal.PortEnd(6),
                        new Terminal.CellPin(0, "write"),
                        new Terminal.CellPin(1, "in[0]"));
        assertThat(
                        netlist.nets().stream()
                                .filter(Netlist.LogicalNet::clock)
                                .map(Netlist.LogicalNet::name))
                .containsExactly("clock");
        Netlist.LogicalNet address =
                netlist.nets().stream()
                        .filter(n -> n.name().equals("a[3]"))
                        .findFirst()
                        .orElseThrow();
        assertThat(address.sinks()).isEqualTo(List.of(new Terminal.CellPin(0, "address[3]")));
        assertThat(mapped.notes())
                .anyMatch(n -> n.startsWith("2 instances are plain connections"))
                .anyMatch(n -> n.equals("port k is constant 0, so it has no net"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "gate u (.a(x)); | types that the mapping or the file describes, found \"gate\" (1×)",
                "keep u (.d(x), .e(x)); | a pin that the mapping lists for type keep",
                "keep u (x, y); | pins by order",
                "keep u (.d({x, x})); | a pin that the mapping lists for type keep",
                "keep u (.q(x)); keep v (.q(x)); | one driver, found u.q and v.q",
                "low u (.y(x)); keep v (.q(x)); | no other driver, found v.q"
            })
    void whatDoesNotFitIsReported(String body, String expected) {
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () -> read("module m; wire x, y; " + body + " endmodule", MAPPING));
        assertThat(fault.getMessage()).contains(expected);
    }

    /** With the gate of the language, what comes in is on the port's own net. */
    @Test
    void aPortInBothDirectionsHasThreeNets() throws Exception {
        for (String driver :
                List.of(
                        "bufif1 g (d, q, e); keep r (.d(d), .c(c), .q(y));",
                        "wire i; padcell g (.p(d), .o(q), .i(i), .e(e));"
                                + " keep r (.d(i), .c(c), .q(y));")) {
            NetlistReader.Mapped mapped =
                    read(
                            "module m (inout d, input c, s, f, output y); wire q, e;\n"
                                    + "keep o (.d(s), .c(c), .q(q)); keep n (.d(f), .c(c), .q(e));"
                                    + driver
                                    + " endmodule",
                            MAPPING);
            Netlist netlist = mapped.netlist();
            assertThat(netlist.ports().get(0))
                    .isEqualTo(new Netlist.LogicalPort("d", PortDirection.BOTH));
            assertThat(net(netlist, "d").driver()).isEqualTo(new Terminal.PortEnd(0));
            assertThat(net(netlist, "d").sinks()).containsExactly(new Terminal.CellPin(2, "in[0]"));
            assertThat(net(netlist, "q").driver()).isEqualTo(new Terminal.CellPin(0, "out"));
            assertThat(net(netlist, "q").sinks()).containsExactly(new Terminal.PortEnd(0));
            assertThat(net(netlist, "e").driver()).isEqualTo(new Terminal.CellPin(1, "out"));
            assertThat(net(netlist, "e").sinks()).containsExactly(Terminal.PortEnd.enableOf(0));
            assertThat(mapped.notes())
                    .contains(
                            "1 port of direction inout: the fabric states whether 1 or 0 switches"
                                    + " the driver on; the netlist is not inverted to fit");
        }
    }

    @Test
    void anEnableAtAConstantIsNoted() throws Exception {
        NetlistReader.Mapped mapped =
                read(
                        "module m (inout d, input c, s); wire q;\n"
                                + "keep o (.d(s), .c(c), .q(q)); bufif1 g (d, q, 1'b1); endmodule",
                        MAPPING);
        assertThat(mapped.notes())
                .contains("the enable of port d is constant 1, so no net switches its driver");
    }

    private static Netlist.LogicalNet net(Netlist netlist, String name) {
        return netlist.nets().stream().filter(n -> n.name().equals(name)).findFirst().orElseThrow();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "keep u (.d(d), .q(x)); | at port \"d\" of direction inout a cell whose type",
                "bufif1 u (d, x, x); bufif1 v (d, x, x); | one driver for port \"d\", found a second",
                "bufif1 u (y, x, x); | pin out at a port of direction inout, found net y",
                "padcell u (.p(d), .o(x)); | one bit at pin e, which the mapping names, found none",
                "keep v (.q(d)); bufif1 u (d, x, x); | one driver, found port d and v.q"
            })
    void portsInBothDirectionsThatCannotBeMappedAreReported(String body, String expected) {
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () ->
                                read(
                                        "module m (inout d); wire x, y; " + body + " endmodule",
                                        MAPPING));
        assertThat(fault.getMessage()).contains(expected);
    }

    /** Verilog's escaped names may hold other characters than a design's. */
    @Test
    void namesThatADesignCannotHaveAreReported() {
        String text = "module m (input d, c, output y); keep \\a\u009b2J (.d(d), .c(c), .q(y));";
        BadInput fault =
                catchThrowableOfType(BadInput.class, () -> read(text + " endmodule", MAPPING));
        assertThat(fault.getMessage()).contains("names of printable characters");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "\"kind\": \"register\"|\"kind\": \"regster\"|a kind of cell that some site",
                "\"c\": \"clk\"|\"c\": \"clok\"|a pin of the sites that accept",
                "\"clocks\": [\"c\"]|\"clocks\": [\"cc\"]|clocks that \"pins\" names",
                "\"constant\": 0, ||one of \"kind\", \"joins\", \"constant\" and \"atPort\"",
                "[\"i\", \"o\"]|[\"i\"]|two pins that are joined",
                "\"type\": \"low\"|\"type\": \"pass\"|a name that only one type has"
            })
    void faultsOfMappingsAreReported(String right, String wrong, String expected) {
        String text = MAPPING.replace(right, wrong == null ? "" : wrong);
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () -> read("module m; wire x; keep u (.q(x)); endmodule", text));
        assertThat(fault.getMessage()).contains(expected);
    }

    @Test
    void aRegisterHasAllItsPinsInAPadsSiteToo() throws Exception {
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () ->
                                read(
                                        "module m (input c, input d, output q);\n"
                                                + "  keep k (.d(d), .c(c), .q(q));\nendmodule\n",
                                        MAPPING.replace(
                                                        "\"d\": \"in[0]\", \"c\"",
                                                        "\"d\": \"in[1]\", \"c\"")
                                                .replace(
                                                        "\"settings\"",
                                                        "\"atPad\": {\"kind\": \"io-register\", \"pins\":"
                                                                + " {\"in[0]\": \"d\", \"out\": \"q\"}},"
                                                                + " \"settings\"")));
        assertThat(fault)
                .hasMessageContaining("type keep, atPad: expected the pin that is \"in[1]\" there");
    }

    @Test
    void twoPinsCannotBeOne() {
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () ->
                                read(
                                        "module m (input d, output q);\n  pass p (.i(d), .o(q));\n"
                                                + "endmodule\n",
                                        MAPPING.replace("\"clk\", \"q\": \"out\"}", "\"out\"}")
                                                .replace("\"c\": \"out\"}", "\"c\": \"in[0]\"}")));
        assertThat(fault)
                .hasMessageContaining("each pin of the site once, found a second \"in[0]\"");
    }

    @Test
    void onlyPinsThatAllSitesOfAKindHaveAreTaken() {
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("two", "invented", List.of(), List.of(), List.of()), 2, 1);
        SitePin in = new SitePin("in", PinDirection.IN);
        SitePin out = new SitePin("out", PinDirection.OUT);
        builder.addSite("a", 0, "logic", List.of("look"), List.of(in, out));
        builder.addSite("b", 1, "logic", List.of("look"), List.of(out));
        KindPins pins = new KindPins(builder.build());
        assertThat(pins.pins("look")).containsExactly("out");
    }
}
