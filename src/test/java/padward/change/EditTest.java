package padward.change;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.example.HandMade;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriving;

/** What each edit does to a design of a few wires, and what it is refused for. */
class EditTest {
    /**
     * Net n has only its driver, and can be brought out on P over a or b. Net m has two sinks, and
     * reaches the first one over g too. Port led is on Q, fed by net l. Site X is free.
     *
     * <pre>
     *  S.o - a - P     T.o - c - d - U.i      L.o - h - Q
     *      \ b /             | \ e - V.i
     *                        |  \ x - X.i     X.o - y - W.j
     *                        g - U.i
     * </pre>
     */
    private static HandMade made() {
        return new HandMade()
                .wires("a b c d e g h x y")
                .setting("lv33", 3300)
                .setting("lv18", 1800)
                .site("S", "", "o")
                .site("T", "", "o")
                .site("U", "i k", "")
                .site("V", "i", "")
                .site("L", "", "o")
                .site("X", "i", "o")
                .site("W", "j k", "")
                .pad("P")
                .pad("Q")
                .pad("in", PadDirections.IN, "", "", "")
                .pad("out", PadDirections.OUT, "", "", "")
                .enabledPad("E", "X")
                .drivenPad("D", "", "lv33", new PadDriving(false, List.of("lv33"), ""))
                .chain("S.o a P")
                .chain("S.o b P")
                .chain("b D")
                .chain("a E")
                .chain("T.o c d U.i")
                .chain("c e V.i")
                .chain("c g U.i")
                .chain("c x X.i")
                .chain("X.o y W.j")
                .chain("L.o h Q")
                .chain("P W.k")
                .cell("s", "S")
                .cell("t", "T")
                .cell("u", "U")
                .cell("v", "V")
                .cell("l", "L")
                .cell("w", "W")
                .port("led", PortDirection.OUT, "Q")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "u.i v.i", "T.o c d U.i", "c e V.i")
                .net("l", "l.o", "led", "L.o h Q");
    }

    private static List<String> refused(Design design, Edit... edits) {
        Outcome outcome = Outcome.of(design, List.of(edits));
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused) outcome).reasons();
    }

    private static List<String> refused(Edit... edits) {
        return refused(made().design(), edits);
    }

    private static Design after(Design design, Edit... edits) {
        return Outcome.apply(design, List.of(edits));
    }

    private static Design after(Edit... edits) {
        return after(made().design(), edits);
    }

    private static Set<String> touched(Edit... edits) {
        return ((Outcome.Applied) Outcome.of(made().design(), List.of(edits)))
                .touched().stream()
                        .map(p -> p.kind().label() + " " + p.name())
                        .collect(Collectors.toCollection(TreeSet::new));
    }

    private static List<Integer> path(String vertices) {
        Design design = made().design();
        return Arrays.stream(vertices.split(" "))
                .map(design.fabric()::findVertex)
                .collect(Collectors.toList());
    }

    /** A tree of branches, each from a vertex that is on it. */
    private static RouteTree tree(String... branches) {
        RouteTree.Builder tree = new RouteTree.Builder(path(branches[0]).get(0));
        for (String branch : branches) {
            List<Integer> vertices = path(branch);
            for (int i = 1; i < vertices.size(); i++) {
                tree.add(vertices.get(i - 1), vertices.get(i));
            }
        }
        return tree.build();
    }

    private static Set<String> wires(Design design, String net) {
        Net found = design.findNet(net).orElseThrow();
        return Arrays.stream(found.route().toVertices())
                .mapToObj(design.fabric()::vertexName)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static List<String> ends(Design design, String net) {
        return design.findNet(net).orElseThrow().ends().stream().map(design::textOf).toList();
    }

    private static Edit out(String net, String port, String pad, String setting, String path) {
        return new Edit.BreakOut(net, port, pad, setting, path.isEmpty() ? List.of() : path(path));
    }

    private static Edit.CellEnd end(String text) {
        String[] parts = text.split("\\.");
        return new Edit.CellEnd(parts[0], parts[1]);
    }

    private record Told(Edit edit, String kind, boolean makesRoom, String text) {}

    static List<Told> allKinds() {
        RouteTree tree = tree("T.o");
        Edit.RouteNet plain = new Edit.RouteNet("m", tree);
        return List.of(
                new Told(new Edit.DisconnectPort("led"), "port off", true, "disconnect port led"),
                new Told(new Edit.RemoveNet("m"), "net off", true, "remove net m"),
                new Told(new Edit.RemoveCell("u"), "cell off", true, "remove cell u"),
                new Told(plain, "net", false, "reroute net m"),
                new Told(
                        new Edit.RouteNet("m", tree, List.of(new Edit.PinSwap("u", "i", "k"))),
                        "net",
                        false,
                        "reroute net m, to pin k of cell u instead of i"),
                new Told(
                        new Edit.RelocateCell("u", "X", List.of(plain)),
                        "cell",
                        false,
                        "relocate cell u to X"),
                new Told(
                        new Edit.SetCell("u", "init", "1"), "set", true, "set init of cell u to 1"),
                new Told(
                        out("n", "p", "P", "", "S.o a P"),
                        "out",
                        false,
                        "bring out net n on pad P as port p"),
                new Told(
                        new Edit.SetDriver("led", "lv18"),
                        "driver",
                        false,
                        "set driver of port led to lv18"),
                new Told(new Edit.TieEnable("led"), "tie", false, "tie enable of port led on"),
                new Told(
                        new Edit.AddCell("z", "register", "X", Map.of()),
                        "new cell",
                        false,
                        "add cell z of kind register on X"),
                new Told(
                        new Edit.AddNet("k", end("z.o"), List.of(end("w.j")), tree, false),
                        "new net",
                        false,
                        "add net k from z.o"),
                new Told(
                        new Edit.AddSink("m", end("z.i"), path("c x X.i")),
                        "sink",
                        false,
                        "branch net m to z.i"),
                new Told(
                        new Edit.AddInput("k", "r", "P", List.of(end("w.k")), tree),
                        "input",
                        false,
                        "read pad P as port r and net k"));
    }

    @ParameterizedTest
    @MethodSource("allKinds")
    void eachKindIsToldAndHandedToItsMethod(Told told) {
        assertThat(told.edit().toText()).isEqualTo(told.text());
        assertThat(told.edit().makesRoom()).isEqualTo(told.makesRoom());
        assertThat(told.edit().accept(new Kinds())).isEqualTo(told.kind());
    }

    /** The word for each kind. */
    private static final class Kinds implements Edit.Visitor<String, RuntimeException> {
        @Override
        public String disconnectPort(Edit.DisconnectPort edit) {
            return "port off";
        }

        @Override
        public String removeNet(Edit.RemoveNet edit) {
            return "net off";
        }

        @Override
        public String removeCell(Edit.RemoveCell edit) {
            return "cell off";
        }

        @Override
        public String routeNet(Edit.RouteNet edit) {
            return "net";
        }

        @Override
        public String relocateCell(Edit.RelocateCell edit) {
            return "cell";
        }

        @Override
        public String setCell(Edit.SetCell edit) {
            return "set";
        }

        @Override
        public String breakOut(Edit.BreakOut edit) {
            return "out";
        }

        @Override
        public String setDriver(Edit.SetDriver edit) {
            return "driver";
        }

        @Override
        public String tieEnable(Edit.TieEnable edit) {
            return "tie";
        }

        @Override
        public String addCell(Edit.AddCell edit) {
            return "new cell";
        }

        @Override
        public String addNet(Edit.AddNet edit) {
            return "new net";
        }

        @Override
        public String addSink(Edit.AddSink edit) {
            return "sink";
        }

        @Override
        public String addInput(Edit.AddInput edit) {
            return "input";
        }
    }

    @Test
    void onlyNetsThatKeepTheirNumberAreRerouted() {
        Edit.RouteNet net = new Edit.RouteNet("m", tree("T.o"));
        assertThat(net.reroutes()).containsExactly(net);
        assertThat(new Edit.RelocateCell("u", "X", List.of(net)).reroutes()).containsExactly(net);
        assertThat(new Edit.RemoveNet("m").reroutes()).isEmpty();
    }

    @Test
    void whatIsNotThereIsRefused() {
        assertThat(refused(new Edit.DisconnectPort("z"))).containsExactly("there is no port z");
        assertThat(refused(new Edit.RemoveNet("z"))).containsExactly("there is no net z");
        assertThat(refused(new Edit.RemoveCell("z"))).containsExactly("there is no cell z");
        assertThat(refused(new Edit.SetCell("z", "a", "b"))).containsExactly("there is no cell z");
        assertThat(refused(new Edit.RouteNet("z", tree("T.o"))))
                .containsExactly("there is no net z");
        assertThat(refused(new Edit.SetDriver("z", "lv18"))).containsExactly("there is no port z");
        assertThat(refused(new Edit.TieEnable("z"))).containsExactly("there is no port z");
        assertThat(refused(new Edit.RelocateCell("z", "Z", List.of())))
                .containsExactly("there is no cell z", "there is no site Z");
        assertThat(refused(out("z", "p", "Z", "", "")))
                .containsExactly("there is no net z", "there is no pad Z");
        assertThat(refused(new Edit.AddCell("z", "register", "Z", Map.of())))
                .containsExactly("there is no site Z");
        assertThat(refused(new Edit.AddSink("z", end("y.i"), path("c"))))
                .containsExactly("there is no net z", "there is no cell y");
        assertThat(refused(new Edit.AddInput("k", "r", "Z", List.of(), tree("P"))))
                .containsExactly("there is no pad Z");
        assertThatThrownBy(() -> after(new Edit.RemoveNet("z"), new Edit.RemoveCell("z")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("there is no net z; there is no cell z");
    }

    @Test
    void aPortIsDisconnectedWithTheWiresThatServeItAlone() {
        Design without = after(new Edit.DisconnectPort("led"));
        assertThat(without.findPort("led")).isEmpty();
        assertThat(wires(without, "l")).containsExactly("L.o");
        assertThat(ends(without, "l")).containsExactly("l.o");
        assertThat(touched(new Edit.DisconnectPort("led"))).containsExactly("net l", "port led");
        Design both =
                after(
                        made().port("p", PortDirection.IN, "P")
                                .net("r", "p", "w.k", "P W.k")
                                .design(),
                        new Edit.DisconnectPort("p"));
        assertThat(both.findNet("r")).isEmpty();
    }

    @Test
    void aNetIsRemovedAndACellWithWhatItDrives() {
        Design without = after(new Edit.RemoveNet("m"));
        assertThat(without.findNet("m")).isEmpty();
        assertThat(without.occupancy().isOccupied(path("c").get(0))).isFalse();
        assertThat(without.findCell("u")).isPresent();
        assertThat(touched(new Edit.RemoveNet("m"))).containsExactly("net m");
        Design noSink = after(new Edit.RemoveCell("u"));
        assertThat(noSink.findCell("u")).isEmpty();
        assertThat(wires(noSink, "m")).containsExactly("T.o", "V.i", "c", "e");
        assertThat(ends(noSink, "m")).containsExactly("t.o", "v.i");
        assertThat(touched(new Edit.RemoveCell("u"))).containsExactly("cell u", "net m");
        assertThat(after(new Edit.RemoveCell("t")).findNet("m")).isEmpty();
    }

    @Test
    void aNetIsRouted() {
        Edit route = new Edit.RouteNet("m", tree("T.o c g U.i", "c e V.i"));
        assertThat(wires(after(route), "m")).containsExactly("T.o", "U.i", "V.i", "c", "e", "g");
        assertThat(touched(route)).containsExactly("net m");
    }

    @Test
    void aRouteMustLeadFromTheDriverOverSwitchesToEverySink() {
        assertThat(refused(new Edit.RouteNet("m", tree("c d U.i", "c e V.i"))))
                .containsExactly("the new route of net m does not start at its driver");
        assertThat(refused(new Edit.RouteNet("m", tree("T.o c d U.i"))))
                .containsExactly("the new route of net m does not reach v.i");
        assertThat(refused(new Edit.RouteNet("m", tree("T.o d U.i", "T.o c e V.i"))))
                .containsExactly("no switch leads from T.o to d");
        Edit across = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i", "T.o h"));
        assertThat(refused(across)).contains("no switch leads from T.o to h", "h is used by net l");
        assertThat(
                        refused(
                                made().unusable("g").design(),
                                new Edit.RouteNet("m", tree("T.o c g U.i", "c e V.i"))))
                .containsExactly("g is unusable");
        assertThat(
                        refused(
                                new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i", "c x X.i")),
                                new Edit.AddCell("z", "register", "X", Map.of())))
                .containsExactly("X.i is used by cell z", "X.i is used by net m");
    }

    @Test
    void aCellGoesToAnotherSiteWithItsNets() {
        Edit.RouteNet net = new Edit.RouteNet("m", tree("T.o c x X.i", "c e V.i"));
        Edit moved = new Edit.RelocateCell("u", "X", List.of(net));
        Design design = after(moved);
        assertThat(design.fabric().site(design.findCell("u").orElseThrow().site()).name())
                .isEqualTo("X");
        assertThat(wires(design, "m")).contains("X.i").doesNotContain("U.i");
        assertThat(touched(moved)).containsExactly("cell u", "net m");
        assertThat(refused(new Edit.RelocateCell("u", "X", List.of())))
                .contains("net m ends at cell u and stays behind");
        assertThat(refused(new Edit.RelocateCell("u", "V", List.of(net))))
                .contains("V.i is used by cell v");
        assertThat(refused(made().unusable("X").design(), moved)).contains("site X is unusable");
        // Two cells change places.
        Edit.RouteNet same = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i"));
        Design swapped =
                after(
                        new Edit.RelocateCell("u", "V", List.of(same)),
                        new Edit.RelocateCell("v", "U", List.of(same)));
        assertThat(swapped.fabric().site(swapped.findCell("v").orElseThrow().site()).name())
                .isEqualTo("U");
        assertThat(
                        refused(
                                new Edit.RelocateCell("u", "X", List.of(net)),
                                new Edit.AddCell("z", "register", "X", Map.of())))
                .contains("two cells are put on site X");
    }

    @Test
    void aSettingOfACellChangesAndTheOthersStay() {
        Design design = after(new Edit.SetCell("u", "a", "1"), new Edit.SetCell("u", "b", "2"));
        assertThat(design.findCell("u").orElseThrow().settings())
                .isEqualTo(Map.of("a", "1", "b", "2"));
        assertThat(touched(new Edit.SetCell("u", "a", "1"))).containsExactly("cell u");
    }

    @Test
    void aNetIsBroughtOutOnANewPort() {
        Edit edit = out("n", "p", "P", "lv18", "S.o a P");
        Design design = after(edit);
        Port port = design.findPort("p").orElseThrow();
        assertThat(port.setting()).isEqualTo("lv18");
        assertThat(port.direction()).isEqualTo(PortDirection.OUT);
        assertThat(wires(design, "n")).containsExactly("P", "S.o", "a");
        assertThat(ends(design, "n")).containsExactly("s.o", "port p");
        assertThat(touched(edit)).containsExactly("net n", "port p");
    }

    @ParameterizedTest
    @CsvSource({
        "p, in, '', S.o a in, pad in is input-only",
        "p, P, lv9, S.o a P, there is no driver setting lv9",
        "p, D, lv18, S.o b D, pad D does not have driver setting lv18",
        "p, P, '', '', the route of net n does not end at pad P",
        "p, P, '', S.o a, the route of net n does not end at pad P",
        "p, P, '', b P, the route does not start on net n",
        "p, P, '', S.o a S.o P, net n is already on S.o",
        "led, P, '', S.o a P, port led already exists",
        "p, Q, '', S.o a Q, port led is already on pad Q"
    })
    void aBreakoutIsRefused(String port, String pad, String setting, String path, String reason) {
        assertThat(refused(out("n", port, pad, setting, path))).containsExactly(reason);
    }

    @Test
    void aPadIsFreeOnceItsPortIsDisconnectedInTheSameEntry() {
        HandMade made = made().chain("a Q");
        Edit out = new Edit.BreakOut("n", "p", "Q", "", path("S.o a Q"));
        // Whatever the order: what makes room comes first.
        Design design = after(made.design(), out, new Edit.DisconnectPort("led"));
        assertThat(wires(design, "n")).containsExactly("Q", "S.o", "a");
        assertThat(design.findPort("led")).isEmpty();
    }

    @Test
    void aPadsDriverGetsASettingItHas() {
        Design design = after(new Edit.SetDriver("led", "lv18"));
        assertThat(design.findPort("led").orElseThrow().setting()).isEqualTo("lv18");
        assertThat(touched(new Edit.SetDriver("led", "lv18"))).containsExactly("port led");
        assertThat(refused(new Edit.SetDriver("led", "lv9")))
                .containsExactly("there is no driver setting lv9");
        assertThat(refused(out("n", "p", "D", "", "S.o b D"), new Edit.SetDriver("p", "lv18")))
                .containsExactly("pad D does not have driver setting lv18");
        Design set = after(out("n", "p", "D", "", "S.o b D"), new Edit.SetDriver("p", "lv33"));
        assertThat(set.findPort("p").orElseThrow().setting()).isEqualTo("lv33");
        // Of a port that was refused, no more is said.
        assertThat(refused(out("n", "p", "P", "lv9", "S.o a"), new Edit.TieEnable("p")))
                .containsExactly(
                        "there is no driver setting lv9",
                        "the route of net n does not end at pad P");
    }

    @Test
    void anEnableIsTiedOnWhereNothingElseUsesIt() {
        Edit out = out("n", "p", "E", "", "S.o a E");
        Edit tie = new Edit.TieEnable("p");
        assertThat(after(out, tie).findPort("p").orElseThrow().enableTied()).isTrue();
        assertThat(touched(out, tie)).containsExactly("net n", "port p");
        assertThat(refused(new Edit.TieEnable("led")))
                .containsExactly("the driver of pad Q has no enable");
        Design reads = made().port("r", PortDirection.IN, "E").design();
        assertThat(refused(reads, new Edit.TieEnable("r")))
                .containsExactly("port r does not use the driver of its pad");
        assertThat(refused(made().cell("z", "X").design(), out, tie))
                .containsExactly("X.i is used by cell z");
        Design net = made().net("k", "w.j", "", "W.j").design();
        assertThat(after(net, out, tie).findPort("p")).isPresent();
        assertThat(refused(out, tie, new Edit.AddCell("z", "register", "X", Map.of())))
                .contains("X.i is used by the tied enable of port p");
        Design tied = after(out, tie);
        assertThat(refused(tied, new Edit.AddCell("z", "register", "X", Map.of())))
                .containsExactly("X.i is used by the tied enable of port p");
        Edit into = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i", "c x X.i"));
        assertThat(refused(tied, into)).contains("X.i is used by the tied enable of port p");
        assertThat(refused(after(into), out, tie)).containsExactly("X.i is used by net m");
        assertThat(refused(out, tie, into))
                .containsExactly(
                        "X.i is used by the tied enable of port p", "X.i is used by net m");
    }

    @Test
    void aCellIsPlacedOnAFreeSite() {
        Edit add = new Edit.AddCell("z", "register", "X", Map.of("init", "1"));
        Design design = after(add);
        assertThat(design.findCell("z").orElseThrow().settings()).isEqualTo(Map.of("init", "1"));
        assertThat(design.occupancy().findCellOn(design.fabric().findSite("X"))).isPresent();
        assertThat(touched(add)).containsExactly("cell z");
        assertThat(refused(new Edit.AddCell("u", "register", "X", Map.of())))
                .containsExactly("cell u already exists");
        assertThat(refused(new Edit.AddCell("z", "register", "U", Map.of())))
                .contains("U.i is used by cell u");
        assertThat(refused(new Edit.AddCell("z", "memory", "X", Map.of())))
                .containsExactly("site X does not accept cells of kind memory");
        assertThat(refused(add, add)).containsExactly("cell z already exists");
    }

    private static final Edit ADD_CELL = new Edit.AddCell("z", "register", "X", Map.of());

    private static Edit addNet(String net, String driver, String... sinks) {
        List<Edit.CellEnd> to = Arrays.stream(sinks).map(EditTest::end).toList();
        return new Edit.AddNet(net, end(driver), to, tree("X.o y W.j"), true);
    }

    @Test
    void aNetIsAddedBetweenPinsAtWhichNoNetEnds() {
        Design design = after(ADD_CELL, addNet("k", "z.o", "w.j"));
        assertThat(ends(design, "k")).containsExactly("z.o", "w.j");
        assertThat(design.findNet("k").orElseThrow().clock()).isTrue();
        assertThat(wires(design, "k")).containsExactly("W.j", "X.o", "y");
        assertThat(touched(ADD_CELL, addNet("k", "z.o", "w.j"))).containsExactly("cell z", "net k");
        assertThat(refused(ADD_CELL, addNet("m", "z.o", "w.j")))
                .containsExactly("net m already exists");
        assertThat(refused(ADD_CELL, addNet("k", "z.q", "w.j")))
                .containsExactly("site X has no pin q");
        assertThat(refused(ADD_CELL, addNet("k", "z.i", "w.j")))
                .containsExactly("pin z.i is an input");
        assertThat(refused(ADD_CELL, addNet("k", "z.o", "t.o")))
                .containsExactly("pin t.o is an output");
        assertThat(refused(ADD_CELL, addNet("k", "z.o", "u.i")))
                .containsExactly("net m already ends at u.i");
        assertThat(refused(ADD_CELL, addNet("k", "t.o", "w.j")))
                .containsExactly("net m already ends at t.o");
        assertThat(refused(ADD_CELL, addNet("k", "z.o", "w.j", "w.j")))
                .containsExactly("net k would end twice at w.j");
        assertThat(refused(ADD_CELL, addNet("k", "z.o", "w.j", "w.k")))
                .containsExactly("the new route of net k does not reach w.k");
        assertThat(refused(ADD_CELL, addNet("k", "z.o", "w.j"), addNet("k2", "z.o", "w.k")))
                .containsExactly("net k already ends at z.o");
    }

    @Test
    void aNetGetsABranchToOneMoreSink() {
        Edit branch = new Edit.AddSink("m", end("z.i"), path("c x X.i"));
        Design design = after(ADD_CELL, branch);
        assertThat(ends(design, "m")).containsExactly("t.o", "u.i", "v.i", "z.i");
        assertThat(wires(design, "m")).contains("d", "e", "x", "X.i");
        assertThat(refused(ADD_CELL, new Edit.AddSink("m", end("z.i"), path("c x"))))
                .containsExactly("the branch of net m does not end at z.i");
        assertThat(refused(ADD_CELL, new Edit.AddSink("m", end("z.i"), List.of())))
                .containsExactly("the branch of net m does not end at z.i");
        assertThat(refused(new Edit.AddSink("m", end("u.i"), path("c g U.i"))))
                .containsExactly("net m already ends at u.i");
        assertThat(refused(ADD_CELL, new Edit.AddSink("n", end("z.i"), path("c x X.i"))))
                .containsExactly("the route does not start on net n");
        // The pin is free again once the sink before is gone.
        Design again = after(new Edit.RemoveCell("v"), ADD_CELL, branch);
        assertThat(ends(again, "m")).containsExactly("t.o", "u.i", "z.i");
    }

    private static Edit input(String net, String port, String pad) {
        return new Edit.AddInput(net, port, pad, List.of(end("w.k")), tree("P W.k"));
    }

    @Test
    void aPadIsReadByANewNet() {
        Design design = after(input("k", "r", "P"));
        Port port = design.findPort("r").orElseThrow();
        assertThat(port.direction()).isEqualTo(PortDirection.IN);
        assertThat(ends(design, "k")).containsExactly("port r", "w.k");
        assertThat(design.findNet("k").orElseThrow().clock()).isFalse();
        assertThat(touched(input("k", "r", "P"))).containsExactly("net k", "port r");
        assertThat(refused(input("m", "r", "P"))).containsExactly("net m already exists");
        assertThat(refused(input("k", "led", "P"))).containsExactly("port led already exists");
        assertThat(refused(input("k", "r", "Q"))).containsExactly("port led is already on pad Q");
        assertThat(refused(input("k", "r", "out"))).containsExactly("pad out is output-only");
        Design used = after(input("k", "r", "P"));
        assertThat(refused(used, input("k2", "r2", "P")))
                .containsExactly("net k already ends at w.k");
    }

    @Test
    void aLockedNetKeepsItsWiresAndMayGetABranch() {
        Design wires = made().lockNet("m", NetLock.WIRES).design();
        Edit reroute = new Edit.RouteNet("m", tree("T.o c g U.i", "c e V.i"));
        Edit branch = new Edit.AddSink("m", end("z.i"), path("c x X.i"));
        assertThat(refused(wires, reroute)).containsExactly("net m is locked");
        assertThat(refused(wires, new Edit.RemoveNet("m"))).containsExactly("net m is locked");
        assertThat(ends(after(wires, ADD_CELL, branch), "m")).hasSize(4);
        Design whole = made().lockNet("m", NetLock.WHOLE).design();
        assertThat(refused(whole, ADD_CELL, branch))
                .containsExactly("net m is locked and takes no branch");
        assertThat(refused(whole, reroute)).containsExactly("net m is locked");
        assertThat(wires(after(whole, new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i"))), "m"))
                .contains("d");
    }

    @Test
    void aLockedCellStaysAsItIs() {
        Design locked = made().lockCell("u").design();
        assertThat(refused(locked, new Edit.RemoveCell("u"))).contains("cell u is locked");
        assertThat(refused(locked, new Edit.SetCell("u", "a", "1")))
                .containsExactly("cell u is locked");
    }

    /** An entry is judged by what comes of it, not by each of its steps. */
    @Test
    void whatIsLockedMayLeaveAndComeBackInOneEntry() {
        Design wires = made().lockNet("m", NetLock.WIRES).design();
        Edit round = new Edit.RouteNet("m", tree("T.o c g U.i", "c e V.i"));
        Edit more = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i", "c x"));
        Edit back = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i"));
        assertThat(wires(after(wires, round, back), "m")).contains("d");
        assertThat(wires(after(wires, more, back), "m")).doesNotContain("x");
        assertThat(refused(wires, back, round)).containsExactly("net m is locked");
        Design cell = made().lockCell("u").design();
        Edit there =
                new Edit.RelocateCell(
                        "u", "X", List.of(new Edit.RouteNet("m", tree("T.o c x X.i", "c e V.i"))));
        Edit home =
                new Edit.RelocateCell(
                        "u", "U", List.of(new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i"))));
        assertThat(after(cell, there, home).findCell("u")).isPresent();
        assertThat(refused(cell, there)).containsExactly("cell u is locked");
    }

    /** Net r reads a pad of a port in both directions, and net n may come to that pad as well. */
    @Test
    void onlyAPortInBothDirectionsLetsTwoNetsShareItsPad() {
        Edit ofN = new Edit.RouteNet("n", tree("S.o a P"));
        Design both =
                made().port("bus", PortDirection.BOTH, "P")
                        .net("r", "bus", "w.k", "P W.k")
                        .design();
        assertThat(wires(after(both, ofN), "n")).contains("P");
        Design in =
                made().port("bus", PortDirection.IN, "P").net("r", "bus", "w.k", "P W.k").design();
        assertThat(refused(in, ofN)).containsExactly("P is used by net r");
        // One that is on the pad beside the net that reads it.
        Design shared = after(both, ofN);
        assertThat(refused(shared, new Edit.RouteNet("l", tree("L.o h Q", "h P"))))
                .contains("P is used by net n");
        // Once it has left, another one may come, which the net that reads the pad does not mind.
        Design led =
                made().chain("h P")
                        .port("bus", PortDirection.BOTH, "P")
                        .net("r", "bus", "w.k", "P W.k")
                        .design();
        Design withN = after(led, route(led, "n", "S.o a P"));
        Edit leave = route(withN, "n", "S.o a");
        Edit come = new Edit.RouteNet("l", tree("L.o h Q", "h P"));
        assertThat(wires(after(withN, leave, come), "l")).contains("P");
    }

    /** Site H, through which signals pass from b to y; wire q leads there and r on. */
    private static HandMade through() {
        return new HandMade()
                .wires("a q r v")
                .site("S", "", "o")
                .site("T", "", "o")
                .site("H", "b k", "y")
                .site("U", "i", "")
                .through("H", "b", "y")
                .through("H", "k", "y")
                .chain("S.o q H.b")
                .chain("T.o v H.k")
                .chain("H.y r U.i")
                .cell("s", "S")
                .cell("t", "T")
                .cell("u", "U")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "", "T.o");
    }

    private static Edit route(Design design, String net, String vertices) {
        List<Integer> path =
                Arrays.stream(vertices.split(" ")).map(design.fabric()::findVertex).toList();
        RouteTree.Builder tree = new RouteTree.Builder(path.get(0));
        for (int i = 1; i < path.size(); i++) {
            tree.add(path.get(i - 1), path.get(i));
        }
        return new Edit.RouteNet(net, tree.build());
    }

    @Test
    void aNetThatPassesThroughASiteHasItToItself() {
        Design design = through().design();
        Edit through = route(design, "n", "S.o q H.b H.y r");
        Design passed = after(design, through);
        assertThat(wires(passed, "n")).contains("H.y");
        assertThat(refused(passed, route(design, "m", "T.o v H.k")))
                .containsExactly("H.k is used by net n");
        assertThat(refused(passed, new Edit.AddCell("h", "register", "H", Map.of())))
                .containsExactly("H.b is used by net n", "H.y is used by net n");
        assertThat(refused(design, through, new Edit.AddCell("h", "register", "H", Map.of())))
                .contains("H.b is used by cell h");
        assertThat(refused(design, through, route(design, "m", "T.o v H.k")))
                .contains("H.k is used by net n");
        assertThat(refused(design, through, route(design, "m", "T.o v H.k H.y")))
                .contains("H.y is used by net n");
        Design cell = through().cell("h", "H").design();
        assertThat(refused(cell, through)).contains("H.b is used by cell h");
        Design open = through().openCell("h", "H").design();
        assertThat(wires(after(open, through), "n")).contains("H.y");
        Edit close = new Edit.SetCell("h", "through", "shut");
        assertThat(refused(after(open, through), close))
                .containsExactly("H.b is used by net n", "H.y is used by net n");
    }

    /** Of an open cell, the pins at which nets end are its own, and the others let signals pass. */
    @Test
    void anOpenCellKeepsThePinsAtWhichItsNetsEnd() {
        HandMade made = through().openCell("h", "H").net("x", "h.y", "", "H.y");
        Design atK =
                through()
                        .wires("z")
                        .site("I", "b k", "y z")
                        .site("V", "", "o")
                        .through("I", "b", "y")
                        .chain("q I.b")
                        .chain("v I.k")
                        .chain("V.o I.b")
                        .openCell("h", "I")
                        .cell("f", "V")
                        .net("own", "f.o", "h.k", "V.o")
                        .design();
        Edit pass = route(atK, "n", "S.o q I.b I.y");
        Edit toOwn = route(atK, "m", "T.o v I.k");
        assertThat(wires(after(atK, pass), "n")).contains("I.y");
        assertThat(refused(atK, toOwn)).containsExactly("I.k is used by cell h");
        assertThat(refused(after(atK, pass), toOwn))
                .containsExactlyInAnyOrder("I.k is used by cell h");
        // The driver of its own net is not passed through.
        assertThat(refused(made.design(), route(made.design(), "n", "S.o q H.b H.y")))
                .contains("H.y is used by net x");
    }

    @Test
    void anOpenCellCanBePlacedWhereANetPassesThrough() {
        Design design = through().design();
        Design passed = after(design, route(design, "n", "S.o q H.b H.y r"));
        Edit open = new Edit.AddCell("h", "register", "H", Map.of("through", "open"));
        assertThat(after(passed, open).findCell("h")).isPresent();
    }

    /** Pins b and y of site H are joined by a pass-through, k and z by another one. */
    private static HandMade twoThrough() {
        return new HandMade()
                .wires("q v")
                .site("S", "", "o")
                .site("T", "", "o")
                .site("H", "b k", "y z")
                .site("N", "", "c d")
                .through("H", "b", "y")
                .through("H", "k", "z")
                .through("N", "d", "c")
                .chain("S.o q H.b")
                .chain("q H.y")
                .chain("q N.d")
                .chain("T.o v H.k")
                .cell("s", "S")
                .cell("t", "T")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "", "T.o");
    }

    @Test
    void ofTwoNetsThatPassThroughASiteEachIsInTheWayOfTheOther() {
        Design design = twoThrough().design();
        assertThat(
                        refused(
                                design,
                                route(design, "n", "S.o q H.b H.y"),
                                route(design, "m", "T.o v H.k H.z")))
                .containsExactlyInAnyOrder(
                        "H.z is used by net n", "H.b is used by net m", "H.y is used by net m");
    }

    /** Over switches, net n may come to pins of the site; through it goes one net alone. */
    @Test
    void aNetThatIsOnASiteMayNotBeginToPassThroughIt() {
        Design design = twoThrough().design();
        RouteTree.Builder tree = new RouteTree.Builder(design.fabric().findVertex("S.o"));
        List<String[]> steps =
                List.of(
                        new String[] {"S.o", "q"},
                        new String[] {"q", "H.b"},
                        new String[] {"q", "H.y"});
        steps.forEach(
                s -> tree.add(design.fabric().findVertex(s[0]), design.fabric().findVertex(s[1])));
        Design there = after(design, new Edit.RouteNet("n", tree.build()));
        Design both = after(there, route(there, "m", "T.o v H.k H.z"));
        assertThat(refused(both, route(both, "n", "S.o q H.b H.y")))
                .containsExactly("H.b is used by net m");
    }

    /** Net n ends at pins b and c of a cell, which a pass-through joins. */
    private static HandMade joined() {
        return new HandMade()
                .wires("q")
                .site("S", "", "o")
                .site("H", "a b c", "")
                .through("H", "b", "c")
                .chain("S.o q H.b")
                .chain("q H.c")
                .cell("s", "S")
                .net("n", "s.o", "h.b h.c", "S.o q H.b", "q H.c");
    }

    /** Not even between two of its own pins. */
    @Test
    void aNetPassesThroughTheSiteOfItsOwnSinkOnlyWhereTheCellIsOpen() {
        Design shut = joined().cell("h", "H").design();
        assertThat(refused(shut, route(shut, "n", "S.o q H.b H.c")))
                .containsExactly("H.a is used by cell h");
        Design open = joined().openCell("h", "H").design();
        Design passed = after(open, route(open, "n", "S.o q H.b H.c"));
        assertThat(refused(passed, new Edit.SetCell("h", "through", "shut")))
                .containsExactly("H.a is used by net n");
    }

    /** The pins of one site stand right before those of the next. */
    @Test
    void whatPassesThroughTheNextSiteIsInNobodysWay() {
        Design design = twoThrough().design();
        Design next = after(design, route(design, "n", "S.o q N.d N.c"));
        assertThat(wires(after(next, route(next, "m", "T.o v H.k")), "m")).contains("H.k");
    }

    @Test
    void aCellIsRelocatedWithAllItsNetsAndNoOther() {
        Edit other = new Edit.RouteNet("n", tree("S.o b"));
        Edit moved =
                new Edit.RelocateCell(
                        "u", "X", List.of(new Edit.RouteNet("m", tree("T.o c x X.i", "c e V.i"))));
        assertThat(wires(after(other, moved), "n")).contains("b");
        // A sink more of another net is not at the cell either.
        Edit branch = new Edit.AddSink("n", end("w.k"), path("S.o a P W.k"));
        assertThat(ends(after(branch, moved), "n")).contains("w.k");
        // A net that the entry has added is at its driver.
        assertThat(
                        refused(
                                ADD_CELL,
                                addNet("k", "z.o", "w.j"),
                                new Edit.RelocateCell("z", "X", List.of())))
                .containsExactly("net k ends at cell z and stays behind");
    }

    @Test
    void aCellDoesNotGoToASiteThatLacksOneOfItsPins() {
        Design design = made().site("Y", "j", "").chain("d Y.j").design();
        Edit.RouteNet net = (Edit.RouteNet) route(design, "m", "T.o c e V.i");
        assertThat(refused(design, new Edit.RelocateCell("u", "Y", List.of(net))))
                .contains("site Y has no pin i");
    }

    @Test
    void twoNetsOfOneEntryCannotComeToTheSameWire() {
        HandMade made = made().chain("a y").chain("h y");
        assertThat(
                        refused(
                                made.design(),
                                new Edit.RouteNet("n", tree("S.o a y")),
                                new Edit.RouteNet("l", tree("L.o h Q", "h y"))))
                .containsExactly("y is used by net n");
        // Where one of them leaves it, the other one can.
        Design design = made().chain("a d").design();
        Edit round = new Edit.RouteNet("m", tree("T.o c g U.i", "c e V.i"));
        Edit over = route(design, "n", "S.o a d");
        assertThat(refused(design, over)).containsExactly("d is used by net m");
        assertThat(wires(after(design, round, over), "n")).contains("d");
    }

    @Test
    void aNetCannotComeToAPinOfACellThatIsNotItsOwn() {
        Edit route = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i", "c x X.i"));
        assertThat(refused(made().cell("z", "X").design(), route))
                .containsExactly("X.i is used by cell z");
        // Of a cell that leaves in the same entry, nothing is left there.
        assertThat(
                        wires(
                                after(
                                        made().cell("z", "X").design(),
                                        route,
                                        new Edit.RemoveCell("z")),
                                "m"))
                .contains("X.i");
    }

    /** Nothing in the design reads net n, which comes to a pin of cell u nevertheless. */
    @Test
    void aNetThatEndsInTheAirAtACellMayStayThere() {
        Design design =
                made().chain("b U.k")
                        .site("Y", "", "o")
                        .cell("y", "Y")
                        .net("air", "y.o", "", "Y.o")
                        .chain("Y.o W.j")
                        .design();
        Edit set = new Edit.SetCell("u", "a", "1");
        Edit come = route(design, "n", "S.o b U.k");
        assertThat(refused(design, set, come))
                .containsExactly("U.k is used by cell u", "U.k is used by net n");
        Design there =
                made().chain("b U.k")
                        .site("Y", "", "o")
                        .cell("y", "Y")
                        .chain("Y.o U.k")
                        .net("air", "y.o", "", "Y.o U.k")
                        .design();
        assertThat(wires(after(there, set), "air")).contains("U.k");
    }

    /** Neither reads the pad by a port in both directions, so one of them alone may be there. */
    @Test
    void anInputsNetKeepsItsPadWhenAnotherNetLeavesIt() {
        Design design =
                made().site("Y", "", "o")
                        .chain("Y.o P")
                        .cell("y", "Y")
                        .port("in", PortDirection.IN, "P")
                        .net("r", "in", "w.k", "P W.k")
                        .net("k", "y.o", "", "Y.o P")
                        .design();
        Edit leave = route(design, "k", "Y.o");
        Edit come = route(design, "n", "S.o a P");
        assertThat(refused(design, leave, come)).containsExactly("P is used by net r");
        assertThat(wires(after(design, leave, come, new Edit.DisconnectPort("in")), "n"))
                .contains("P");
    }

    /** Of switches c to d and a to P, one can be on. */
    @Test
    void ofASwitchGroupOneSwitchCanBeOn() {
        HandMade made = made().switchGroup("mux", "c d", "a P");
        String both = "cannot both be on: they are in switch group mux";
        Edit toPad = new Edit.RouteNet("n", tree("S.o a P"));
        assertThat(refused(made.design(), toPad))
                .singleElement()
                .asString()
                .isEqualTo("the switches from a to P and from c to d " + both);
        // The other net leaves its switch in the same entry, or comes to it.
        Edit round = new Edit.RouteNet("m", tree("T.o c g U.i", "c e V.i"));
        assertThat(wires(after(made.design(), toPad, round), "n")).contains("P");
        Design without = after(made.design(), round);
        Edit back = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i"));
        assertThat(refused(without, toPad, back)).singleElement().asString().endsWith(both);
        // One that is on already may stay on.
        Edit more = new Edit.RouteNet("m", tree("T.o c d U.i", "c e V.i", "c x"));
        assertThat(wires(after(made.design(), more), "m")).contains("d", "x");
    }

    /** Site A has pins a and b that are alike, and c that is not. */
    private static HandMade alike() {
        return new HandMade()
                .wires("w")
                .site("S", "", "o")
                .site("X", "", "o")
                .site("A", "a~in b~in c", "")
                .chain("X.o A.a")
                .cell("x", "X")
                .chain("S.o w A.a")
                .chain("w A.b")
                .chain("w A.c")
                .cell("s", "S")
                .net("n", "s.o", "g.a", "S.o w A.a");
    }

    private static Edit swap(Design design, String from, String to) {
        Edit.RouteNet plain = (Edit.RouteNet) route(design, "n", "S.o w A." + to);
        return new Edit.RouteNet("n", plain.route(), List.of(new Edit.PinSwap("g", from, to)));
    }

    @Test
    void anEndGoesToAPinThatIsAlike() {
        Design design = alike().cell("g", "A").design();
        assertThat(ends(after(design, swap(design, "a", "b")), "n")).containsExactly("s.o", "g.b");
        assertThat(refused(design, swap(design, "a", "c")))
                .contains("the signals of pins a and c of cell g cannot be swapped");
        assertThat(refused(design, swap(design, "c", "b"))).contains("net n does not end at g.c");
        assertThat(refused(design, swap(design, "a", "a"))).contains("net n already ends at g.a");
        // The pin that it leaves is free for another net.
        Edit added =
                new Edit.AddNet(
                        "k",
                        end("x.o"),
                        List.of(end("g.a")),
                        ((Edit.RouteNet) route(design, "k", "X.o A.a")).route(),
                        false);
        assertThat(ends(after(design, swap(design, "a", "b"), added), "k"))
                .containsExactly("x.o", "g.a");
        Design locked = alike().cell("g", "A").lockCell("g").design();
        assertThat(refused(locked, swap(locked, "a", "b"))).contains("cell g is locked");
        Design tied = alike().cell("g", "A", Map.of("tied b", "0")).design();
        assertThat(tied.findCell("g").orElseThrow().isTied("b")).isTrue();
        assertThat(refused(tied, swap(tied, "a", "b"))).contains("pin b of cell g is constant");
    }

    /** Net on switches the driver of port p's pad: it comes to the enable without a cell. */
    @Test
    void whatOnlySwitchedThePadOfAPortGoesWithIt() {
        HandMade made =
                new HandMade()
                        .wires("x")
                        .site("S", "", "o")
                        .site("T", "", "o")
                        .site("E", "d", "")
                        .enabledPad("P", "E")
                        .chain("S.o P")
                        .chain("T.o x E.d")
                        .cell("s", "S")
                        .cell("t", "T")
                        .port("p", PortDirection.OUT, "P")
                        .net("n", "s.o", "p", "S.o P")
                        .net("on", "t.o", "enable:p", "T.o x E.d");
        Design off = after(made.design(), new Edit.DisconnectPort("p"));
        assertThat(wires(off, "on")).containsExactly("T.o");
        assertThat(ends(off, "on")).containsExactly("t.o");
        // Another port that shares the enable keeps it.
        Design shared = made.enabledPad("R", "E").port("r", PortDirection.OUT, "R").design();
        Design kept = after(shared, new Edit.DisconnectPort("p"));
        assertThat(ends(kept, "on")).containsExactly("t.o", "enable of port r");
        assertThat(wires(kept, "on")).contains("E.d");
    }
}
