package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.DesignReview;
import padward.design.Net;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.example.HandMade;
import padward.fabric.pad.PadEnable;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/**
 * A net that switches a pad's driver without a cell between ends at the port's enable, in both
 * forms of a design's files and in edits. Invented: data at m and p, the enable through e.
 */
class EnableEndFilesTest {
    @TempDir private Path folder;

    private static HandMade made() {
        return new HandMade()
                .wires("v")
                .site("m", "", "q")
                .site("t", "", "q")
                .site("e", "d", "q")
                .through("e", "d", "q")
                .enabledPad("p", "e", PadEnable.UNKNOWN)
                .chain("m.q p")
                .chain("t.q v e.d")
                .cell("data", "m")
                .cell("turn", "t")
                .port("bus", PortDirection.OUT, "p");
    }

    private static Design design() {
        return made().net("out", "data.q", "bus", "m.q p")
                .net("on", "turn.q", "enable:bus", "t.q v e.d e.q")
                .design();
    }

    private static Net on(Design design) {
        return design.findNet("on").orElseThrow();
    }

    private Path written(Design design) throws Exception {
        FabricWriter.write(design.fabric(), folder.resolve("f.json"));
        Path file = folder.resolve("d.json");
        DesignWriter.write(design, file, "f.json", "");
        return file;
    }

    private static void check(Design read) {
        assertThat(on(read).sinks()).containsExactly(Terminal.PortEnd.enableOf(0));
        assertThat(read.textOf(on(read).sinks().get(0))).isEqualTo("enable of port bus");
        assertThat(read.vertexOf(on(read).sinks().get(0)))
                .isEqualTo(read.fabric().findVertex("e.q"));
        assertThat(DesignReview.of(read))
                .noneMatch(f -> f.contains("end at no sink") || f.contains("without sinks"));
    }

    @Test
    void jsonKeepsIt() throws Exception {
        Path file = written(design());
        assertThat(Files.readString(file))
                .containsPattern("\"pin\":\\s*\"enable\"")
                .containsPattern("\"port\":\\s*\"bus\"");
        check(DesignReader.read(file, Progress.NONE));
    }

    @Test
    void tablesKeepIt() throws Exception {
        TableExport.write(design(), folder, false, Progress.NONE);
        assertThat(Files.readString(folder.resolve("ends.csv"))).contains("on,,enable,bus,sink");
        TableImport.Sound read = (TableImport.Sound) TableImport.read(folder, 10, Progress.NONE);
        check(read.design().orElseThrow());
    }

    /** The enable's net loses this end and the wires that served it alone. */
    @Test
    void aPortIsDisconnectedWithIt() {
        Design after = Outcome.apply(design(), List.of(new Edit.DisconnectPort("bus")));
        assertThat(on(after).sinks()).isEmpty();
        assertThat(on(after).route().size()).isEqualTo(1);
    }

    /** Pads that share an enable's site: the other port still needs the wires. */
    @Test
    void aSharedEnableStaysWithTheOtherPort() {
        Design design =
                made().enabledPad("r", "e", PadEnable.UNKNOWN)
                        .port("second", PortDirection.OUT, "r")
                        .net("out", "data.q", "bus", "m.q p")
                        .net("on", "turn.q", "enable:bus", "t.q v e.d e.q")
                        .design();
        Design after = Outcome.apply(design, List.of(new Edit.DisconnectPort("bus")));
        assertThat(on(after).route().size()).isEqualTo(4);
        assertThat(on(after).sinks()).hasSize(1);
        assertThat(after.textOf(on(after).sinks().get(0))).isEqualTo("enable of port second");
    }

    @Test
    void aReroutedNetMustStillReachIt() {
        Net net = on(design());
        Outcome outcome =
                Outcome.of(
                        design(),
                        List.of(
                                new Edit.RouteNet(
                                        "on", padward.design.RouteTree.of(net.route().root()))));
        assertThat(((Outcome.Refused) outcome).reasons())
                .anyMatch(r -> r.contains("does not reach enable of port bus"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "\"pin\": \"enable\" | \"pin\": \"on\" | expected \"enable\", or none",
                "\"direction\": \"out\" | \"direction\": \"in\" | a port that drives its pad",
                "\"pad\": \"p\" | \"pad\": \"p\", \"enable\": \"tied\" | not tied",
            })
    void faultsAreNamed(String old, String now, String expected) throws Exception {
        Path file = written(made().net("on", "turn.q", "enable:bus", "t.q v e.d e.q").design());
        String text = Files.readString(file).replaceAll("\":\\s*", "\": ");
        assertThat(text).contains(old);
        Files.writeString(file, text.replace(old, now));
        assertThatThrownBy(() -> DesignReader.read(file, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(expected);
    }
}
