package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadDriving;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/** Pads that invert, that have few settings, or that form a pair. */
class PadDrivingTest {
    private static Design design(PadDriving driving) {
        return new HandMade()
                .setting("gentle", 3300)
                .setting("strong", 3300)
                .setting("low", 1800)
                .bank("A", 3300)
                .wires("w0 w1")
                .site("S0", "", "o p")
                .drivenPad("P", "A", "", driving)
                .pad("Q")
                .chain("S0.o w0 P")
                .chain("S0.p w1 Q")
                .cell("c", "S0")
                .port("other", PortDirection.OUT, "Q")
                .net("n", "c.o", "", "S0.o w0")
                .net("m", "c.p", "other", "S0.p w1 Q")
                .design();
    }

    private static Question question(Design design) {
        return new Question(design, design.findNet("n").orElseThrow(), 0, Corner.SLOW);
    }

    private static List<String> cautions(PadDriving driving) {
        return Cautions.of(question(design(driving))).stream().map(Caution::text).toList();
    }

    @Test
    void aPathThatInvertsIsCautionedAgainst() {
        assertThat(cautions(new PadDriving(true, List.of(), "")))
                .contains("The path to this pad inverts: the pin is low while n is high.");
        assertThat(cautions(PadDriving.UNSTATED)).noneMatch(t -> t.contains("inverts"));
    }

    @Test
    void takingOneOfAPairIsCautionedAgainst() {
        assertThat(cautions(new PadDriving(false, List.of(), "Q")))
                .contains(
                        "This pad forms a differential pair with pad Q, where port other is: if that"
                                + " is a differential signal, it fails when this pad is taken.");
    }

    @Test
    void onlySettingsThatThePadHasAreUsed() {
        Design design = design(new PadDriving(false, List.of("strong"), ""));
        assertThat(DriverFit.of(question(design)).setting().orElseThrow().name())
                .isEqualTo("strong");
        Answer answer =
                Asker.ask(
                        question(design(new PadDriving(false, List.of("low"), ""))), Progress.NONE);
        assertThat(((Answer.NoRoute) answer).reason()).isEqualTo(NoRouteReason.NO_FITTING_SETTING);
        DriverFit named = DriverFit.of(design, 0, WantedDriver.of("gentle"));
        assertThat(named.hopeless()).isTrue();
        assertThat(named.conflict())
                .contains("Pad P does not have driver setting gentle, only strong.");
        int w0 = design.fabric().findVertex("w0");
        int pad = design.fabric().findVertex("P");
        Edit out = new Edit.BreakOut("n", "out", "P", "gentle", List.of(w0, pad));
        assertThat(((Outcome.Refused) Outcome.of(design, List.of(out))).reasons())
                .containsExactly("pad P does not have driver setting gentle");
    }

    @Test
    void allOfItIsPreservedInTablesAndJson(@TempDir Path folder) throws Exception {
        PadDriving driving = new PadDriving(true, List.of("gentle", "low"), "Q");
        Fabric fabric = design(driving).fabric();
        TableExport.write(fabric, folder.resolve("tables"), false, Progress.NONE);
        Fabric again =
                ((TableImport.Sound) TableImport.read(folder.resolve("tables"), 9, Progress.NONE))
                        .fabric();
        FabricWriter.write(again, folder.resolve("f.json"));
        Fabric fromJson = FabricReader.read(folder.resolve("f.json"), Progress.NONE);
        for (Fabric one : List.of(again, fromJson)) {
            Pad pad = one.findPadAt(one.findVertex("P")).orElseThrow();
            assertThat(pad.use().driving()).isEqualTo(driving);
        }
    }
}
