package padward.unblock;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Terminal;
import padward.example.RandomCircuits;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.search.SearchEngineKind;
import padward.timing.EdgeFinder;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.PortBranch;
import padward.unblock.release.QuestionContext;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.SearchLimits;

/**
 * Explained answers on tangled little circuits, against brute force over all sets of occupants,
 * each really applied to the design.
 */
class TangledProperties {
    private static final int SEEDS = 2000;
    private static final int MOST_TRIED = 4;

    @ParameterizedTest
    @CsvSource({
        "false, false, false",
        "true, false, false",
        "true, true, false",
        "true, true, true"
    })
    void answersHold(boolean open, boolean enables, boolean inputs) {
        RandomCircuits.Sorts sorts = new RandomCircuits.Sorts(open, enables, inputs);
        int blocked = 0;
        for (long seed = 0; seed < SEEDS; seed++) {
            Optional<Design> made = RandomCircuits.make(seed, sorts);
            if (made.isEmpty()) {
                continue;
            }
            Design design = made.get();
            Random random = new Random(seed);
            for (int q = 0; q < 4; q++) {
                Net net = design.nets().get(random.nextInt(design.nets().size()));
                int pad = random.nextInt(design.fabric().pads().size());
                String what = "seed " + seed + " " + net.name() + " to p" + pad;
                blocked += check(new Question(design, net, pad, Corner.SLOW), q % 3, what) ? 1 : 0;
            }
        }
        assertThat(blocked).isGreaterThan(1000);
    }

    private static boolean check(Question question, int pushDepth, String what) {
        SearchLimits limits = new SearchLimits(10_000_000, 60_000, 6, pushDepth);
        Answer answer =
                new Asker(question.design().fabric(), SearchEngineKind.OWN)
                        .explained(question, limits, Progress.NONE);
        if (answer instanceof Answer.FreeRoute) {
            assertThat(opens(question, answer.disconnected(), List.of())).as(what).isTrue();
        }
        if (!(answer instanceof Answer.Blocked blocked)) {
            return false;
        }
        UnblockExplanation explanation = blocked.why().orElseThrow().explanation();
        assertThat(explanation.provenFewest()).as(what).isTrue();
        int fewest = explanation.best().removals().size();
        assertThat(explanation.atLeast()).as(what).isEqualTo(fewest);
        List<Occupant> freeable = freeable(question);
        for (int size = 0; size < Math.min(fewest, MOST_TRIED); size++) {
            boolean any =
                    anyOpens(question, answer.disconnected(), freeable, 0, size, new ArrayList<>());
            assertThat(any).as(what + ": fewer than " + fewest).isFalse();
        }
        for (UnblockOption option : explanation.options()) {
            check(question, answer.disconnected(), option, what);
        }
        return true;
    }

    private static void check(
            Question question,
            Optional<DisconnectedBranch> disconnected,
            UnblockOption option,
            String what) {
        List<Occupant> all = option.removals().stream().map(Removal::occupant).toList();
        assertThat(opens(question, disconnected, all)).as(what).isTrue();
        for (Occupant one : all) {
            List<Occupant> others = new ArrayList<>(all);
            others.remove(one);
            assertThat(opens(question, disconnected, others)).as(what + " without one").isFalse();
        }
        List<Edit> edits = option.edits(disconnected);
        Design after = Outcome.apply(question.design(), edits);
        assertThat(isOpen(after, question)).as(what + edits).isTrue();
        checkSound(question.design(), after, edits, what + edits);
    }

