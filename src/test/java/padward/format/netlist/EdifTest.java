package padward.format.netlist;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.Source;

/** A netlist written by hand with the constructs of EDIF 2 0 0 (ANSI/EIA-548, from memory). */
class EdifTest {
    private static final String TEXT =
            """
            (edif pair (edifVersion 2 0 0) (edifLevel 0) (keywordMap (keywordLevel 0))
             (external parts (edifLevel 0) (technology (numberDefinition))
              (cell keep (cellType GENERIC)
               (view net (viewType NETLIST)
                (interface (port d (direction INPUT)) (port c (direction INPUT))
                 (port q (direction OUTPUT))))))
             (library work (edifLevel 0) (technology (numberDefinition))
              (cell half (cellType GENERIC)
               (view net (viewType NETLIST)
                (interface (port d (direction INPUT)) (port c (direction INPUT))
                 (port q (direction OUTPUT)))
                (contents
                 (instance (rename &1st "state[0]") (viewRef net (cellRef keep (libraryRef parts)))
                  (property MODE (string "slow")))
                 (net d (joined (portRef d) (portRef D (instanceRef &1st))))
                 (net c (joined (portRef c) (portRef c (instanceRef &1st))))
                 (net q (joined (portRef q) (portRef q (instanceRef &1st)))))))
              (cell pair (cellType GENERIC)
               (view net (viewType NETLIST)
                (interface (port (array (rename x "x[1:0]") 2) (direction INPUT))
                 (port clk (direction INPUT))
                 (port (array (rename y "y[0:1]") 2) (direction OUTPUT)))
                (contents
                 (instance a (viewRef net (cellRef half)))
                 (instance b (viewRef net (cellRef half)))
                 (net n1 (joined (portRef (member x 0)) (portRef d (instanceRef a))))
                 (net n0 (joined (portRef (member x 1)) (portRef d (instanceRef b))))
                 (net (rename cl "clk") (joined (portRef clk) (portRef c (instanceRef a))
                   (portRef c (instanceRef b))))
                 (net m1 (joined (portRef (member y 0)) (portRef q (instanceRef a))))
                 (net m0 (joined (portRef (member y 1)) (portRef q (instanceRef b))))))))
             (design pair (cellRef pair (libraryRef work))))
            """;

    @TempDir private Path folder;

    private FlatNetlist flat(String text) throws Exception {
        Path file = Files.writeString(folder.resolve("t.edf"), text);
        return Flattener.flatten(EdifReader.read(Source.of(file), Progress.NONE), "", Set.of());
    }

    @Test
    void levelsArraysAndRenames() throws Exception {
        FlatNetlist flat = flat(TEXT);
        assertThat(flat.name()).isEqualTo("pair");
        assertThat(flat.leaves())
                .extracting(FlatNetlist.Leaf::name)
                .containsExactly("a/state[0]", "b/state[0]");
        FlatNetlist.Leaf first = flat.leaves().get(0);
        assertThat(first.type()).isEqualTo("keep");
        assertThat(first.parameters()).containsEntry("MODE", "slow");
        assertThat(name(flat, first, "d")).isEqualTo("x[1]");
        assertThat(name(flat, first, "q")).isEqualTo("y[0]");
        assertThat(name(flat, flat.leaves().get(1), "c")).isEqualTo("clk");
        assertThat(name(flat, flat.leaves().get(1), "q")).isEqualTo("y[1]");
    }

    private static String top(String ports, String contents) {
        return """
               (edif t (edifVersion 2 0 0) (edifLevel 0) (keywordMap (keywordLevel 0))
                (external parts (edifLevel 0) (technology (numberDefinition))
                 (cell keep (cellType GENERIC) (view net (viewType NETLIST)
                  (interface (port d (direction INPUT)) (port q (direction OUTPUT))))))
                (library work (edifLevel 0) (technology (numberDefinition))
                 (cell top (cellType GENERIC) (view net (viewType NETLIST)
                  (interface %s)
                  (contents
                   (instance a (viewRef net (cellRef keep)))
                   (instance b (viewRef net (cellRef keep)))
                   (instance c (viewRef net (cellRef keep)))
                   %s))))
                (design top (cellRef top (libraryRef work))))
               """
                .formatted(ports, contents);
    }

