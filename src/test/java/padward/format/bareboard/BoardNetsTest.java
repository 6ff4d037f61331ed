package padward.format.bareboard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.BoardHeader;
import padward.design.board.Levels;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.format.design.BoardReader;
import padward.format.fabric.FabricReader;

/** What hangs on the pins of a chip, from the board's net list. All data is invented. */
class BoardNetsTest {
    private static final Path FOLDER = Path.of("fixtures/package");

    @TempDir private Path folder;

    private static Fabric fabric() throws BadInput {
        return FabricReader.read(Path.of("fixtures/small/only.fabric.json"), Progress.NONE);
    }

    private static BoardNets.Imported imported(Path nets) throws BadInput {
        PartsTable parts = PartsTable.read(FOLDER.resolve("heron-2.parts.csv"), Progress.NONE);
        return BoardNets.read(nets, Progress.NONE).board("heron-2", "U1", fabric(), parts);
    }

    private static Map<Integer, List<String>> parts(Board board) {
        Map<Integer, List<String>> result = new TreeMap<>();
        for (PadWiring wiring : board.wirings()) {
            result.put(
                    wiring.pad(),
                    wiring.attachments().stream()
                            .map(a -> a.kind() + " " + a.name() + " " + wiring.net())
                            .sorted()
                            .toList());
        }
        return result;
    }

    /** Both forms give what is written by hand in the small example's board. */
    @ParameterizedTest
    @ValueSource(strings = {"heron-2.nets.csv", "heron-2.ipc"})
    void theSmallBoardComesFromItsNetList(String file) throws BadInput {
        BoardNets.Imported imported = imported(FOLDER.resolve(file));
        Board byHand =
                BoardReader.read(Path.of("fixtures/small/board.json"), fabric(), Progress.NONE);
        assertThat(parts(imported.board())).isEqualTo(parts(byHand));
        assertThat(imported.board().headers()).isEqualTo(byHand.headers());
        assertThat(imported.withoutPad()).isEmpty();
        assertThat(imported.undescribed()).isEmpty();
        Attachment motor =
                imported.board().wirings().stream()
                        .flatMap(w -> w.attachments().stream())
                        .filter(a -> a.name().equals("U7"))
                        .findFirst()
                        .orElseThrow();
        assertThat(motor)
                .isEqualTo(
                        new Attachment(AttachmentKind.LOAD, "U7", "4", new Levels(3300, 3600, 0)));
    }

    private Path file(String name, String text) throws Exception {
        return Files.writeString(folder.resolve(name), text);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "xyz | line 1 column 1",
                "327                 U1    -A1 | line 1 column 4",
                "327N                U1    A1 | line 1 column 27",
                "327N                U1    - | line 1 column 28",
                "327N                U1    -A1 | line 2 column 1"
            })
    void aFaultOfTestDataNamesLineAndColumn(String record, String place) throws Exception {
        Path bad = file("bad.ipc", record + "\n");
        assertThatThrownBy(() -> BareBoardReader.read(bad, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(bad + ", at " + place + ":");
    }

    @Test
    void longNamesAndWhatIsNoPin() throws Exception {
        Path good =
                file(
                        "good.ipc",
                        """
                        C  invented
                        P  NNAME1  A_VERY_LONG_NAME_OF_A_NET
                        317NNAME1           U1    -A1   D0010
                        317NNAME1           VIA
                        327N/C              U1    -A2
                        367N/C                          D0030
                        378NNAME1 X0Y0
                        999
                        anything
                        """);
        assertThat(BareBoardReader.read(good, Progress.NONE))
                .containsExactly(new PartPin("A_VERY_LONG_NAME_OF_A_NET", "U1", "A1"));
    }

    @Test
    void aFaultOfATableNamesRowAndColumn() throws Exception {
        Path nets = file("n.csv", "net,part,pin\nN,U1,A1\nN,,2\n");
        assertThatThrownBy(() -> BoardNets.read(nets, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("row 3")
                .hasMessageContaining("part");
        Path parts = file("p.csv", "part,direction\nU7,inwards\n");
        assertThatThrownBy(() -> PartsTable.read(parts, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("row 2")
                .hasMessageContaining("direction");
        Path twice = file("t.csv", "part,direction\nU7,in\nU7,out\n");
        assertThatThrownBy(() -> PartsTable.read(twice, Progress.NONE))
                .hasMessageContaining("each part or pin once");
    }

    @Test
    void aPartBehindAResistorHangsOnTheNetToo() throws Exception {
        Path nets = file("n.csv", "net,part,pin\nA,U1,D7\nA,R9,1\nB,R9,2\nB,U9,3\nB,Z1,1\n");
        Path parts = file("p.csv", "part,kind,direction,series_ohms\nR9,series,,47\nU9,,in,\n");
        BoardNets.Imported imported =
                BoardNets.read(nets, Progress.NONE)
                        .board("b", "U1", fabric(), PartsTable.read(parts, Progress.NONE));
        assertThat(imported.board().wirings().get(0).attachments())
                .containsExactlyInAnyOrder(
                        new Attachment(AttachmentKind.LOAD, "U9", "3", new Levels(0, 0, 47)),
                        // Nothing is known of it, so it may drive and listen.
                        new Attachment(AttachmentKind.TWO_WAY, "Z1", "1", new Levels(0, 0, 47)));
        assertThat(imported.undescribed()).containsExactly("Z1");
    }

    @Test
    void aChipThatTheBoardDoesNotHaveIsAFault() {
        assertThatThrownBy(
                        () ->
                                BoardNets.read(FOLDER.resolve("heron-2.ipc"), Progress.NONE)
                                        .board("b", "U99", fabric(), PartsTable.empty()))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("expected pins of part U99");
    }

    @Test
    void pinsOfAHeaderStandWhereItsNumberingSays() {
        BoardHeader across =
                new BoardHeader(
                        "J", 6, 2, BoardHeader.Numbering.ACROSS, BoardHeader.Side.TOP, List.of());
        assertThat(List.of(across.rowOf(4), across.columnOf(4))).containsExactly(1, 1);
        BoardHeader around =
                new BoardHeader(
                        "J", 6, 2, BoardHeader.Numbering.AROUND, BoardHeader.Side.TOP, List.of());
        assertThat(List.of(around.rowOf(4), around.columnOf(4))).containsExactly(1, 2);
        BoardHeader along =
                new BoardHeader(
                        "J", 6, 2, BoardHeader.Numbering.ALONG, BoardHeader.Side.TOP, List.of());
        assertThat(List.of(along.rowOf(4), along.columnOf(4))).containsExactly(1, 0);
    }
}
