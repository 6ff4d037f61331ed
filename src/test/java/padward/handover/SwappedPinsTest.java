package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.RouteTree;
import padward.example.HandMade;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.Fabric;
import padward.format.ledger.LedgerReader;
import padward.format.ledger.LedgerWriter;

/** A net whose end goes to another input of a lookup table, as edit, in files and in the list. */
class SwappedPinsTest {
    private static final CellKind KIND =
            CellKind.lookupTable(
                    "register",
                    new CellFunction.LookupTable(
                            List.of("a", "b", "c"),
                            "y",
                            "rows",
                            CellFunction.Digits.BINARY,
                            "8'b"));

    @TempDir private Path folder;

    /** Table t is "a and not b"; nothing is connected to c. */
    private static Design design(Map<String, String> settings) {
        HandMade made =
                new HandMade()
                        .kind(KIND)
                        .wires("w v u")
                        .site("S", "", "o")
                        .site("R", "", "o")
                        .site("T", "a~in b~in c~in d", "y")
                        .chain("S.o w T.a")
                        .chain("w T.c")
                        .chain("w T.d")
                        .chain("R.o v T.b");
        made.cell("s", "S").cell("r", "R").cell("t", "T", settings);
        return made.net("n", "s.o", "t.a", "S.o w T.a")
                .net("m", "r.o", "t.b", "R.o v T.b")
                .design();
    }

    private static Edit.RouteNet swap(
            Design design, String net, String cell, String from, String to) {
        Fabric fabric = design.fabric();
        int root = fabric.findVertex("S.o");
        int wire = fabric.findVertex("w");
        RouteTree tree =
                new RouteTree.Builder(root)
                        .add(root, wire)
                        .add(wire, fabric.findVertex("T." + to))
                        .build();
        return new Edit.RouteNet(net, tree, List.of(new Edit.PinSwap(cell, from, to)));
    }

    private ChangeList list(Design design, Edit edit) {
        LedgerEntry entry = new LedgerEntry("now", "test", "", "n", "p", List.of(edit));
        return ChangeList.of(design, new Ledger("handmade", "0".repeat(64), List.of(entry)));
    }

    @Test
    void theListSaysThePinAndTheContents() {
        Design design = design(Map.of("rows", "8'b00100010"));
        ChangeList list = list(design, swap(design, "n", "t", "a", "c"));
        List<Change> changes = list.entries().get(0).changes();
        assertThat(changes)
                .filteredOn(c -> c.what() == Change.What.CELL_SET)
                .extracting(Change::facts)
                .containsExactly(
                        Map.of(
                                "name",
                                "t",
                                "setting",
                                "rows",
                                "value",
                                "8'b00110000",
                                "before",
                                "8'b00100010"));
        assertThat(changes)
                .filteredOn(c -> c.what() == Change.What.END_NEW)
                .extracting(Change::facts)
                .containsExactly(
                        Map.of("name", "n", "end", "t.c", "before", "t.a", "setting", "rows"));
        Schema schema =
                SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                        .getSchema(ChangeListText.schema());
        assertThat(schema.validate(ChangeListText.json(list), InputFormat.JSON)).isEmpty();
    }

    @Test
    void aChangeHasTheFactsOfItsKindAndNoOthers() {
        assertThatThrownBy(
                        () -> new Change(Change.What.NET_GONE, Map.of("name", "n", "end", "t.c")))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Change(Change.What.END_GONE, Map.of("name", "n")))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void contentsThatAreNotKnownAreNotStated() {
        Design design = design(Map.of());
        List<Change> changes =
                list(design, swap(design, "n", "t", "a", "c")).entries().get(0).changes();
        assertThat(changes).noneMatch(c -> c.what() == Change.What.CELL_SET);
        assertThat(changes)
                .filteredOn(c -> c.what() == Change.What.END_NEW)
                .extracting(Change::facts)
                .containsExactly(Map.of("name", "n", "end", "t.c", "before", "t.a"));
    }

    @ParameterizedTest
    @CsvSource({
        "n, t, a, b, net m already ends at t.b",
        "n, t, a, d, the signals of pins a and d of cell t cannot be swapped",
        "m, t, a, c, net m does not end at t.a",
        "n, x, a, c, there is no cell x",
        "n, t, a, x, site T has no pin x",
    })
    void whatCannotBeSwappedIsRefused(
            String net, String cell, String from, String to, String reason) {
        Design design = design(Map.of());
        Edit edit =
                new Edit.RouteNet(
                        net,
                        design.findNet(net).orElseThrow().route(),
                        List.of(new Edit.PinSwap(cell, from, to)));
        Outcome outcome = Outcome.of(design, List.of(edit));
        assertThat(((Outcome.Refused) outcome).reasons()).contains(reason);
    }

    /** The contents would follow the net, while the constant stayed. */
    @Test
    void anInputThatIsConstantIsNoFreeOne() {
        Design design = design(Map.of("rows", "8'b00100010", "tied c", "1"));
        Outcome outcome = Outcome.of(design, List.of(swap(design, "n", "t", "a", "c")));
        assertThat(((Outcome.Refused) outcome).reasons())
                .containsExactly("pin c of cell t is constant");
    }

    @Test
    void aLedgerKeepsIt() throws Exception {
        Design design = design(Map.of("rows", "8'b00100010"));
        Edit edit = swap(design, "n", "t", "a", "c");
        assertThat(edit.toText()).isEqualTo("reroute net n, to pin c of cell t instead of a");
        String digest = "0".repeat(64);
        LedgerEntry entry =
                new LedgerEntry(
                        "now",
                        "test",
                        "",
                        "n",
                        "pad",
                        List.of(edit),
                        List.of(),
                        List.of(),
                        Optional.of(new LedgerEntry.Digests(digest, digest)));
        Ledger ledger = new Ledger("handmade", digest, List.of(entry));
        Path file = folder.resolve("l.ledger.json");
        LedgerWriter.write(ledger, design.fabric(), file);
        assertThat(Files.readString(file)).contains("\"swaps\"");
        assertThat(LedgerReader.read(file, design.fabric(), Progress.NONE).entries().get(0).edits())
                .containsExactly(edit);
    }
}
