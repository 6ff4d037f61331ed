package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;
import padward.route.search.SearchEngineKind;

/** A data line: port d on pad P is driven by net out, switched by net oe, and read by net in. */
class BothWaysTest {
    private static Design design() {
        return new HandMade()
                .wires("w0 w1 w2 w3 w4")
                .site("S0", "", "o e")
                .site("S1", "i", "o")
                .site("S2", "i", "o")
                .site("OE", "i", "")
                .enabledPad("P", "OE")
                .pad("Q")
                .chain("S0.o w0 P")
                .chain("S0.e w4 OE.i")
                .chain("P w1 S1.i")
                .chain("w1 w3")
                .chain("S2.o w2 P")
                .chain("w0 w3 Q")
                .cell("data", "S0")
                .cell("sample", "S1")
                .cell("probe", "S2")
                .port("d", PortDirection.BOTH, "P")
                .net("out", "data.o", "d", "S0.o w0 P")
                .net("in", "d", "sample.i", "P w1 S1.i")
                .net("oe", "data.e", "", "S0.e w4 OE.i")
                .net("x", "probe.o", "", "S2.o w2")
                .design();
    }

    private static Net net(Design design, String name) {
        return design.findNet(name).orElseThrow();
    }

    private static Answer ask(Design design, String net, int pad) {
        return Asker.ask(new Question(design, net(design, net), pad, Corner.SLOW), Progress.NONE);
    }

    /** The port's name does not say that two nets stop. */
    @Test
    void thePriceNamesBothNets() {
        Design design = design();
        int pad = design.findPort("d").orElseThrow().pad();
        assertThat(PriceText.sentences(Price.of(ask(design, "x", pad))))
                .contains("Port d (out net out, in net in) loses its pad.");
    }

    @Test
    void thePadIsOnBothNets() {
        Design design = design();
        int pad = design.fabric().findVertex("P");
        assertThat(design.occupancy().findNetOn(pad).orElseThrow().name()).isEqualTo("out");
        assertThat(design.occupancy().findNetStartingBeside(pad).orElseThrow().name())
                .isEqualTo("in");
    }

    @Test
    void itOpensFromTablesAndJson(@TempDir Path folder) throws Exception {
        Design design = design();
        TableExport.write(design, folder.resolve("tables"), false, Progress.NONE);
        Design fromTables =
                ((TableImport.Sound) TableImport.read(folder.resolve("tables"), 9, Progress.NONE))
                        .design()
                        .orElseThrow();
        FabricWriter.write(fromTables.fabric(), folder.resolve("f.json"));
        DesignWriter.write(fromTables, folder.resolve("d.json"), "f.json", "");
        Design fromJson = DesignReader.read(folder.resolve("d.json"), Progress.NONE);
        for (Design one : List.of(fromTables, fromJson)) {
            assertThat(one.netsAtPort(0)).extracting(Net::name).containsExactly("out", "in");
        }
        TableExport.write(fromJson, folder.resolve("again"), false, Progress.NONE);
        for (String table : List.of("ends.csv", "routes.csv", "ports.csv")) {
            assertThat(folder.resolve("again").resolve(table))
                    .hasSameBinaryContentAs(folder.resolve("tables").resolve(table));
        }
    }

    @Test
    void twoNetsOutOfAPortOrIntoOneAreAFault(@TempDir Path folder) throws Exception {
        Design design = design();
        FabricWriter.write(design.fabric(), folder.resolve("f.json"));
        Path file = folder.resolve("d.json");
        DesignWriter.write(design, file, "f.json", "");
        String text = Files.readString(file);
        String second =
                "\"nets\": [{\"name\": \"second\", \"driver\": {\"port\": \"d\"}, \"sinks\": []},";
        Files.writeString(file, text.replaceFirst("\"nets\": *\\[", second));
        assertThatThrownBy(() -> DesignReader.read(file, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("\"second\" and \"in\"");
    }

    @Test
    void theAnswerTellsOfBothNets() {
        Answer answer = ask(design(), "x", 0);
        assertThat(answer).isInstanceOf(Answer.Blocked.class);
        assertThat(((Answer.Blocked) answer).obstacles())
                .extracting(o -> o.occupant().name())
                .contains("in");
        String text = AnswerText.sentence(answer) + AnswerText.explanation(answer);
        assertThat(text).contains("Port d").contains("net out").contains("net in");
        assertThat(Price.of(answer).lost())
                .extracting(e -> e.toText())
                .anyMatch(t -> t.contains("sample"));
    }

    @Test
    void itsEditsTakeBothNetsFromThePad() {
        Design design = design();
        Answer.Blocked blocked = (Answer.Blocked) ask(design, "x", 0);
        for (WhyBlocked.Option option : blocked.why().orElseThrow().options()) {
            List<Edit> edits = AnswerEdits.of(blocked, option);
            Outcome outcome = Outcome.of(design, edits);
            assertThat(outcome).as("" + edits).isInstanceOf(Outcome.Applied.class);
            Design after = ((Outcome.Applied) outcome).design();
            int pad = after.fabric().findVertex("P");
            assertThat(after.occupancy().findNetOn(pad).orElseThrow().name()).isEqualTo("x");
            assertThat(after.occupancy().findNetStartingBeside(pad)).isEmpty();
            assertThat(after.findNet("in")).isEmpty();
            assertThat(after.findNet("out").orElseThrow().sinks()).isEmpty();
        }
    }

    @Test
    void removingOneOfTheNetsLeavesTheOther() {
        Design design = design();
        int pad = design.fabric().findVertex("P");
        Design read = Outcome.apply(design, List.of(new Edit.RemoveNet("out")));
        assertThat(read.occupancy().findNetOn(pad).orElseThrow().name()).isEqualTo("in");
        assertThat(read.occupancy().findNetStartingBeside(pad)).isEmpty();
        Design driven = Outcome.apply(design, List.of(new Edit.RemoveNet("in")));
        assertThat(driven.occupancy().findNetOn(pad).orElseThrow().name()).isEqualTo("out");
        assertThat(driven.occupancy().findNetStartingBeside(pad)).isEmpty();
        Design none = Outcome.apply(design, List.of(new Edit.DisconnectPort("d")));
        assertThat(none.occupancy().findNetOn(pad)).isEmpty();
        assertThat(none.findNet("in")).isEmpty();
        Fabric fabric = design.fabric();
        assertThat(none.occupancy().isUsed(fabric.findVertex("w1"))).isFalse();
        assertThat(none.occupancy().isUsed(fabric.findVertex("w0"))).isFalse();
    }

    @Test
    void theOtherNetCanStillComeOutElsewhere() {
        assertThat(ask(design(), "in", 1)).isInstanceOf(Answer.Open.class);
        assertThat(ask(design(), "out", 1)).isInstanceOf(Answer.Open.class);
        Design design = design();
        Survey survey =
                Survey.of(
                        design, net(design, "x"), Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
        assertThat(survey.answers())
                .filteredOn(a -> a.question().pad() == 0)
                .allMatch(a -> a instanceof Answer.Blocked);
    }
}
