package padward.example;

import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.pad.PadDirections;

/** Everything that a design's file can state, on a fabric that lists every wire. Invented. */
public final class EveryField {
    private EveryField() {}

    /**
     * The design.
     *
     * @param length how often some of its names repeat a part of themselves
     */
    public static Design design(int length) {
        Design made =
                new HandMade()
                        .bank("b", 3300)
                        .setting("slow", 3300)
                        .setting("odd", 1800)
                        .wires("w0 w1 w2 w3 w4 w5 w6 w7 w8")
                        .site("S0", "", "o e")
                        .site("S1", "i j", "o")
                        .site("S2", "i", "o")
                        .site("T", "i", "o")
                        .through("T", "i", "o")
                        .site("OE", "i", "")
                        .site("OF", "d", "q")
                        .through("OF", "d", "q")
                        .part("S3", "table", "a b", "y")
                        .part("S3", "register", "d", "q")
                        .pad("P", PadDirections.BOTH, "b", "OE", "slow")
                        .pad("R", PadDirections.BOTH, "b", "OF", "slow")
                        .pad("Q", PadDirections.OUT, "b", "", "slow")
                        .chain("S0.o w0 P")
                        .chain("S0.e w4 OE.i")
                        .chain("P w1 S1.i")
                        .chain("w1 w3 S1.j")
                        .chain("w3 T.i")
                        .chain("T.o w5 S3.a")
                        .chain("w1 w6 S3.d")
                        .chain("S2.o w2 OF.d")
                        .chain("S3.y w7 Q")
                        .chain("S3.q w8 R")
                        .unusable("w8")
                        .cell("data", "S0")
                        .cell("sample", "S1", Map.of("init", "0x1f", "mode", ""))
                        .cell("probe", "S2")
                        .openCell("open", "T")
                        .cell("t", "S3/table", Map.of("mode", "", "init", "0x1f"))
                        .cell("r", "S3/register")
                        .port("d", PortDirection.BOTH, "P")
                        .port("f", PortDirection.OUT, "R", "odd")
                        .port("q", PortDirection.OUT, "Q", "slow")
                        .net("out", "data.o", "d", "S0.o w0 P")
                        .net(
                                "in",
                                "d",
                                "sample.i sample.j t.a r.d",
                                "P w1 S1.i",
                                "w1 w3 T.i T.o w5 S3.a",
                                "w1 w6 S3.d")
                        .net("oe", "data.e", "", "S0.e w4 OE.i")
                        .net("probe", "probe.o", "enable:f", "S2.o w2 OF.d OF.q")
                        .net("far", "t.y", "q")
                        .net("none", "r.q", "")
                        .lockCell("r")
                        .lockNet("oe", NetLock.WIRES)
                        .lockNet("probe", NetLock.WHOLE)
                        .design();
        List<Cell> cells = List.copyOf(made.cells());
        List<Net> nets =
                made.nets().stream().map(n -> n.name().equals("in") ? timed(n) : n).toList();
        List<Port> ports =
                made.ports().stream()
                        .map(p -> p.name().equals("q") ? p.withEnableTied() : p)
                        .toList();
        String name = "Übung 😀 " + "long".repeat(length);
        return new Design(
                name,
                "two\nlines",
                made.fabric(),
                Board.UNKNOWN,
                renamed(cells, length),
                nets,
                ports);
    }

    private static List<Cell> renamed(List<Cell> cells, int length) {
        return cells.stream()
                .map(
                        c ->
                                c.name().equals("sample")
                                        ? new Cell(
                                                c.id(),
                                                "Zähler/😀" + "none".repeat(length),
                                                c.kind(),
                                                c.site(),
                                                c.settings(),
                                                true)
                                        : c)
                .toList();
    }

    private static Net timed(Net net) {
        Terminal one = net.sinks().get(1);
        Terminal other = net.sinks().get(3);
        return new Net(
                net.id(),
                "ein Netz 网",
                net.driver(),
                net.sinks(),
                net.route(),
                true,
                OptionalInt.of(1_000_000_000),
                Map.of(one, 0, other, 70_000));
    }
}
