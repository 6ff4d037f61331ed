package padward.unblock.why;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.RouteTree;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.route.search.SearchSources;
import padward.unblock.UsedGraph;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/** Cuts one behind the other, and the narrowest one, on graphs small enough to see them. */
class CutsTest {
    /** A question with what explains it. */
    private record Asked(QuestionContext context, SearchSources starts, Pad pad) {
        static Asked of(UsedGraph graph) {
            UsedGraph.Asked asked = graph.withLockedCells().ask("s", "t");
            return new Asked(asked.context(), asked.starts(), asked.pad());
        }

        static Asked of(Design design, String net, String pad) {
            Net asked = design.findNet(net).orElseThrow();
            Pad goal =
                    design.fabric()
                            .pads()
                            .get(PadNames.findExact(design.fabric(), pad).orElseThrow());
            RouteTree tree = asked.route();
            return new Asked(
                    new QuestionContext(design, asked, Optional.empty(), goal),
                    new SearchSources(tree.toVertices(), new long[tree.size()]),
                    goal);
        }

        ReleaseRules rules() {
            return new ReleaseRules(context, context.enableOccupant(pad));
        }

        Fabric fabric() {
            return context.design().fabric();
        }

        int vertex(String name) {
            return fabric().findVertex(name);
        }

        DisjointCuts fromNet() {
            QuestionGraph graph = QuestionGraph.towards(context, starts, pad.vertex());
            return DisjointCuts.of(graph, rules(), Progress.NONE);
        }

        DisjointCuts fromPad() {
            QuestionGraph graph = QuestionGraph.towards(context, starts, pad.vertex());
            return DisjointCuts.of(graph.reversed(starts), rules(), Progress.NONE);
        }

        Optional<Set<String>> narrowest() {
            return MinimumVertexCut.of(context, rules(), starts, pad.vertex(), Progress.NONE)
                    .map(this::names);
        }

        private Set<String> names(IntList vertices) {
            return vertices.intStream()
                    .mapToObj(v -> fabric().vertexName(v))
                    .collect(Collectors.toSet());
        }

        Set<String> occupants(IntSet numbers) {
            return numbers.intStream()
                    .mapToObj(o -> context.design().occupancy().occupant(o).name())
                    .collect(Collectors.toSet());
        }

        List<Set<String>> cuts(DisjointCuts cuts) {
            return cuts.cuts().stream().map(this::occupants).toList();
        }

        int net(String name) {
            return context.design().findNet(name).orElseThrow().id();
        }
    }

    /**
     * Free f and x are before the first cut, of n1 alone; n2 and n3 stand side by side behind it.
     */
    private static UsedGraph layered() {
        return UsedGraph.of("s>f f>x f>a a>b a>c b>d c>d d>e e>t")
                .used("n1", "a")
                .used("n2", "b")
                .used("n3", "c")
                .used("n4", "e");
    }

    @Test
    void cutsAreCountedFromEitherEnd() {
        Asked asked = Asked.of(layered());
        DisjointCuts fromNet = asked.fromNet();
        assertThat(asked.cuts(fromNet))
                .containsExactly(Set.of("n1"), Set.of("n2", "n3"), Set.of("n4"));
        assertThat(fromNet.count()).isEqualTo(3);
        // The net's own pin, f and x.
        assertThat(fromNet.freeCount()).isEqualTo(3);
        assertThat(fromNet.isWhole()).isTrue();
        assertThat(
                        List.of("s.out", "f", "a", "b", "c", "d", "e", "t").stream()
                                .map(v -> fromNet.layer(asked.vertex(v))))
                .containsExactly(0, 0, 1, 2, 2, 2, 3, 3);
        assertThat(fromNet.cutOf(asked.net("n1"))).isEqualTo(1);
        assertThat(fromNet.cutOf(asked.net("n3"))).isEqualTo(2);
        assertThat(fromNet.cutOf(asked.net("asked"))).isEqualTo(Fabric.NOTHING);
        DisjointCuts fromPad = asked.fromPad();
        assertThat(asked.cuts(fromPad))
                .containsExactly(Set.of("n4"), Set.of("n2", "n3"), Set.of("n1"));
        assertThat(fromPad.freeCount()).isEqualTo(1);
        assertThat(fromPad.layer(asked.vertex("d"))).isEqualTo(1);
        assertThat(fromPad.layer(asked.vertex("s.out"))).isEqualTo(3);
        // From x no route leads to the pad.
        assertThat(fromPad.layer(asked.vertex("x"))).isEqualTo(3);
    }

