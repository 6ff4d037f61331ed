package padward.unblock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.route.bound.LowerBound;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.unblock.move.Consequence;
import padward.unblock.release.QuestionContext;
import padward.unblock.weigh.Removal;
import padward.unblock.why.SearchLimits;

/**
 * A cell that uses one half of its site can let a signal through the other half. Invented fabric.
 */
class PassThroughTest {
    private static Design design(Map<String, String> settings) {
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("halves", "invented", List.of(), List.of(), List.of()),
                        1,
                        1);
        for (String wire : List.of("to_b", "from_y", "from_x")) {
            builder.addWire(wire, 0, 0, "general");
        }
        List<SitePin> out = List.of(new SitePin("out", PinDirection.OUT));
        List<SitePin> in = List.of(new SitePin("in", PinDirection.IN));
        List<SitePin> two =
                List.of(
                        new SitePin("a", PinDirection.IN),
                        new SitePin("b", PinDirection.IN),
                        new SitePin("x", PinDirection.OUT),
                        new SitePin("y", PinDirection.OUT));
        builder.addSite("source", 0, "logic", List.of("register"), out);
        builder.addSite("halves", 0, "logic", List.of("register"), two);
        builder.addSite("sink", 0, "logic", List.of("register"), in);
        builder.addPad("pad", 0, "", "", PadDirections.OUT, Fabric.NOTHING, Fabric.NOTHING, "");
        String[][] edges = {
            {"source.out", "to_b"}, {"to_b", "halves.b"}, {"halves.y", "from_y"},
            {"from_y", "pad"}, {"halves.x", "from_x"}, {"from_x", "sink.in"}
        };
        for (String[] edge : edges) {
            add(builder, edge[0], edge[1], EdgeKind.SWITCH);
        }
        add(builder, "halves.b", "halves.y", EdgeKind.PASS_THROUGH);
        add(builder, "halves.a", "halves.x", EdgeKind.PASS_THROUGH);
        Fabric fabric = builder.build();
        List<Cell> cells =
                List.of(
                        new Cell(0, "source", "register", fabric.findSite("source"), Map.of()),
                        new Cell(1, "halves", "register", fabric.findSite("halves"), settings),
                        new Cell(2, "sink", "register", fabric.findSite("sink"), Map.of()));
        RouteTree busy =
                new RouteTree.Builder(fabric.findVertex("halves.x"))
                        .add(fabric.findVertex("halves.x"), fabric.findVertex("from_x"))
                        .add(fabric.findVertex("from_x"), fabric.findVertex("sink.in"))
                        .build();
        List<Net> nets =
                List.of(
                        new Net(
                                0,
                                "asked",
                                new Terminal.CellPin(0, "out"),
                                List.of(),
                                RouteTree.of(fabric.findVertex("source.out")),
                                false),
                        new Net(
                                1,
                                "busy",
                                new Terminal.CellPin(1, "x"),
                                List.of(new Terminal.CellPin(2, "in")),
                                busy,
                                false));
        return new Design("halves", "invented", fabric, Board.UNKNOWN, cells, nets, List.of());
    }

    private static void add(ExplicitBuilder builder, String from, String to, EdgeKind kind) {
        builder.addEdge(builder.findVertex(from), builder.findVertex(to), kind, new Delay(10, 20));
    }

    private static SearchOutcome search(Design design, boolean priced) {
        QuestionContext context =
                new QuestionContext(design, design.nets().get(0), Optional.empty());
        return new PathSearch(design.fabric())
                .run(
                        SearchSources.at(design.nets().get(0).route().root()),
                        design.fabric().pads().get(0).vertex(),
                        Corner.SLOW,
                        priced ? context.atAPrice() : context.overFree(),
                        LowerBound.NONE,
                        Progress.NONE);
    }

    @Test
    void theOtherHalfLetsTheSignalThrough() {
        Design design = design(Map.of());
        assertThat(search(design, false)).isInstanceOf(SearchOutcome.Unreachable.class);
        Pad pad = design.fabric().pads().get(0);
        QuestionContext context =
                new QuestionContext(design, design.nets().get(0), Optional.empty());
        UnblockExplanation explanation =
                new Explainer(
                                context,
                                SearchSources.at(design.nets().get(0).route().root()),
                                pad,
                                ((SearchOutcome.Found) search(design, true)).path(),
                                Corner.SLOW,
                                new PathSearch(design.fabric()),
                                SearchLimits.USUAL,
                                Progress.NONE)
                        .explain();
        Removal removal = explanation.best().removals().get(0);
        Edit edit = new Edit.SetCell("halves", "through", "open");
        assertThat(removal.consequence())
                .isEqualTo(
                        new Consequence.Movable(
                                Consequence.Means.PASS_THROUGH, List.of(), List.of(edit)));
        assertThat(edit.toText())
                .isEqualTo(
                        "let signals pass through the site of cell halves over pins that the cell"
                                + " does not use (set through of cell halves to open)");
        assertThat(new Edit.SetCell("halves", "table", "8h3c").toText())
                .isEqualTo("set table of cell halves to 8h3c");
        Design after = Outcome.apply(design, List.of(edit));
        assertThat(search(after, false)).isInstanceOf(SearchOutcome.Found.class);
        assertThat(after.nets().get(1).route()).isEqualTo(design.nets().get(1).route());
    }

    @Test
    void whereItDoesAlreadyThereIsNothingToExplain() {
        Design design = design(Map.of("through", "open"));
        assertThat(search(design, false)).isInstanceOf(SearchOutcome.Found.class);
    }
}
