package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.design.Design;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;

/** What docs/formats.md and docs/how-it-answers.md state about unusual questions and members. */
class StatedMembersTest {
    @TempDir private Path folder;

    private static HandMade source() {
        return new HandMade()
                .site("SRC", "", "q")
                .cell("source", "SRC")
                .wires("w")
                .pad("OUT")
                .pad("NEXT")
                .chain("SRC.q w OUT")
                .chain("w NEXT");
    }

    private void write(HandMade made) throws Exception {
        Design design = made.design();
        FabricWriter.write(design.fabric(), folder.resolve("f.json"));
        DesignWriter.write(design, folder.resolve("d.json"), "f.json", "");
    }

    private CommandRun run(String command, String... more) {
        List<Object> words = new ArrayList<>(List.of(command, "--design"));
        words.add(folder.resolve("d.json"));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    private JsonObject ask(String net, String pad) {
        return run("ask", "--net", net, "--pad", pad, "--json").json();
    }

    private CommandRun keep(String net, String pad) {
        String ledger = folder.resolve("l.json").toString();
        return run(
                "keep", "--net", net, "--pad", pad, "--ledger", ledger, "--accept", "drives,reads");
    }

    @Test
    void chokepointsAreInAskAlone() throws Exception {
        write(source().net("signal", "source.q", ""));
        assertThat(ask("signal", "OUT").getAsJsonArray("chokepoints")).hasSize(2);
        JsonObject survey = run("survey", "--net", "signal", "--json").json();
        assertThat(survey.getAsJsonArray("answers")).hasSize(2);
        for (JsonElement answer : survey.getAsJsonArray("answers")) {
            assertThat(answer.getAsJsonObject().has("chokepoints")).isFalse();
        }
    }

    @Test
    void noDelayChangesWhereTheFabricStatesNoLoads() throws Exception {
        write(
                source().site("END", "d", "")
                        .cell("end", "END")
                        .chain("w END.d")
                        .net("signal", "source.q", "end.d", "SRC.q w END.d"));
        JsonObject bus = run("bus", "--nets", "signal", "--pads", "OUT", "--json").json();
        assertThat(bus.getAsJsonArray("lines")).hasSize(1);
        assertThat(bus.getAsJsonArray("delayChanges")).isEmpty();
    }

    @Test
    void oneVertexIsNotOneVertices() throws Exception {
        FabricWriter.write(new HandMade().wires("w").fabric(), folder.resolve("one.json"));
        CommandRun check = CommandRun.of("check", folder.resolve("one.json"));
        assertThat(check.out()).contains("1 vertex").doesNotContain("1 vertices");
    }

    @Test
    void aNetThatIsOnThePadIsOpenAndCannotBeKeptThere() throws Exception {
        write(
                source().port("out", PortDirection.OUT, "OUT")
                        .net("signal", "source.q", "out", "SRC.q w OUT"));
        JsonObject answer = ask("signal", "OUT");
        assertThat(answer.get("answer").getAsString()).isEqualTo("open");
        assertThat(answer.get("sentence").getAsString()).contains("is already on pad OUT");
        assertThat(answer.has("disconnected")).isFalse();
        CommandRun kept = keep("signal", "OUT");
        assertThat(kept.code()).isEqualTo(2);
        assertThat(kept.err()).contains("a pad that the net is not on");
        JsonObject bus = run("bus", "--nets", "signal", "--pads", "OUT,NEXT", "--json").json();
        assertThat(bus.getAsJsonArray("lines")).isEmpty();
        assertThat(bus.getAsJsonArray("notServed").get(0).getAsJsonObject().get("reason"))
                .hasToString("\"it is already on pad OUT\"");
    }

    @Test
    void aPortInBothDirectionsIsDisconnectedWhereANetEndsAtIt() throws Exception {
        write(
                source().site("TWO", "", "q")
                        .cell("second", "TWO")
                        .wires("x")
                        .chain("TWO.q x OUT")
                        .port("io", PortDirection.BOTH, "OUT")
                        .net("signal", "source.q", "")
                        .net("outgoing", "second.q", "io", "TWO.q x OUT"));
        JsonObject answer = ask("signal", "OUT");
        assertThat(answer.get("answer").getAsString()).isEqualTo("takes-port");
        assertThat(answer.getAsJsonObject("disconnected").get("port").getAsString())
                .isEqualTo("io");
        assertThat(answer.get("cautions").toString()).contains("reads the board through this pad");
    }

    @Test
    void aPortWithoutARoutedNetIsDisconnectedWithTheEdits() throws Exception {
        write(source().port("in", PortDirection.IN, "OUT").net("signal", "source.q", ""));
        JsonObject answer = ask("signal", "OUT");
        assertThat(answer.get("answer").getAsString()).isEqualTo("takes-port");
        assertThat(answer.has("disconnected")).isFalse();
        assertThat(keep("signal", "OUT").out()).contains("disconnect port in");
    }

    @Test
    void anInputPortsNetIsTheObstacleAndItsPortWhatIsDisconnected() throws Exception {
        write(
                source().port("in", PortDirection.IN, "OUT")
                        .site("END", "d", "")
                        .cell("end", "END")
                        .wires("x")
                        .chain("OUT x END.d")
                        .net("signal", "source.q", "")
                        .net("incoming", "in", "end.d", "OUT x END.d"));
        JsonObject answer = ask("signal", "OUT");
        JsonObject obstacle = answer.getAsJsonArray("obstacles").get(0).getAsJsonObject();
        assertThat(obstacle.get("name").getAsString()).isEqualTo("incoming");
        assertThat(keep("signal", "OUT").out())
                .contains("disconnect port in")
                .doesNotContain("remove net incoming\n");
        assertThat(Files.readString(folder.resolve("l.json")))
                .contains("disconnect-port")
                .doesNotContain("remove-net");
    }
}
