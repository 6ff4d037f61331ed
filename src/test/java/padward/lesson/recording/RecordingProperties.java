package padward.lesson.recording;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.example.RandomDesigns;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.route.search.SearchEngineKind;
import padward.route.search.SearchOutcome;
import padward.route.search.VertexPath;
import padward.unblock.why.SearchLimits;

/**
 * Recorded searches on random questions. The seed is the test's argument: a question on a random
 * design on a random fabric, pattern or explicit.
 */
class RecordingProperties {
    static LongStream seeds() {
        return LongStream.range(0, 1000);
    }

    static LongStream fewerSeeds() {
        return LongStream.range(0, 80);
    }

    private static Optional<Question> question(long seed) throws PatternFault {
        Random random = new Random(seed);
        Fabric pattern = PatternFabric.compile(RandomFabrics.pattern(seed));
        Fabric fabric = random.nextInt(4) > 0 ? pattern : RandomFabrics.explicit(pattern);
        Design design = RandomDesigns.on(fabric, 4 + random.nextInt(14), random);
        if (design.nets().isEmpty()) {
            return Optional.empty();
        }
        Net net = design.nets().get(random.nextInt(design.nets().size()));
        int pad = random.nextInt(fabric.pads().size());
        Corner corner = Corner.values()[random.nextInt(2)];
        return Optional.of(new Question(design, net, pad, corner));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aRecordedSearchReplaysToTheVerySameAnswer(long seed) throws PatternFault {
        Optional<Question> asked = question(seed);
        if (asked.isEmpty()) {
            return;
        }
        Question question = asked.get();
        Answer expected =
                new Asker(question.design().fabric(), SearchEngineKind.OWN)
                        .answer(question, Progress.NONE);
        RecordedQuestion played =
                RecordedQuestion.of(question, PlayedSearch.AS_ASKED, 1_000_000, Progress.NONE);
        assertThat(played.answer()).isEqualTo(expected);
        RecordedQuestion star =
                RecordedQuestion.of(question, PlayedSearch.A_STAR, 1_000_000, Progress.NONE);
        RecordedQuestion plain =
                RecordedQuestion.of(question, PlayedSearch.DIJKSTRA, 1_000_000, Progress.NONE);
        for (RecordedQuestion other : List.of(played, star, plain)) {
            other.parts().forEach(p -> checkReplay(p.recording()));
            if (expected instanceof Answer.FreeRoute open) {
                assertThat(
                                ((Answer.FreeRoute) other.answer())
                                        .route()
                                        .total()
                                        .at(question.corner()))
                        .isEqualTo(open.route().total().at(question.corner()));
            } else {
                assertThat(other.answer()).hasSameClassAs(expected);
            }
        }
        if (!(played.answer() instanceof Answer.NoRoute)) {
            compare(star.decisive().orElseThrow(), plain.decisive().orElseThrow());
        }
    }

    /** The steps alone lead to the outcome; undone, they leave nothing. */
    private static void checkReplay(Recording recording) {
        assertThat(recording.isWhole()).isTrue();
        RecordingReplay replay = new RecordingReplay(recording);
        replay.goTo(recording.size());
        SearchOutcome outcome = recording.outcome();
        if (outcome instanceof SearchOutcome.Found found) {
            assertThat(replay.settledCount()).isEqualTo(found.settled());
            assertThat(replay.isSettled(found.path().last())).isTrue();
            checkCosts(replay, found.path());
            SearchStep.Reached goal = replay.findReach(found.path().last()).orElseThrow();
            assertThat(goal.cost()).isEqualTo(found.cost());
            VertexPath route = replay.findRouteTo(found.path().last()).orElseThrow();
            assertThat(route.last()).isEqualTo(found.path().last());
            checkCosts(replay, route);
            for (int place = 1; place < route.size(); place++) {
                assertThat(replay.findReach(route.vertex(place)).orElseThrow().from())
                        .isEqualTo(route.vertex(place - 1));
            }
        } else if (outcome.settled() > 0) {
            assertThat(replay.settledCount()).isEqualTo(outcome.settled());
            assertThat(replay.frontierCount()).isZero();
        }
        int middle = recording.size() / 2;
        replay.goTo(middle);
        RecordingReplay fresh = new RecordingReplay(recording);
        fresh.goTo(middle);
        assertThat(replay.settledCount()).isEqualTo(fresh.settledCount());
        assertThat(replay.frontierCount()).isEqualTo(fresh.frontierCount());
        fresh.forReached(
                r -> assertThat(replay.findReach(r.vertex()).orElseThrow().equals(r)).isTrue());
        replay.goTo(0);
        assertThat(replay.settledCount() + replay.frontierCount()).isZero();
    }

    /**
     * Costs grow along the route. A route that is read back over tight edges may pass vertices of
     * the frontier: ties with the goal, whose cost is final although they were not settled.
     */
    private static void checkCosts(RecordingReplay replay, VertexPath route) {
        for (int place = 1; place < route.size(); place++) {
            SearchStep.Reached here = replay.findReach(route.vertex(place)).orElseThrow();
            SearchStep.Reached before = replay.findReach(route.vertex(place - 1)).orElseThrow();
            assertThat(here.cost() >= before.cost()).isTrue();
        }
    }

    /**
     * With a consistent estimate, what A* settles below the cost C* of the route, f < C*, Dijkstra
     * settles too, for there g <= f < C* (Hart, Nilsson, Raphael 1968; Dechter and Pearl, J. ACM
     * 32(3), 1985, 505-536). At f = C* ties decide: there A* may settle a vertex that Dijkstra
     * leaves, so those are not counted.
     */
    private static void compare(RecordedQuestion.Part star, RecordedQuestion.Part plain) {
        Recording guided = star.recording();
        Recording blind = plain.recording();
        if (guided.outcome() instanceof SearchOutcome.Found found
                && blind.outcome() instanceof SearchOutcome.Found other) {
            assertThat(found.cost()).isEqualTo(other.cost());
            IntSet below = settledBelow(guided, found.cost());
            IntSet byDijkstra = settledBelow(blind, found.cost());
            assertThat(byDijkstra.containsAll(below)).isTrue();
            assertThat(below.size()).isLessThanOrEqualTo(byDijkstra.size());
        }
    }

    private static IntSet settledBelow(Recording recording, long cost) {
        IntSet result = new IntOpenHashSet();
        for (int i = 0; i < recording.size(); i++) {
            if (recording.step(i) instanceof SearchStep.Settled s && s.cost() + s.ahead() < cost) {
                result.add(s.vertex());
            }
        }
        return result;
    }

    @ParameterizedTest
    @MethodSource("fewerSeeds")
    void labelsArriveWithTheSetsThatOpenARoute(long seed) throws PatternFault {
        Optional<Question> asked = question(seed);
        if (asked.isEmpty()) {
            return;
        }
        Question question = asked.get();
        Answer answer =
                new Asker(question.design().fabric(), SearchEngineKind.OWN)
                        .explained(
                                question, new SearchLimits(100_000, 10_000, 4, 0), Progress.NONE);
        if (!(answer instanceof Answer.Blocked blocked)) {
            return;
        }
        RecordedLabels played =
                RecordedLabels.of(
                        blocked, new SearchLimits(100_000, 10_000, 4, 0), 1_000_000, Progress.NONE);
        int arrived = 0;
        for (int i = 0; i < played.size(); i++) {
            LabelSearchStep step = played.step(i);
            if (step.event() == LabelSearchStep.Event.ARRIVED) {
                assertThat(step.removed()).isEqualTo(played.result().sets().get(arrived++));
            }
        }
        assertThat(arrived).isEqualTo(played.result().sets().size());
        assertThat(played.result().sets().get(0).size())
                .isGreaterThanOrEqualTo(played.atLeastByCuts());
        var explanation = blocked.why().orElseThrow().explanation();
        long enable = explanation.best().removals().size() - played.result().sets().get(0).size();
        assertThat(enable).isBetween(0L, 1L);
        assertThat(played.step(0).removed()).extracting(Occupant::name).isNotNull();
    }

    @Test
    void memoryIsLimitedAndCountingContinues() throws PatternFault {
        Question question = question(7).orElseThrow();
        RecordedQuestion whole =
                RecordedQuestion.of(question, PlayedSearch.DIJKSTRA, 1_000_000, Progress.NONE);
        RecordedQuestion part =
                RecordedQuestion.of(question, PlayedSearch.DIJKSTRA, 10, Progress.NONE);
        assertThat(part.answer()).isEqualTo(whole.answer());
        Recording all = whole.parts().get(0).recording();
        Recording some = part.parts().get(0).recording();
        assertThat(all.size()).isGreaterThan(10);
        assertThat(some.size()).isEqualTo(10);
        assertThat(some.isWhole()).isFalse();
        for (int i = 0; i < 10; i++) {
            assertThat(some.step(i)).isEqualTo(all.step(i));
        }
    }
}
