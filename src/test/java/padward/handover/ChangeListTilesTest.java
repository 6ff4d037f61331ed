package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeSet;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.CellKind;
import padward.fabric.EdgeKind;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;

/** The change list names the tile in which each switch was put when the fabric was made. */
class ChangeListTilesTest {
    private static final int SIDE = 8;

    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    /** A chain from a cell over wires with taps to a pad; each switch in a tile drawn for it. */
    @ParameterizedTest
    @MethodSource("seeds")
    void everySwitchIsListedWhereItIs(long seed) {
        Random random = new Random(seed);
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo(
                                "chain",
                                "",
                                List.of(new CellKind("register", true)),
                                List.of(),
                                List.of()),
                        SIDE,
                        SIDE);
        int tiles = SIDE * SIDE;
        int length = 2 + random.nextInt(8);
        int[] tileOfSwitch = random.ints(length + 1, 0, tiles).toArray();
        List<TreeSet<Integer>> taps = new ArrayList<>();
        List<String> names = new ArrayList<>();
        for (int w = 0; w < length; w++) {
            TreeSet<Integer> own = new TreeSet<>();
            own.add(tileOfSwitch[w]);
            own.add(tileOfSwitch[w + 1]);
            random.ints(random.nextInt(12), 0, tiles).forEach(own::add);
            taps.add(own);
            names.add("wire" + w);
            builder.addWire(names.get(w), random.nextInt(tiles), random.nextInt(tiles), "bent");
            for (int tile : own) {
                builder.addTap(w, tile, "at" + tile + "_" + w);
            }
        }
        builder.addSite(
                "site",
                tileOfSwitch[0],
                "logic",
                List.of("register"),
                List.of(new SitePin("out", PinDirection.OUT)));
        builder.addPad("pad", tileOfSwitch[length], "", "", PadDirections.OUT, -1, -1, "");
        names.add(0, "site.out");
        names.add("pad");
        List<String> expected = new ArrayList<>();
        for (int s = 0; s <= length; s++) {
            int from = builder.findVertex(names.get(s));
            int to = builder.findVertex(names.get(s + 1));
            builder.addEdge(from, to, EdgeKind.SWITCH, new Delay(1, 2));
            TreeSet<Integer> common = tapsOf(s - 1, taps, tileOfSwitch[0]);
            common.retainAll(tapsOf(s, taps, tileOfSwitch[length]));
            boolean stated = random.nextBoolean();
            if (stated) {
                builder.setSwitchTile(from, to, tileOfSwitch[s]);
            }
            boolean known = stated || common.size() == 1;
            expected.add(known ? "x" + tileOfSwitch[s] % SIDE + "y" + tileOfSwitch[s] / SIDE : "");
        }
        ChangeList list = broughtOut(builder, names);
        List<Change> on =
                list.entries().get(0).changes().stream()
                        .filter(c -> c.what() == Change.What.ON)
                        .toList();
        assertThat(on.stream().map(c -> c.get("tile"))).containsExactlyElementsOf(expected);
        assertThat(list.withoutTile()).isEqualTo(expected.stream().filter(""::equals).count());
        for (int s = 0; s <= length; s++) {
            boolean tapped = s > 0 && !expected.get(s).isEmpty();
            assertThat(on.get(s).get("fromThere"))
                    .isEqualTo(tapped ? "at" + tileOfSwitch[s] + "_" + (s - 1) : "");
        }
    }

    private static TreeSet<Integer> tapsOf(int wire, List<TreeSet<Integer>> taps, int otherwise) {
        return wire < 0 || wire >= taps.size()
                ? new TreeSet<>(List.of(otherwise))
                : new TreeSet<>(taps.get(wire));
    }

    private static ChangeList broughtOut(ExplicitBuilder builder, List<String> names) {
        var fabric = builder.build();
        Terminal driver = new Terminal.CellPin(0, "out");
        Net net =
                new Net(
                        0,
                        "inner",
                        driver,
                        List.of(),
                        new RouteTree.Builder(fabric.findVertex("site.out")).build(),
                        false);
        Design design =
                new Design(
                        "chain",
                        "",
                        fabric,
                        Board.UNKNOWN,
                        List.of(new Cell(0, "cell", "register", fabric.findSite("site"), Map.of())),
                        List.of(net),
                        List.of());
        List<Integer> route = names.stream().map(fabric::findVertex).toList();
        LedgerEntry entry =
                new LedgerEntry(
                        "now",
                        "me",
                        "",
                        "inner",
                        "pad",
                        List.of(new Edit.BreakOut("inner", "out_pad", "pad", "", route)));
        return ChangeList.of(design, new Ledger("d.json", "", List.of(entry)));
    }
}
