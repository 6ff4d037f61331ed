package padward.format.netlist;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.Source;

/**
 * Constructs of IEEE 1364-2005, written by hand after its clauses: 3 (words, constants, escaped
 * identifiers), 4 (nets, vectors), 5.1.14 (concatenation), 5.2.1 (selects), 6.1 (assignments that
 * join), 7 (gates), 12 (modules, ports, instances). Clause numbers are from memory.
 */
class VerilogTest {
    @TempDir private Path folder;

    private FlatNetlist flat(String text) throws Exception {
        Path file = Files.writeString(folder.resolve("t.v"), text);
        Library library = VerilogReader.read(Source.of(file), Progress.NONE);
        return Flattener.flatten(library, "", Set.of());
    }

    /** Pins of an instance with the names of their nets, leftmost bit first. */
    private static Map<String, List<String>> pins(FlatNetlist flat, String instance) {
        FlatNetlist.Leaf leaf =
                flat.leaves().stream()
                        .filter(l -> l.name().equals(instance))
                        .findFirst()
                        .orElseThrow(() -> new AssertionError(flat.leaves().toString()));
        Map<String, List<String>> named = new TreeMap<>();
        leaf.pins()
                .forEach(
                        (pin, nets) ->
                                named.put(
                                        pin,
                                        Arrays.stream(nets).mapToObj(flat.names()::get).toList()));
        return named;
    }

