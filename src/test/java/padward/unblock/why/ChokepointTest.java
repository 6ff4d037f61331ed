package padward.unblock.why;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Occupant;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.unblock.release.QuestionContext;

/** What every route passes, on a few wires. */
class ChokepointTest {
    private static IntList path(Fabric fabric, String names) {
        return new IntArrayList(
                Arrays.stream(names.split(" ")).mapToInt(fabric::findVertex).toArray());
    }

    private static List<String> along(
            Fabric fabric, String starts, String route, CostModel model, Progress progress) {
        int[] from = path(fabric, starts).toIntArray();
        IntList found =
                Chokepoints.along(
                        fabric,
                        new SearchSources(from, new long[from.length]),
                        path(fabric, route),
                        model,
                        progress);
        return found.intStream().mapToObj(fabric::vertexName).toList();
    }

    /** Two routes from a to d, over b and c. */
    private static Fabric diamond() {
        return new HandMade().wires("s a b c d t").chain("s a b d t").chain("a c d").fabric();
    }

    @Test
    void whatOneOfTwoRoutesPassesIsNone() {
        assertThat(along(diamond(), "s", "s a b d t", CostModel.EMPTY_FABRIC, Progress.NONE))
                .containsExactly("a", "d", "t");
    }

    /** The model closes single switches, in one direction. */
    @Test
    void aClosedSwitchIsNoDetour() {
        Fabric fabric = diamond();
        for (String step : List.of("a c", "c d")) {
            IntList shut = path(fabric, step);
            CustomCost model =
                    (from, to, delay) ->
                            from == shut.getInt(0) && to == shut.getInt(1)
                                    ? CostModel.CLOSED
                                    : delay;
            assertThat(along(fabric, "s", "s a b d t", model, Progress.NONE))
                    .as(step)
                    .containsExactly("a", "b", "d", "t");
        }
    }

    /** Of a route that comes by another start, only the part from there on counts. */
    @Test
    void theRouteBeginsAtItsLastStart() {
        Fabric fabric = new HandMade().wires("s a r b t").chain("s a r b t").fabric();
        assertThat(along(fabric, "s r", "s a r b t", CostModel.EMPTY_FABRIC, Progress.NONE))
                .containsExactly("b", "t");
        assertThat(along(fabric, "r s", "s a r b t", CostModel.EMPTY_FABRIC, Progress.NONE))
                .containsExactly("b", "t");
        assertThat(along(fabric, "s t", "s a r b t", CostModel.EMPTY_FABRIC, Progress.NONE))
                .isEmpty();
    }

    @Test
    void whoeverAsksCanStop() {
        Progress stopped =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {}

                    @Override
                    public boolean cancelled() {
                        return true;
                    }
                };
        assertThatThrownBy(
                        () -> along(diamond(), "s", "s a b d t", CostModel.EMPTY_FABRIC, stopped))
                .isInstanceOf(CancellationException.class);
    }

    private static List<String> onFree(String route) {
        Design design = made().design();
        QuestionContext context =
                new QuestionContext(design, design.findNet("n").orElseThrow(), Optional.empty());
        Fabric fabric = design.fabric();
        return Chokepoint.onFreeRoutes(
                        context,
                        SearchSources.at(fabric.findVertex("S.o")),
                        new VertexPath(path(fabric, route).toIntArray()),
                        Progress.NONE)
                .stream()
                .map(Chokepoint::resource)
                .toList();
    }

    /** Beside wire a, a detour leads over pad Q; and another over site C. */
    private static HandMade made() {
        return new HandMade()
                .wires("a b c d e")
                .site("S", "", "o")
                .site("T", "", "o")
                .site("C", "i", "o")
                .pad("P")
                .pad("Q")
                .pad("R")
                .chain("S.o a b P")
                .chain("S.o Q b")
                .through("C", "i", "o")
                .chain("S.o c C.i")
                .chain("C.o d R")
                .chain("T.o e")
                .cell("s", "S")
                .cell("t", "T")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "", "T.o e");
    }

    @Test
    void noRouteGoesOverAnotherPad() {
        assertThat(onFree("S.o a b P")).containsExactly("a", "b", "P");
        // The pad that is asked for may be entered.
        assertThat(onFree("S.o Q")).containsExactly("Q");
    }

    @Test
    void theTwoPinsOfASiteAreNamedOnce() {
        assertThat(onFree("S.o c C.i C.o d R")).containsExactly("c", "C", "d", "R");
    }

    @Test
    void whatIsUsedNamesItsOccupant() {
        Design design = made().cell("x", "C").chain("T.o C.i").design();
        QuestionContext context =
                new QuestionContext(design, design.findNet("n").orElseThrow(), Optional.empty());
        List<Chokepoint> named = Chokepoint.named(path(design.fabric(), "c e C.i C.o"), context);
        assertThat(named).extracting(Chokepoint::resource).containsExactly("c", "e", "C");
        assertThat(named)
                .extracting(Chokepoint::resourceKind)
                .containsExactly("wire", "wire", "site");
        assertThat(named).extracting(Chokepoint::mustBeRemoved).containsExactly(false, true, true);
        assertThat(named.get(1).occupant().map(Occupant::name)).contains("m");
    }

    /** Net k is on the input of the site, whose output nothing uses. */
    @Test
    void ofASiteTheUsedPinCounts() {
        Design design =
                made().site("V", "", "o")
                        .chain("V.o C.i")
                        .cell("v", "V")
                        .net("k", "v.o", "", "V.o C.i")
                        .design();
        QuestionContext context =
                new QuestionContext(design, design.findNet("n").orElseThrow(), Optional.empty());
        List<Chokepoint> named = Chokepoint.named(path(design.fabric(), "C.o C.i"), context);
        assertThat(named).hasSize(1);
        assertThat(named.get(0).occupant().map(Occupant::name)).contains("k");
        assertThat(named.get(0).vertex()).isEqualTo(design.fabric().findVertex("C.i"));
    }
}
