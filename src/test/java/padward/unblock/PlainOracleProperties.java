package padward.unblock;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jgrapht.alg.shortestpath.DijkstraShortestPath;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.NoRouteReason;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.PlainState;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.example.OddDesigns;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.route.search.SearchSources;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;
import padward.unblock.why.SearchLimits;

/**
 * Explained answers on odd little designs, against a plain oracle: names in sets, every set of
 * occupants tried, smallest first. It shares no code with what it judges.
 */
class PlainOracleProperties {
    private static final int MOST_TRIED = 4;

    private int open;
    private int blocked;
    private int none;
    private int notProven;
    private int excluded;
    private int locked;
    private int unusable;
    private int blockedByItself;

    @Test
    void answersEqualBruteForce() {
        check(0, 250);
        assertThat(blocked).isGreaterThan(40);
        assertThat(open).isGreaterThan(40);
        assertThat(none).isGreaterThan(40);
    }

    @Test
    @Tag("slow")
    void answersEqualBruteForceOnThousands() {
        check(250, 20_000);
    }

    @Test
    void answersEqualBruteForceWhereSwitchesExcludeEachOther() {
        check(OddDesigns.WITH_SWITCH_GROUPS, OddDesigns.WITH_SWITCH_GROUPS + 300);
        assertThat(blocked).isGreaterThan(40);
        assertThat(open).isGreaterThan(40);
        assertThat(none).isGreaterThan(40);
        assertThat(notProven).isLessThan(blocked / 20);
        assertThat(excluded).isGreaterThan(20);
    }

    @Test
    @Tag("slow")
    void answersEqualBruteForceWhereSwitchesExcludeEachOtherOnThousands() {
        check(OddDesigns.WITH_SWITCH_GROUPS + 300, OddDesigns.WITH_SWITCH_GROUPS + 5_000);
    }

    @Test
    void answersEqualBruteForceWhereSomeIsLockedOrUnusable() {
        check(OddDesigns.WITH_LOCKS, OddDesigns.WITH_LOCKS + 400);
        assertThat(blocked).isGreaterThan(40);
        assertThat(open).isGreaterThan(40);
        assertThat(locked).isGreaterThan(40);
        assertThat(unusable).isGreaterThan(10);
    }

    @Test
    @Tag("slow")
    void answersEqualBruteForceWhereSomeIsLockedOrUnusableOnThousands() {
        check(OddDesigns.WITH_LOCKS + 400, OddDesigns.WITH_LOCKS + 10_000);
    }

    @Test
    void answersEqualBruteForceWhereSitesHaveParts() {
        check(OddDesigns.WITH_PARTS, OddDesigns.WITH_PARTS + 300);
        assertThat(blocked).isGreaterThan(40);
        assertThat(open).isGreaterThan(40);
        assertThat(none).isGreaterThan(40);
    }

    @Test
    void answersEqualBruteForceWherePinsAreAlike() {
        check(OddDesigns.WITH_ALIKE_PINS, OddDesigns.WITH_ALIKE_PINS + 300);
        assertThat(blocked).isGreaterThan(40);
        assertThat(open).isGreaterThan(40);
    }

    @Test
    @Tag("slow")
    void answersEqualBruteForceWhereSitesHavePartsOnThousands() {
        check(OddDesigns.WITH_PARTS + 300, OddDesigns.WITH_PARTS + 5_000);
    }

    /** One cell that drives both the net on the pad and the net that switches its driver. */
    @Test
    void whatDrivesThePadsNetAndItsEnableMovesBoth() {
        check(19_000, 19_001);
        assertThat(blocked).isPositive();
    }

    /** The only way to the pad is the other output of a site that the net passes through. */
    @Test
    void aNetThatBlocksItselfIsToldSo() {
        check(OddDesigns.WITH_PARTS + 356, OddDesigns.WITH_PARTS + 357);
        assertThat(blockedByItself).isPositive();
        check(OddDesigns.WITH_PARTS + 955, OddDesigns.WITH_PARTS + 956);
        check(OddDesigns.WITH_LOCKS + 6_597, OddDesigns.WITH_LOCKS + 6_598);
        check(OddDesigns.WITH_SWITCH_GROUPS + 2_884, OddDesigns.WITH_SWITCH_GROUPS + 2_885);
    }