    private static FlatNetlist.Leaf leaf(FlatNetlist flat, String name) {
        return flat.leaves().stream().filter(l -> l.name().equals(name)).findAny().orElseThrow();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "(port sig (direction INPUT))"})
    void netsWithOneGivenNameStayApart(String ports) throws Exception {
        FlatNetlist flat =
                flat(
                        top(
                                ports,
                                """
                                (net (rename n0 "sig") (joined (portRef q (instanceRef a))))
                                (net (rename n1 "sig") (joined (portRef q (instanceRef b))))
                                (net (rename n2 "sig") (joined (portRef q (instanceRef c))))
                                (net (rename n3 "sig'") (joined (portRef d (instanceRef a))))
                                """));
        assertThat(
                        List.of(
                                leaf(flat, "a").pins().get("q")[0],
                                leaf(flat, "b").pins().get("q")[0],
                                leaf(flat, "c").pins().get("q")[0],
                                leaf(flat, "a").pins().get("d")[0]))
                .doesNotHaveDuplicates();
    }

    @Test
    void whatIsDeclaredTwiceIsAFault() throws Exception {
        String net = "(net n (joined (portRef q (instanceRef a))))";
        String cell =
                "(cell (rename other \"keep\") (cellType GENERIC) (view net (viewType NETLIST)"
                        + " (interface (port d (direction INPUT)))))";
        String second =
                "(instance (rename e \"a\") (viewRef net (cellRef keep)))"
                        + "(net n (joined (portRef q (instanceRef e))))";
        for (String text :
                List.of(
                        top("", net + net),
                        top("", net).replace("(library", "(external more " + cell + ") (library"),
                        top("", second))) {
            BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(text));
            assertThat(fault).as(text).isNotNull();
            assertThat(fault.getMessage()).contains("once");
        }
    }

    private static String name(FlatNetlist flat, FlatNetlist.Leaf leaf, String pin) {
        return Arrays.stream(leaf.pins().get(pin))
                .mapToObj(flat.names()::get)
                .findFirst()
                .orElseThrow();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "(instanceRef b)|(instanceRef z)|an instance",
                "(cellRef half)|(cellRef whole)|a cell",
                "(member y 1)|(member y 2)|a member of y",
                "(portRef q (instanceRef a))|(portRef r (instanceRef a))|a port of cell half",
                "(edif pair|(elif pair|\"(edif\"",
                "(libraryRef work))))|(libraryRef work)|the end of the file"
            })
    void faultsAreReported(String right, String wrong, String expected) {
        BadInput fault =
                catchThrowableOfType(BadInput.class, () -> flat(TEXT.replace(right, wrong)));
        assertThat(fault.getMessage()).contains(expected).contains("t.edf");
    }

    /** Each instance of it needs room for all members of a port, though one is joined. */
    @Test
    void membersOfPortsAreCountedBeforeThereIsRoomForThem() {
        StringBuilder body = new StringBuilder();
        for (int i = 0; i < 400; i++) {
            body.append("(instance i").append(i).append(" (viewRef v (cellRef wide)))\n");
            body.append("(net n").append(i).append(" (joined (portRef d) (portRef (member x 0)");
            body.append(" (instanceRef i").append(i).append("))))\n");
        }
        String text =
                "(edif e (library l (cell wide (view v (interface (port (array x 65536)"
                        + " (direction INPUT))))) (cell top (view v (interface (port d (direction"
                        + " INPUT))) (contents "
                        + body
                        + ")))) (design e (cellRef top)))";
        BadInput fault = catchThrowableOfType(BadInput.class, () -> flat(text));
        assertThat(fault.expected()).isEqualTo("at most 20000000 bits at pins and in assignments");
    }
}
