package padward.unblock.release;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.design.Design;
import padward.design.NetLock;
import padward.design.Occupant;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;

/**
 * What must be removed before a wire, a pin, a pad or a switch is free, in cases of a few wires.
 */
class ReleaseRulesTest {
    /**
     * Net n is asked about and starts at S.o. Net m has two sinks:
     *
     * <pre>
     *  T.o - c - d - U.i
     *          \ e - V.i
     * </pre>
     */
    private static HandMade fork() {
        return new HandMade()
                .wires("a b c d e")
                .site("S", "k", "o p")
                .site("T", "", "o")
                .site("U", "i j", "")
                .site("V", "i", "")
                .pad("P")
                .chain("S.o a b P")
                .chain("T.o c d U.i")
                .chain("c e V.i")
                .cell("s", "S")
                .cell("t", "T")
                .cell("u", "U")
                .cell("v", "V")
                .net("n", "s.o", "", "S.o a");
    }

    private static HandMade forkUsed() {
        return fork().net("m", "t.o", "u.i v.i", "T.o c d U.i", "c e V.i");
    }

    private static ReleaseRules rules(Design design) {
        return new ReleaseRules(context(design, Optional.empty()), Fabric.NOTHING);
    }

    private static QuestionContext context(Design design, Optional<DisconnectedBranch> port) {
        return new QuestionContext(
                design, design.findNet("n").orElseThrow(), port, design.fabric().pads().get(0));
    }

    private static int occupant(Design design, String name) {
        return name.startsWith("cell ")
                ? Occupant.ofCell(design.findCell(name.substring(5)).orElseThrow().id())
                : design.findNet(name).orElseThrow().id();
    }

    private static int[] occupants(Design design, String... names) {
        return Arrays.stream(names).mapToInt(n -> occupant(design, n)).toArray();
    }

    private static String nameOf(Design design, int occupant) {
        return Occupant.isCell(occupant)
                ? "cell " + design.cells().get(Occupant.cellOf(occupant)).name()
                : design.nets().get(occupant).name();
    }

    /** Each need as its choices, {@code m | cell t | cell u + cell v}. */
    private static List<String> texts(Design design, int[][][] needs) {
        return Arrays.stream(needs)
                .map(
                        choices ->
                                Arrays.stream(choices)
                                        .map(c -> text(design, c))
                                        .collect(Collectors.joining(" | ")))
                .toList();
    }

    private static String text(Design design, int[] choice) {
        return Arrays.stream(choice)
                .mapToObj(o -> nameOf(design, o))
                .collect(Collectors.joining(" + "));
    }

    private static List<String> needs(Design design, String vertex) {
        return texts(design, rules(design).of(design.fabric().findVertex(vertex)));
    }