    /** Net n1 is gone with the first cut, so what it uses further on is no cut. */
    @Test
    void anOccupantIsInOneCutAlone() {
        Asked asked =
                Asked.of(UsedGraph.of("s>a a>b b>c c>t").used("n1", "a", "c").used("n2", "b"));
        assertThat(asked.cuts(asked.fromNet())).containsExactly(Set.of("n1"), Set.of("n2"));
        assertThat(asked.fromNet().layer(asked.vertex("c"))).isEqualTo(2);
    }

    /**
     * A route over what is free meets no cut, and what lies beyond the last one is not looked at.
     */
    @Test
    void growthEndsAtTheOtherEnd() {
        Asked open = Asked.of(UsedGraph.of("s>f f>t s>a a>t").used("n1", "a"));
        assertThat(open.fromNet().count()).isZero();
        Asked cut =
                Asked.of(UsedGraph.of("s>a a>t s>b b>c c>t").used("n1", "a").used("n2", "b", "c"));
        assertThat(cut.cuts(cut.fromNet())).containsExactly(Set.of("n1", "n2"));
        assertThat(cut.cuts(cut.fromPad())).containsExactly(Set.of("n1", "n2"));
    }

    /**
     * So many free wires lead from the net to the cut; beyond a thousand vertices it is not sought.
     */
    @ParameterizedTest
    @CsvSource({"998, true", "999, true", "1000, false"})
    void growthEndsAtAThousandVertices(int wires, boolean whole) {
        String star =
                IntStream.range(0, wires)
                        .mapToObj(i -> "f" + i + ">a s>f" + i)
                        .collect(Collectors.joining(" "));
        Asked asked = Asked.of(UsedGraph.of(star + " s>a a>t").used("n1", "a"));
        // With the net's pin; beyond the cut lie a and the pad.
        DisjointCuts cuts = asked.fromNet();
        assertThat(cuts.freeCount()).isLessThanOrEqualTo(1001);
        assertThat(cuts.count() > 0).isEqualTo(whole);
    }

    /** The same before the pad. */
    @ParameterizedTest
    @CsvSource({"990, true", "1010, false"})
    void inWideSurroundingsNoNarrowestCutIsSought(int wires, boolean sought) {
        String star =
                IntStream.range(0, wires)
                        .mapToObj(i -> "a>f" + i + " f" + i + ">t")
                        .collect(Collectors.joining(" "));
        Asked asked = Asked.of(UsedGraph.of("s>a " + star).used("n1", "a"));
        assertThat(asked.narrowest())
                .isEqualTo(sought ? Optional.of(Set.of("a")) : Optional.empty());
    }

    @Test
    void theNarrowestCutMayLieBehindTheFirst() {
        // Before the pad stand three, behind them two, and one net alone behind these.
        Asked asked =
                Asked.of(
                        UsedGraph.of("s>z z>p z>q p>a p>b q>b q>c a>t b>t c>t")
                                .used("n0", "z")
                                .used("n1", "p")
                                .used("n2", "q")
                                .used("n3", "a", "b", "c"));
        assertThat(asked.narrowest()).hasValue(Set.of("z"));
        Asked two =
                Asked.of(
                        UsedGraph.of("s>p s>q p>a p>b q>b q>c a>t b>t c>t")
                                .used("n1", "p")
                                .used("n2", "q")
                                .used("n3", "a")
                                .used("n4", "b")
                                .used("n5", "c"));
        assertThat(two.narrowest().orElseThrow()).hasSize(2).isEqualTo(Set.of("p", "q"));
    }

