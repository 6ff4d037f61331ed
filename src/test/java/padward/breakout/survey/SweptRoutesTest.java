package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Route;
import padward.design.Design;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;

/** What a survey finds where a port's wires become free with its pad: every case by hand. */
class SweptRoutesTest {
    /**
     * Port led on P is fed over h and k. Net n can come to P over a, h and k, or over b and k, or
     * over c; the last steps of b and c differ.
     */
    private static HandMade made(int bToK, int cToP) {
        return new HandMade()
                .wires("a b c h k")
                .site("S", "", "o")
                .site("L", "", "o")
                .pad("P")
                .chain("S.o a h k P", 10, 20)
                .chain("S.o b", 5, 6)
                .chain("b k", bToK, bToK + 1)
                .chain("S.o c", 7, 8)
                .chain("c P", cToP, cToP + 1)
                .chain("L.o h", 1, 1)
                .cell("s", "S")
                .cell("l", "L")
                .port("led", PortDirection.OUT, "P")
                .net("n", "s.o", "", "S.o")
                .net("m", "l.o", "led", "L.o h k P");
    }

    private static Answer only(HandMade made, Corner corner) {
        Design design = made.design();
        List<Answer> answers =
                Survey.of(
                                design,
                                design.findNet("n").orElseThrow(),
                                corner,
                                SearchEngineKind.OWN,
                                Progress.NONE)
                        .answers();
        assertThat(answers).hasSize(1);
        return answers.get(0);
    }

    private static String path(Answer answer) {
        Route route = answer.findRoute().orElseThrow();
        return route.hops().stream()
                .map(h -> answer.question().design().fabric().vertexName(h.vertex()))
                .collect(Collectors.joining(" "));
    }

    @ParameterizedTest
    @CsvSource({
        // Over the port's wires from their beginning, from the middle, and to the pad alone.
        "100, 100, FAST, S.o a h k P, 40",
        "100, 100, SLOW, S.o a h k P, 80",
        "10, 100, FAST, S.o b k P, 25",
        "10, 100, SLOW, S.o b k P, 37",
        "100, 20, FAST, S.o c P, 27",
        "100, 20, SLOW, S.o c P, 29",
        "10, 10, FAST, S.o c P, 17"
    })
    void theBestRouteMayUseWhatThePortLeaves(
            int bToK, int cToP, Corner corner, String expected, int ps) {
        Answer answer = only(made(bToK, cToP), corner);
        assertThat(answer).isInstanceOf(Answer.TakesPort.class);
        assertThat(path(answer)).isEqualTo(expected);
        assertThat(answer.findRoute().orElseThrow().total().at(corner)).isEqualTo(ps);
    }

    /** All ways in are used by others; the one over b and k is the shortest. */
    @Test
    void soMayTheBestRouteThatIsBlocked() {
        HandMade made =
                made(10, 100)
                        .site("X", "", "x y z")
                        .chain("X.x a")
                        .chain("X.y b")
                        .chain("X.z c")
                        .cell("x", "X")
                        .net("na", "x.x", "", "X.x a")
                        .net("nb", "x.y", "", "X.y b")
                        .net("nc", "x.z", "", "X.z c");
        Answer answer = only(made, Corner.FAST);
        assertThat(answer).isInstanceOf(Answer.Blocked.class);
        assertThat(path(answer)).isEqualTo("S.o b k P");
        assertThat(((Answer.Blocked) answer).obstacles())
                .extracting(o -> o.occupant().name())
                .containsExactly("nb");
    }

    @Test
    void whereNothingLeadsInNothingIsFound() {
        HandMade made =
                new HandMade()
                        .wires("h")
                        .site("S", "", "o")
                        .site("L", "", "o")
                        .pad("P")
                        .chain("L.o h P")
                        .cell("s", "S")
                        .cell("l", "L")
                        .port("led", PortDirection.OUT, "P")
                        .net("n", "s.o", "", "S.o")
                        .net("m", "l.o", "led", "L.o h P");
        assertThat(only(made, Corner.SLOW)).isInstanceOf(Answer.NoRoute.class);
    }

    /** The shortest route takes two switches of which one can be on: the next one is found. */
    @Test
    void switchesThatExcludeEachOtherAreObeyed() {
        HandMade made = made(100, 200).switchGroup("g", "S.o a", "h k");
        Answer answer = only(made, Corner.FAST);
        assertThat(path(answer)).isEqualTo("S.o b k P");
    }
}