    private void check(long from, long to) {
        for (long seed = from; seed < to; seed++) {
            Design design = OddDesigns.withoutSettings(seed);
            PlainState plain = PlainState.of(design);
            for (Net net : design.nets()) {
                for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
                    Question question = new Question(design, net, pad, Corner.SLOW);
                    String what = "seed " + seed + " " + net.name() + " to P" + pad;
                    new Oracle(question, plain, what).judge();
                }
            }
        }
    }

    /** One question, by names alone. */
    private final class Oracle {
        private final Question question;
        private final PlainState plain;
        private final String what;
        private final Fabric fabric;
        private final String net;
        private final String pad;
        private final Set<String> ownTree;
        private List<Edit> disconnected = List.of();

        Oracle(Question question, PlainState plain, String what) {
            this.question = question;
            this.plain = plain;
            this.what = what;
            this.fabric = question.design().fabric();
            this.net = question.net().name();
            this.pad = question.padValue().name();
            this.ownTree = plain.on(net);
        }

        void judge() {
            if (!question.padValue().directions().canDrive() || ownTree.contains(pad)) {
                return;
            }
            Answer answer =
                    new Asker(fabric, SearchEngineKind.OWN)
                            .explained(
                                    question,
                                    new SearchLimits(10_000_000, 60_000, 6, 1),
                                    Progress.NONE);
            Optional<DisconnectedBranch> branch = answer.disconnected();
            disconnected = branch.map(d -> List.of(d.toEdit())).orElse(List.of());
            if (answer instanceof Answer.FreeRoute) {
                open++;
                assertThat(opens(List.of())).as(what).isTrue();
                PlainState now = plain.without(disconnected, fabric);
                assertQuickest((Answer.FreeRoute) answer, now);
                assertChokepoints(
                        names(((Answer.FreeRoute) answer).chokepoints()),
                        chokepoints(now, now.used()));
            } else if (answer instanceof Answer.NoRoute no) {
                none++;
                excluded += no.reason() == NoRouteReason.SWITCHES_EXCLUDE ? 1 : 0;
                locked += no.reason() == NoRouteReason.LOCKED ? 1 : 0;
                unusable += no.reason() == NoRouteReason.UNUSABLE_ON_ROUTE ? 1 : 0;
                if (no.reason() == NoRouteReason.OWN_DRIVER_ON_ENABLE || plain.takesNoBranch(net)) {
                    // The net itself is at the enable: what would take it away is not tried.
                    return;
                }
                if (no.reason() == NoRouteReason.OWN_PASS_THROUGH) {
                    blockedByItself++;
                    assertThat(reachesAsItIs()).as(what).isFalse();
                    if (!plain.hasSwitchGroups()) {
                        // Its own switches may exclude those that are missing.
                        assertThat(reachesOnEmptyFabric()).as(what).isTrue();
                    }
                    return;
                }
                assertThat(opens(removable())).as(what + no.reason()).isFalse();
            } else if (answer instanceof Answer.Blocked used) {
                blocked++;
                List<Edit> fast =
                        ((Answer.Blocked)
                                        new Asker(fabric, SearchEngineKind.OWN)
                                                .answer(question, Progress.NONE))
                                .obstacles().stream()
                                        .map(o -> Removal.removing(o.occupant()))
                                        .toList();
                assertThat(opens(fast)).as(what + " fast " + fast).isTrue();
                judge(used.why().orElseThrow().explanation(), branch);
            }
        }

        /** By JGraphT, on a graph of what is free alone. */
        private void assertQuickest(Answer.FreeRoute answer, PlainState now) {
            if (plain.hasSwitchGroups()) {
                return;
            }
            var graph =
                    new SimpleDirectedWeightedGraph<String, DefaultWeightedEdge>(
                            DefaultWeightedEdge.class);
            graph.addVertex("");
            SearchSources starts = Asker.starts(question);
            Set<String> shut = now.used();
            for (Pad other : fabric.pads()) {
                shut.add(fabric.vertexName(other.vertex()));
            }
            shut.remove(pad);
            int enable = question.padValue().enableSite();
            if (enable != Fabric.NOTHING) {
                SiteView site = fabric.site(enable);
                for (int pin = 0; pin < site.pins().size(); pin++) {
                    shut.add(fabric.vertexName(site.firstPin() + pin));
                }
            }
            for (int i = 0; i < starts.size(); i++) {
                String name = fabric.vertexName(starts.vertex(i));
                graph.addVertex(name);
                graph.setEdgeWeight(graph.addEdge("", name), starts.cost(i));
            }
            EdgeCursor edges = fabric.edgesOut();
            for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
                String from = fabric.vertexName(vertex);
                graph.addVertex(from);
                edges.reset(vertex);
                while (edges.next()) {
                    String to = fabric.vertexName(edges.other());
                    graph.addVertex(to);
                    if (!shut.contains(to) && !ownTree.contains(to)) {
                        graph.setEdgeWeight(
                                graph.addEdge(from, to), edges.delayPs(question.corner()));
                    }
                }
            }
            double cost = new DijkstraShortestPath<>(graph).getPathWeight("", pad);
            assertThat((double) answer.route().toPadVertex().at(question.corner()))
                    .as(what)
                    .isEqualTo(cost);
        }

        private void judge(UnblockExplanation explanation, Optional<DisconnectedBranch> branch) {
            List<Edit> everything = new ArrayList<>(disconnected);
            everything.addAll(removable());
            PlainState empty = plain.without(everything, fabric);
            Set<String> own = new HashSet<>(plain.usedBy(net));
            own.addAll(empty.used());
            assertChokepoints(names(explanation.chokepoints()), chokepoints(empty, own));
            int fewest = explanation.best().removals().size();
            if (plain.hasSwitchGroups()) {
                notProven += explanation.provenFewest() ? 0 : 1;
                assertThat(explanation.atLeast()).as(what).isLessThanOrEqualTo(fewest);
            } else {
                assertThat(explanation.provenFewest()).as(what).isTrue();
                assertThat(explanation.atLeast()).as(what).isEqualTo(fewest);
            }
            List<Edit> all = removable();
            int least = explanation.provenFewest() ? fewest : explanation.atLeast();
            for (int size = 0; size < least && size <= MOST_TRIED; size++) {
                Optional<List<Edit>> fewer = anyOpens(all, 0, size, new ArrayList<>());
                assertThat(fewer).as(what + ": fewer than " + fewest).isEmpty();
            }
            for (UnblockOption option : explanation.options()) {
                List<Edit> removing = option.removals().stream().map(r -> r.removing()).toList();
                assertThat(opens(removing)).as(what + removing).isTrue();
                List<Edit> edits = option.edits(branch);
                PlainState after = plain.after(edits, fabric);
                if (plain.isSound()) {
                    assertThat(after).as(what + edits).isNotNull();
                    assertThat(after.keepsLocked(plain)).as(what + edits).isTrue();
                    assertThat(after.reaches(after.on(net), after.used(), pad))
                            .as(what + edits)
                            .isTrue();
                }
            }
        }

        /** Among switches that exclude each other, not all of them are found. */
        private void assertChokepoints(Set<String> found, Set<String> all) {
            if (plain.hasSwitchGroups()) {
                assertThat(all).as(what).containsAll(found);
            } else {
                assertThat(found).as(what).isEqualTo(all);
            }
        }

        private static Set<String> names(List<Chokepoint> chokepoints) {
            Set<String> result = new TreeSet<>();
            chokepoints.forEach(c -> result.add(c.resource()));
            return result;
        }

        /** What no route can do without, tried vertex by vertex. */
        private Set<String> chokepoints(PlainState state, Set<String> used) {
            Set<String> result = new TreeSet<>();
            for (String vertex : state.vertices()) {
                if (!used.contains(vertex)) {
                    Set<String> more = new HashSet<>(used);
                    more.add(vertex);
                    if (!state.reaches(ownTree, more, pad, ownSwitches())) {
                        result.add(state.resourceOf(vertex));
                    }
                }
            }
            return result;
        }

        private List<Edit> removable() {
            List<Edit> result = new ArrayList<>();
            for (Net other : question.design().nets()) {
                if (!other.name().equals(net)) {
                    result.add(new Edit.RemoveNet(other.name()));
                }
            }
            for (Cell cell : question.design().cells()) {
                if (cell.id() != question.net().driverCell()) {
                    result.add(new Edit.RemoveCell(cell.name()));
                }
            }
            result.removeIf(edit -> !plain.without(List.of(edit), fabric).keepsLocked(plain));
            return result;
        }

        /** Whether removing some occupants opens a route, from the net as it is or as it was. */
        private boolean opens(List<Edit> removals) {
            List<Edit> edits = new ArrayList<>(disconnected);
            edits.addAll(removals);
            PlainState after = plain.without(edits, fabric);
            if (after.reaches(after.on(net), after.used(), pad, ownSwitches())) {
                return true;
            }
            // The branches to cells that are gone may stay.
            Set<String> used = new HashSet<>(after.used());
            used.addAll(ownTree);
            return after.reaches(ownTree, used, pad, ownSwitches());
        }

        /** Whether the pad is reached once all others are gone and the net stays as it is. */
        private boolean reachesAsItIs() {
            PlainState after = plain.without(removable(), fabric);
            Set<String> used = new HashSet<>(after.used());
            used.addAll(plain.usedBy(net));
            return after.reaches(ownTree, used, pad, ownSwitches());
        }

        /** Whether the pad is reached from the net's own wires with nothing in the way. */
        private boolean reachesOnEmptyFabric() {
            return plain.without(removable(), fabric).reaches(ownTree, Set.of(), pad);
        }

        /** The net's own switches stay on. */
        private Set<String> ownSwitches() {
            return plain.without(disconnected, fabric).switchesOf(net);
        }

        private Optional<List<Edit>> anyOpens(
                List<Edit> all, int from, int more, List<Edit> chosen) {
            if (more == 0) {
                return opens(chosen) ? Optional.of(List.copyOf(chosen)) : Optional.empty();
            }
            for (int i = from; i <= all.size() - more; i++) {
                chosen.add(all.get(i));
                Optional<List<Edit>> found = anyOpens(all, i + 1, more - 1, chosen);
                if (found.isPresent()) {
                    return found;
                }
                chosen.remove(chosen.size() - 1);
            }
            return Optional.empty();
        }
    }
}