    /** Both branches of a condition would be read, and a macro stands for anything. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "`ifdef DEBUG\n part a (.i(d));\n`else\n part b (.i(d));\n`endif",
                "`ifndef DEBUG\n part a (.i(d));\n`endif",
                "part a (.i(\n`SOURCE\n));",
                "part a (.i(d)); `MAYBE part b (.i(d));",
                "`include \"rest.v\"",
                "`define SOURCE d",
                "`undef SOURCE",
                "`unconnected_drive pull1",
                "`default_nettype wand",
                "`pragma protect begin",
                "`timescale 1ns/1ps part a (.i(d));",
                "`line 3 \"x.v\" 0 part a (.i(d));",
                "part a (.i(d), .`PIN (d));",
                "part a (.i(4'b`BITS));",
                "`",
            })
    void directivesThatDecideWhatIsReadAreFaults(String line) {
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () -> flat("module m (input d);\n" + line + "\nendmodule\n"));
        assertThat(fault).isNotNull();
        assertThat(fault.place()).isIn("line 2", "line 3");
        assertThat(fault.getMessage()).containsAnyOf("`", "usual arguments", "a constant");
    }

    @Test
    void harmlessDirectivesArePassedOver() throws Exception {
        FlatNetlist flat =
                flat(
                        "`timescale 1ns / 10 ps // a comment\n`resetall\n"
                                + "`default_nettype none /* strict */\n"
                                + "`begin_keywords \"1364-2005\"\n"
                                + "`celldefine module m (input d); `endcelldefine\n"
                                + "`line 7 \"x.v\" 0\n"
                                + " part a (.i(d)); `nounconnected_drive part b (.i(d));\n"
                                + "endmodule\n`end_keywords\n");
        assertThat(flat.leaves()).hasSize(2);
    }

    @Test
    @Timeout(10)
    void emptyModulesInsideEachOtherAreTooMany() {
        StringBuilder text = new StringBuilder("module m0 (); endmodule\n");
        for (int i = 1; i < 45; i++) {
            String inner = "m" + (i - 1);
            text.append("module m").append(i).append(" (); ");
            text.append(inner).append(" x (); ").append(inner).append(" y (); endmodule\n");
        }
        BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(text.toString()));
        assertThat(fault.expected()).contains("nets, cells and modules after flattening");
    }

    /** A few letters name any number of bits, each of which would take memory. */
    @ParameterizedTest
    @Timeout(20)
    @ValueSource(
            strings = {
                "assign w = w;",
                "wire [65535:0] v# = w;",
                "supply0 [65535:0] v#;",
                "part p# (.a(w));",
                "part p# (.a({w, w}));",
                "part p# (.a({65536{d}}));",
            })
    void bitsOfConnectionsAreCountedBeforeTheyAreMade(String item) {
        StringBuilder text = new StringBuilder("module m (input d);\n wire [65535:0] w;\n");
        for (int i = 0; i < 400; i++) {
            text.append(item.replace("#", "" + i)).append('\n');
        }
        BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(text + "endmodule\n"));
        assertThat(fault.expected()).isEqualTo("at most 20000000 bits at pins and in assignments");
    }

    @ParameterizedTest
    @Timeout(10)
    @ValueSource(strings = {"part p (.a({65536{d}}));", "wire [9:0] w; #"})
    void soAreThoseOfModulesInsideEachOther(String item) {
        String most = item.replace("#", "assign w = w; ".repeat(8000));
        StringBuilder text = new StringBuilder("module m0 (); wire d; " + most + " endmodule ");
        for (int i = 1; i < 13; i++) {
            String inner = "m" + (i - 1);
            text.append("module m").append(i).append(" (); ");
            text.append(inner).append(" x (); ").append(inner).append(" y (); endmodule\n");
        }
        BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(text.toString()));
        assertThat(fault.expected())
                .isEqualTo("at most 50000000 bits at pins and in assignments after flattening");
    }

    @Test
    void aPortThatIsUsedBeforeItsRangeIsKnownIsAFault() {
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class,
                        () ->
                                flat(
                                        "module top (d, c, q); keep k (.d(d), .c(c), .q(q));\n"
                                                + " input d, c; output [1:0] q; endmodule\n"));
        assertThat(fault.expected()).contains("a direction before the port is used");
        assertThat(fault.found()).contains("\"q\"");
    }

    @Test
    void vectorsSelectsAndConcatenations() throws Exception {
        FlatNetlist flat =
                flat(
                        "module m (input [3:0] a, input [0:3] up, output [1:0] y);\n"
                                + "  part p (.whole(a), .bit(a[2]), .some(a[2:1]), .rev(up),"
                                + " .head(up[0:1]), .mix({a[0], up[3], 2'b10}),"
                                + " .rep({2{a[1:0]}}), .none(), .out(y));\n"
                                + "endmodule\n");
        assertThat(pins(flat, "p"))
                .containsExactlyInAnyOrderEntriesOf(
                        Map.of(
                                "whole", List.of("a[3]", "a[2]", "a[1]", "a[0]"),
                                "bit", List.of("a[2]"),
                                "some", List.of("a[2]", "a[1]"),
                                "rev", List.of("up[0]", "up[1]", "up[2]", "up[3]"),
                                "head", List.of("up[0]", "up[1]"),
                                "mix", List.of("a[0]", "up[3]", "1", "0"),
                                "rep", List.of("a[1]", "a[0]", "a[1]", "a[0]"),
                                "out", List.of("y[1]", "y[0]")));
        assertThat(flat.ports()).extracting(FlatNetlist.FlatPort::name).contains("up[2]", "y[0]");
    }

    /** Clause 3.7.1: the backslash and the ending white space are no part of the identifier. */
    @Test
    void escapedIdentifiers() throws Exception {
        FlatNetlist flat =
                flat(
                        "module m (input \\busa+index , input cpu3);\n"
                                + "  wire \\{a,b} ;\n  wire \\module ;\n"
                                + "  part \\***error-condition*** (.x(\\busa+index ),"
                                + " .\\y[1] (\\cpu3 ), .z(\\{a,b} ), .w(\\module ));\n"
                                + "endmodule\n");
        // \cpu3 and cpu3 are the same identifier
        assertThat(pins(flat, "***error-condition***"))
                .containsEntry("x", List.of("busa+index"))
                .containsEntry("y[1]", List.of("cpu3"))
                .containsEntry("z", List.of("{a,b}"))
                .containsEntry("w", List.of("module"));
    }

    @ParameterizedTest
    @CsvSource({
        "4'b1001, 1001",
        "5'D3, 00011",
        "3'b01x, 01x",
        "8'hA5, 10100101",
        "6'o17, 001111",
        "4'shf, 1111",
        "4'b1_0_01, 1001",
        "8'bx, xxxxxxxx",
        "3'b11110, 110",
        "2 'd 2, 10"
    })
    void constantsOfClauseThreeFive(String constant, String bits) throws Exception {
        Path file =
                Files.writeString(
                        folder.resolve("c.v"),
                        "module m; part p (.x(" + constant + ")); endmodule");
        Library library = VerilogReader.read(Source.of(file), Progress.NONE);
        StringBuilder read = new StringBuilder();
        for (Bit bit : library.modules().get("m").instances.get(0).pins().get("x")) {
            read.append(((Bit.Constant) bit).value());
        }
        assertThat(read).hasToString(bits);
    }

    @Test
    void bothStylesOfPortsAndFlattening() throws Exception {
        FlatNetlist flat =
                flat(
                        "`timescale 1ns/1ps\n// old style\n"
                                + "module top (a, y);\n  input [1:0] a; output y;\n  wire y;\n"
                                + "  wire t;\n  (* keep = \"yes\" *) inner one (a[1], t);\n"
                                + "  inner #(.W(3)) two (.i(t), .o(y));\nendmodule\n"
                                + "/* new\n style */ module inner #(parameter W = 1)\n"
                                + "  (input wire i, output o);\n  wire mid;\n  assign mid = i;\n"
                                + "  part #(.MODE(\"x\"), .N(4'hf)) p (.d(mid), .q(o));\nendmodule");
        assertThat(flat.name()).isEqualTo("top");
        assertThat(pins(flat, "one/p"))
                .containsEntry("d", List.of("a[1]"))
                .containsEntry("q", List.of("t"));
        assertThat(pins(flat, "two/p"))
                .containsEntry("d", List.of("t"))
                .containsEntry("q", List.of("y"));
        assertThat(flat.leaves().get(0).parameters()).containsEntry("MODE", "x");
    }

    @Test
    void gatesAssignmentsAndSupplies() throws Exception {
        FlatNetlist flat =
                flat(
                        "module m (input a, b, output y, z);\n  supply1 high;\n"
                                + "  wire [1:0] w = {a, b};\n  nand #2 g1 (y, w[1], b, high);\n"
                                + "  buf (z, n);\n  not g2 (n, a);\nendmodule");
        assertThat(pins(flat, "g1"))
                .containsEntry("out", List.of("y"))
                .containsEntry("in[0]", List.of("a"))
                .containsEntry("in[1]", List.of("b"))
                .containsEntry("in[2]", List.of("1"));
        assertThat(pins(flat, "buf_1")).containsEntry("in[0]", List.of("n"));
    }

    @Test
    void endlessGrowthIsStopped() {
        String deep =
                "module m; p i (.x(" + "{".repeat(5000) + "a" + "}".repeat(5000) + ")); endmodule";
        BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(deep));
        assertThat(fault.getMessage()).contains("at most 100 brackets");
        StringBuilder text = new StringBuilder("module m0; wire [1000:0] w; endmodule\n");
        for (int i = 1; i <= 40; i++) {
            String below = "m" + (i - 1);
            text.append("module m" + i + "; " + below + " a (); " + below + " b (); endmodule\n");
        }
        fault = catchThrowableOfType(BadInput.class, () -> flat(text.toString()));
        assertThat(fault.getMessage()).contains("at most 10000000 nets, cells and modules");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "module m; always @(posedge c) q = d; endmodule | line 1 | structural Verilog",
                "module m; reg q; endmodule | line 1 | structural Verilog",
                "module m (a); endmodule | line 1 | a direction for each port",
                "module m (input a, a); endmodule | line 1 | each port once",
                "module m; wire [3:0] v; p i (.x(v[4])); endmodule | line 1 | indices of v from 3 to 0",
                "module m; wire [3:0] v; p i (.x(v[1:2])); endmodule | line 1 | in the direction",
                "module m; wire w; p i (.x(w[0])); endmodule | line 1 | a vector",
                "module m; assign y = a & b; endmodule | line 1 | a plain assignment of one net to another",
                "module m; p i (.x(a), .x(b)); endmodule | line 1 | each pin once",
                "module m; p i (.x(a) endmodule | line 1 | \",\"",
                "module m; /* comment | line 1 | the end of the comment",
                "module m; p i (.x(4'q3)); endmodule | line 1 | a constant",
                "module m; m i (); endmodule | '' | one module that no other instantiates",
                "module a; endmodule module b; endmodule | '' | found a, b",
                "module t; i u (.x(a)); endmodule module i (input [1:0] x); endmodule | line 1 |"
                        + " 2 bits at port",
                "module t; i u (.z(a)); endmodule module i (input x); endmodule | line 1 | a port of"
                        + " module i",
                "module t; p u (); p u (); endmodule | line 1 | a name that only one instance has",
                "module t; assign a = 1'b0; assign a = 1'b1; endmodule | module t | no net that is both 0 and 1",
                "wire x; | line 1 | \"module\""
            })
    void whatIsOutsideTheSubsetIsReported(String text, String place, String expected) {
        BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(text));
        assertThat(fault.getMessage()).contains(expected);
        assertThat(fault.place()).contains(place);
    }
}