    private static Set<String> opened(Design design, String... removed) {
        return rules(design)
                .openedBy(occupants(design, removed))
                .intStream()
                .mapToObj(design.fabric()::vertexName)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    @Test
    void aFreeWireNeedsNothing() {
        assertThat(needs(forkUsed().design(), "b")).isEmpty();
    }

    @Test
    void aWireIsFreeWithoutItsNetOrItsDriverOrAllThatItServes() {
        Design design = forkUsed().design();
        assertThat(needs(design, "c")).containsExactly("m | cell t | cell u + cell v");
        assertThat(needs(design, "d")).containsExactly("m | cell t | cell u");
        assertThat(needs(design, "e")).containsExactly("m | cell t | cell v");
    }

    @Test
    void aWireThatLeadsToAPortServesMoreThanCells() {
        Design design =
                fork().port("led", PortDirection.OUT, "P")
                        .chain("e P")
                        .net("m", "t.o", "u.i led", "T.o c d U.i", "c e P")
                        .design();
        assertThat(needs(design, "c")).containsExactly("m | cell t");
        assertThat(needs(design, "d")).containsExactly("m | cell t | cell u");
    }

    @Test
    void aPinIsFreeWithoutItsCellAndWithoutTheNetThere() {
        Design design = forkUsed().design();
        assertThat(needs(design, "U.i")).containsExactlyInAnyOrder("cell u", "m | cell t | cell u");
        // No net comes to the other pin.
        assertThat(needs(design, "U.j")).containsExactly("cell u");
    }

    @Test
    void theDriverOfTheNetAskedAboutIsNeverToBeRemoved() {
        Design drivesBoth = fork().chain("S.p c").net("m", "s.p", "u.i", "S.p c d U.i").design();
        assertThat(needs(drivesBoth, "c")).containsExactly("m | cell u");
        Design listens = fork().chain("d S.k").net("m", "t.o", "s.k", "T.o c d S.k").design();
        assertThat(needs(listens, "c")).containsExactly("m | cell t");
    }

    @Test
    void whatIsLockedIsNeverToBeRemoved() {
        assertThat(needs(forkUsed().lockCell("t").design(), "c"))
                .containsExactly("m | cell u + cell v");
        Design sink = forkUsed().lockCell("u").design();
        assertThat(needs(sink, "c")).containsExactly("m | cell t");
        assertThat(needs(sink, "e")).containsExactly("m | cell t | cell v");
    }

    @Test
    void aNetThatAPortDrivesHasNoCellThatDrivesIt() {
        Design design =
                fork().port("in", PortDirection.IN, "P")
                        .chain("P c")
                        .net("m", "in", "u.i", "P c d U.i")
                        .design();
        assertThat(needs(design, "c")).containsExactly("m | cell u");
    }

    /** A net from c to some cells; the last column says whether a choice was left out. */
    @ParameterizedTest
    @CsvSource({"6, true, false", "7, false, true", "8, false, true"})
    void choicesOfMoreThanSixAreLeftOut(int sinks, boolean listed, boolean leftOut) {
        HandMade made = fork();
        String[] branches = new String[sinks];
        String ends = "";
        for (int i = 0; i < sinks; i++) {
            made.site("L" + i, "i", "").cell("l" + i, "L" + i).chain("c L" + i + ".i");
            branches[i] = i == 0 ? "T.o c L0.i" : "c L" + i + ".i";
            ends += " l" + i + ".i";
        }
        Design design = made.net("m", "t.o", ends, branches).design();
        ReleaseRules rules = rules(design);
        String all =
                IntStream.range(0, sinks)
                        .mapToObj(i -> "cell l" + i)
                        .collect(Collectors.joining(" + "));
        assertThat(rules.hasLeftOut()).isFalse();
        assertThat(texts(design, rules.of(design.fabric().findVertex("c"))))
                .containsExactly("m | cell t" + (listed ? " | " + all : ""));
        assertThat(rules.hasLeftOut()).isEqualTo(leftOut);
    }

    @Test
    void aPadInBothDirectionsIsFreeWithoutBothOfItsNets() {
        Design design = bothWays().design();
        assertThat(needs(design, "P")).containsExactlyInAnyOrder("out | cell t", "in");
    }

    /** Net "out" comes to the pad of a port, and net "in" starts there. */
    private static HandMade bothWays() {
        return fork().port("bus", PortDirection.BOTH, "P")
                .chain("c P")
                .chain("P d")
                .net("out", "t.o", "bus", "T.o c P")
                .net("in", "bus", "u.i", "P d U.i");
    }

    @Test
    void aDisconnectedPortNeedsOnlyTheNetThatItDrivesRemoved() {
        Design design = bothWays().design();
        Optional<DisconnectedBranch> port = PortBranch.find(design, 0);
        ReleaseRules rules = new ReleaseRules(context(design, port), Fabric.NOTHING);
        assertThat(texts(design, rules.of(design.fabric().findVertex("P")))).containsExactly("in");
        assertThat(rules.of(design.fabric().findVertex("c"))).isEmpty();
    }

    /** Net m passes through site H: from pin b to pin y. Pin a leads nowhere. */
    private static HandMade throughSite() {
        return fork().site("H", "a b", "y")
                .through("H", "b", "y")
                .chain("c H.b")
                .chain("H.y d")
                .net("m", "t.o", "u.i", "T.o c H.b H.y d U.i");
    }

    @Test
    void aNetThatPassesThroughASiteUsesAllOfItsPins() {
        Design design = throughSite().design();
        assertThat(needs(design, "H.a")).containsExactly("m | cell t | cell u");
        assertThat(needs(design, "H.y")).containsExactly("m | cell t | cell u");
        assertThat(opened(design, "m")).containsExactly("H.a", "H.b", "H.y", "c", "d");
    }

    @Test
    void aSiteThatANetAlsoPassesThroughForAPortIsNotFreeWithoutTheCells() {
        Design design =
                fork().port("led", PortDirection.OUT, "P")
                        .site("H", "a b", "y z")
                        .through("H", "b", "y")
                        .through("H", "a", "z")
                        .chain("c H.b")
                        .chain("c H.a")
                        .chain("H.y d")
                        .chain("H.z e P")
                        .net("m", "t.o", "u.i led", "T.o c H.b H.y d U.i", "c H.a H.z e P")
                        .design();
        assertThat(needs(design, "H.y")).containsExactly("m | cell t");
        assertThat(needs(design, "d")).containsExactly("m | cell t | cell u");
    }

    /** Cell h uses pin x for net m, and lets signals through its site over other pins. */
    private static HandMade openCell(String driver) {
        return fork().site("H", "a b", "x y")
                .through("H", "b", "y")
                .openCell("h", "H")
                .chain("c H.a")
                .net("m", driver, "h.a", "T.o c H.a");
    }

    @Test
    void aCellThatLetsSignalsThroughUsesOnlyThePinsOfItsNets() {
        Design design = openCell("t.o").design();
        assertThat(needs(design, "H.b")).isEmpty();
        assertThat(needs(design, "H.a"))
                .containsExactlyInAnyOrder("cell h | m | cell t", "m | cell t | cell h");
        assertThat(opened(design, "m")).containsExactly("H.a", "c");
        assertThat(needs(openCell("t.o").lockCell("h").design(), "H.a"))
                .containsExactlyInAnyOrder("m | cell t", "m | cell t");
        assertThat(needs(openCell("t.o").lockCell("t").design(), "H.a"))
                .containsExactlyInAnyOrder("cell h | m", "m | cell h");
    }

    @Test
    void aPinAtWhichANetEndsUnroutedIsFreeWithoutThatNet() {
        Design design =
                fork().site("H", "a", "").openCell("h", "H").net("m", "t.o", "h.a", "T.o").design();
        assertThat(needs(design, "H.a")).containsExactly("cell h | m | cell t");
        assertThat(opened(design, "m")).containsExactly("H.a");
        assertThat(opened(design, "cell h")).containsExactly("H.a");
    }

    @Test
    void whereTwoNetsEndUnroutedBothMustGo() {
        Design design =
                fork().site("H", "a", "")
                        .openCell("h", "H")
                        .net("m", "t.o", "h.a", "T.o")
                        .net("k", "v.i", "h.a", "V.i")
                        .design();
        assertThat(needs(design, "H.a"))
                .containsExactly("cell h | m + k | m + cell v | k + cell t | cell t + cell v");
    }

    /** Nets that ports drive, so that each can only be removed itself. */
    @ParameterizedTest
    @CsvSource({"6, false", "7, true"})
    void moreThanSixNetsThatEndUnroutedAreLeftOut(int count, boolean leftOut) {
        HandMade made = fork().site("H", "a", "").openCell("h", "H");
        for (int i = 0; i < count; i++) {
            made.pad("Q" + i)
                    .port("in" + i, PortDirection.IN, "Q" + i)
                    .net("k" + i, "in" + i, "h.a", "Q" + i);
        }
        Design design = made.design();
        ReleaseRules rules = rules(design);
        String all =
                IntStream.range(0, count).mapToObj(i -> "k" + i).collect(Collectors.joining(" + "));
        assertThat(texts(design, rules.of(design.fabric().findVertex("H.a"))))
                .containsExactly("cell h" + (leftOut ? "" : " | " + all));
        assertThat(rules.hasLeftOut()).isEqualTo(leftOut);
    }

    /** Each net can be removed itself or with its driver: 16 choices for four nets. */
    @ParameterizedTest
    @CsvSource({"4, 17, false", "5, 17, true"})
    void moreThanSixteenChoicesAreLeftOut(int count, int listed, boolean leftOut) {
        HandMade made = fork().site("H", "a", "").openCell("h", "H");
        for (int i = 0; i < count; i++) {
            made.site("Q" + i, "", "o")
                    .cell("q" + i, "Q" + i)
                    .net("k" + i, "q" + i + ".o", "h.a", "Q" + i + ".o");
        }
        Design design = made.design();
        ReleaseRules rules = rules(design);
        int[][][] needs = rules.of(design.fabric().findVertex("H.a"));
        assertThat(needs).hasDimensions(1, listed);
        assertThat(rules.hasLeftOut()).isEqualTo(leftOut);
    }

    @Test
    void theDriversOwnPinForAnotherNetIsFreeWithoutThatNet() {
        Design design =
                new HandMade()
                        .wires("a c")
                        .site("S", "k", "o")
                        .site("T", "", "o")
                        .pad("P")
                        .chain("S.o a P")
                        .chain("T.o c S.k")
                        .openCell("s", "S")
                        .cell("t", "T")
                        .net("n", "s.o", "", "S.o a")
                        .net("m", "t.o", "s.k", "T.o c S.k")
                        .design();
        assertThat(needs(design, "S.k")).containsExactlyInAnyOrder("m | cell t", "m | cell t");
    }

    /** The switch c to d, which is on, excludes the one from a to b. */
    private static HandMade excluded() {
        return forkUsed().switchGroup("mux", "a b", "c d");
    }

    private static List<String> stepNeeds(Design design, String from, String to) {
        Fabric fabric = design.fabric();
        return texts(design, rules(design).ofStep(fabric.findVertex(from), fabric.findVertex(to)));
    }

    @Test
    void aSwitchNeedsTheOneOffThatExcludesIt() {
        Design design = excluded().design();
        assertThat(stepNeeds(design, "a", "b")).containsExactly("m | cell t | cell u");
        assertThat(stepNeeds(design, "b", "P")).isEmpty();
        assertThat(stepNeeds(design, "c", "e")).containsExactly("m | cell t | cell v");
    }

    @Test
    void aSwitchToAUsedWireNeedsTheWireFreeToo() {
        Design design =
                excluded()
                        .site("K", "", "o")
                        .cell("k", "K")
                        .chain("K.o b")
                        .net("x", "k.o", "", "K.o b")
                        .design();
        assertThat(stepNeeds(design, "a", "b"))
                .containsExactly("x | cell k", "m | cell t | cell u");
    }

    @Test
    void aSwitchCanBeTurnedOnOnceTheOtherIsOff() {
        Design design = excluded().design();
        ReleaseRules rules = rules(design);
        Fabric fabric = design.fabric();
        int a = fabric.findVertex("a");
        int b = fabric.findVertex("b");
        long on = EdgeKey.of(fabric.findVertex("c"), fabric.findVertex("d"));
        assertThat(rules.isOff(on, occupants(design, "cell v"))).isFalse();
        assertThat(rules.isOpen(a, b, occupants(design, "cell v"))).isFalse();
        assertThat(rules.isOff(on, occupants(design, "cell v", "cell u"))).isTrue();
        assertThat(rules.isOpen(a, b, occupants(design, "cell v", "cell u"))).isTrue();
    }

    @Test
    void aSwitchThatIsOffWithWhatIsRemovedAnywayNeedsNothing() {
        Design design = excluded().design();
        QuestionContext context = context(design, Optional.empty());
        ReleaseRules rules = new ReleaseRules(context, occupant(design, "cell u"));
        Fabric fabric = design.fabric();
        assertThat(rules.ofStep(fabric.findVertex("a"), fabric.findVertex("b"))).isEmpty();
    }

    @Test
    void whatIsRemovedAnywayIsNotAskedForAgain() {
        Design design = forkUsed().design();
        QuestionContext context = context(design, Optional.empty());
        ReleaseRules rules = new ReleaseRules(context, occupant(design, "cell u"));
        Fabric fabric = design.fabric();
        assertThat(texts(design, rules.of(fabric.findVertex("c"))))
                .containsExactly("m | cell t | cell v");
        assertThat(rules.of(fabric.findVertex("d"))).isEmpty();
        assertThat(rules.of(fabric.findVertex("U.i"))).isEmpty();
    }

    @Test
    void removalsOpenWhatNothingElseUses() {
        Design design = forkUsed().design();
        assertThat(opened(design, "m")).containsExactly("c", "d", "e");
        assertThat(opened(design, "cell u")).containsExactly("U.i", "U.j", "d");
        assertThat(opened(design, "cell u", "cell v"))
                .containsExactly("U.i", "U.j", "V.i", "c", "d", "e");
        assertThat(opened(design, "cell t")).containsExactly("T.o", "c", "d", "e");
        assertThat(opened(design)).isEmpty();
        ReleaseRules rules = rules(design);
        int pin = design.fabric().findVertex("U.i");
        assertThat(rules.isOpen(pin, occupants(design, "m"))).isFalse();
        assertThat(rules.isOpen(pin, occupants(design, "cell u"))).isTrue();
    }

    /** Net m comes to the enable of the driver of pad P, over pin y of site E. */
    private static HandMade switched() {
        return new HandMade()
                .wires("a c")
                .site("S", "", "o")
                .site("T", "", "o")
                .site("E", "x y", "")
                .site("F", "z", "")
                .enabledPad("P", "E")
                .chain("S.o a P")
                .chain("T.o c E.y")
                .cell("s", "S")
                .cell("t", "T")
                .cell("f", "F")
                .net("n", "s.o", "", "S.o a")
                .net("m", "t.o", "", "T.o c E.y");
    }

    @Test
    void aPadThatANetSwitchesIsFreeOnceNothingComesToItsEnable() {
        Design design = switched().design();
        assertThat(needs(design, "P")).containsExactly("m | cell t");
        assertThat(opened(design, "m")).contains("P", "c");
    }

    @Test
    void aPadThatALockedNetSwitchesCannotBeFreed() {
        Design design = switched().lockNet("m", NetLock.WIRES).design();
        assertThat(needs(design, "P")).containsExactly("");
        assertThat(opened(design, "m")).doesNotContain("P");
    }
}