    @Test
    void whereAFreeRouteLeadsThereIsNoCut() {
        assertThat(Asked.of(UsedGraph.of("s>f f>t s>a a>t").used("n1", "a")).narrowest()).isEmpty();
        Asked two = Asked.of(UsedGraph.of("s>f f>t s>g g>t s>a a>t").used("n1", "a"));
        assertThat(two.narrowest()).isEmpty();
    }

    /** From pad R, and over unusable u, wires lead to the cut as well; no route comes that way. */
    private static Design shut() {
        return new HandMade()
                .wires("a b u")
                .site("S", "", "o")
                .site("T", "", "o")
                .pad("P")
                .pad("R")
                .chain("S.o a b P")
                .chain("u b")
                .chain("R b")
                .chain("T.o a")
                .unusable("u")
                .cell("s", "S")
                .cell("t", "T")
                .lockCell("t")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "", "T.o a")
                .design();
    }

    @Test
    void noRouteComesOverWhatIsShut() {
        Asked asked = Asked.of(shut(), "n", "P");
        assertThat(asked.narrowest()).hasValue(Set.of("a"));
        assertThat(asked.cuts(asked.fromPad())).containsExactly(Set.of("m"));
    }

    @Test
    void theOccupantsOfACutAreEachNamedOnce() {
        Asked asked = Asked.of(UsedGraph.of("s>a s>b a>t b>t").used("n1", "a", "b"));
        IntList both = IntList.of(asked.vertex("a"), asked.vertex("b"));
        assertThat(asked.occupants(MinimumVertexCut.occupants(both, asked.context())))
                .containsExactly("n1");
        assertThat(MinimumVertexCut.occupants(both, asked.context())).hasSize(1);
    }

    /** What a blocked question needs at the least, for groups. */
    @Test
    void theBoundOfAQuestionIsItsCuts() {
        Asked asked = Asked.of(layered());
        CutBound bound = CutBound.of(asked.context(), asked.starts(), asked.pad());
        assertThat(bound.cuts().stream().map(asked::occupants))
                .containsExactly(Set.of("n4"), Set.of("n2", "n3"), Set.of("n1"));
        assertThat(bound.leavesOut()).isFalse();
    }

    /** Cell e switches the pad's driver, and drives the net before the pad as well. */
    @Test
    void whatSwitchesThePadIsACutOfItsOwn() {
        HandMade made =
                new HandMade()
                        .wires("a b")
                        .site("S", "", "o")
                        .site("T", "", "o")
                        .site("E", "d", "o")
                        .enabledPad("P", "E")
                        .chain("S.o a b P")
                        .chain("T.o a")
                        .chain("E.o b")
                        .cell("s", "S")
                        .cell("t", "T")
                        .lockCell("t")
                        .cell("e", "E")
                        .net("n", "s.o", "", "S.o")
                        .net("m", "t.o", "", "T.o a")
                        .net("k", "e.o", "", "E.o b");
        Asked asked = Asked.of(made.design(), "n", "P");
        CutBound bound = CutBound.of(asked.context(), asked.starts(), asked.pad());
        assertThat(bound.cuts().stream().map(asked::occupants))
                .containsExactly(Set.of("m"), Set.of("e"));
    }

    @Test
    void whoeverAsksCanStop() {
        Asked asked = Asked.of(layered());
        Progress stopped =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {}

                    @Override
                    public boolean cancelled() {
                        return true;
                    }
                };
        QuestionGraph graph =
                QuestionGraph.towards(asked.context(), asked.starts(), asked.pad().vertex());
        assertThatThrownBy(() -> DisjointCuts.of(graph, asked.rules(), stopped))
                .isInstanceOf(CancellationException.class);
    }
}