    /** One net to a site gone through, no closed cell passed, every end still on its net. */
    private static void checkSound(Design before, Design after, List<Edit> edits, String what) {
        Map<Integer, String> through = new HashMap<>();
        EdgeFinder finder = new EdgeFinder(after.fabric());
        Set<String> routed = routed(edits);
        boolean onlyRouted = edits.stream().allMatch(e -> e instanceof Edit.RouteNet);
        for (Net net : after.nets()) {
            Net old = before.findNet(net.name()).orElseThrow();
            assertThat(net.route().root()).as(what).isEqualTo(after.vertexOf(net.driver()));
            for (Terminal sink : net.sinks()) {
                boolean reached =
                        old.sinks().stream()
                                .filter(s -> before.textOf(s).equals(after.textOf(sink)))
                                .anyMatch(s -> old.route().placeOf(before.vertexOf(s)) >= 0);
                if (reached) {
                    assertThat(net.route().placeOf(after.vertexOf(sink))).as(what).isNotNegative();
                }
            }
            for (int place = 1; place < net.route().size(); place++) {
                int to = net.route().vertex(place);
                int from = net.route().vertex(net.route().parent(place));
                if (finder.get(from, to).kind() == EdgeKind.PASS_THROUGH) {
                    int site = after.fabric().siteOf(to);
                    String other = through.put(site, net.name());
                    assertThat(other == null || other.equals(net.name())).as(what).isTrue();
                    boolean shut =
                            after.occupancy()
                                    .findCellOn(site)
                                    .filter(c -> !c.letsThrough())
                                    .isPresent();
                    assertThat(shut).as(what).isFalse();
                }
            }
            if (onlyRouted && !routed.contains(net.name())) {
                assertThat(net.route()).as(what).isEqualTo(old.route());
            }
        }
    }

    private static Set<String> routed(List<Edit> edits) {
        Set<String> result = new HashSet<>();
        for (Edit edit : edits) {
            if (edit instanceof Edit.RouteNet route) {
                result.add(route.net());
            } else if (edit instanceof Edit.RelocateCell move) {
                move.nets().forEach(n -> result.add(n.net()));
            }
        }
        return result;
    }

    private static List<Occupant> freeable(Question question) {
        List<Occupant> result = new ArrayList<>();
        question.design().nets().stream()
                .filter(n -> n != question.net())
                .forEach(n -> result.add(new Occupant.ByNet(n)));
        question.design().cells().stream()
                .filter(
                        c ->
                                !(question.net().driver() instanceof Terminal.CellPin at
                                        && at.cell() == c.id()))
                .forEach(c -> result.add(new Occupant.ByCell(c)));
        return result;
    }

    private static boolean anyOpens(
            Question question,
            Optional<DisconnectedBranch> disconnected,
            List<Occupant> freeable,
            int from,
            int more,
            List<Occupant> chosen) {
        if (more == 0) {
            return opens(question, disconnected, chosen);
        }
        for (int i = from; i <= freeable.size() - more; i++) {
            chosen.add(freeable.get(i));
            if (anyOpens(question, disconnected, freeable, i + 1, more - 1, chosen)) {
                return true;
            }
            chosen.remove(chosen.size() - 1);
        }
        return false;
    }

    private static boolean opens(
            Question question, Optional<DisconnectedBranch> disconnected, List<Occupant> freed) {
        List<Edit> edits = new ArrayList<>();
        disconnected.ifPresent(l -> edits.add(l.toEdit()));
        freed.forEach(o -> edits.add(Removal.removing(o)));
        edits.sort(UnblockOption.REMOVAL_ORDER);
        return isOpen(Outcome.apply(question.design(), edits), question);
    }

    /**
     * A plain walk over what is free, which drives no other pad; with the enable out of the way.
     */
    private static boolean isOpen(Design design, Question question) {
        Optional<Net> net = design.findNet(question.net().name());
        if (net.isEmpty()) {
            return false;
        }
        Fabric fabric = design.fabric();
        int goal = question.padValue().vertex();
        Optional<DisconnectedBranch> disconnected = PortBranch.find(design, question.pad());
        QuestionContext context =
                new QuestionContext(design, net.get(), disconnected, question.padValue());
        if (net.get().route().placeOf(goal) >= 0) {
            return true;
        }
        if (context.enableOccupant(question.padValue()) != Fabric.NOTHING) {
            return false;
        }
        CostModel model = context.overFree();
        BitSet seen = new BitSet();
        IntArrayList open = new IntArrayList(net.get().route().toVertices());
        open.forEach(seen::set);
        EdgeCursor edges = fabric.edgesOut();
        while (!open.isEmpty()) {
            int vertex = open.popInt();
            if (vertex == goal) {
                return true;
            }
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                boolean otherPad = next != goal && fabric.kind(next) == VertexKind.PAD;
                boolean enter =
                        !otherPad
                                && !seen.get(next)
                                && model.cost(vertex, next, 1) != CostModel.CLOSED;
                if (enter) {
                    seen.set(next);
                    open.add(next);
                }
            }
        }
        return false;
    }
}
