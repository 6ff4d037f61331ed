package padward.breakout.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.fabric.Corner;
import padward.route.search.Engine;

/**
 * All pads for one net, ranked. Pads without a route come last. Among the others, first those that
 * nothing else can drive; then by what the design loses: removable obstacles cost nothing, others
 * what would lose its signal; then by the number of obstacles; then by delay.
 *
 * <p>What an obstacle costs is calculated as if it could not be moved: to find that out takes a
 * search of its own, which asking about the one pad does.
 *
 * @param net the net
 * @param corner corner that ranks delays
 * @param answers one for each pad, best first; quick answers, without explanations
 */
public record Survey(Net net, Corner corner, List<Answer> answers) {
    /** Copies the answers. */
    public Survey {
        answers = List.copyOf(answers);
    }

    /**
     * Asks for every pad. The project's own engine finds the cost of all pads with two searches
     * over the whole fabric, and a short one for each pad whose port is disconnected.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Survey of(
            Design design, Net net, Corner corner, Engine engine, Progress progress) {
        List<Integer> all = IntStream.range(0, design.fabric().pads().size()).boxed().toList();
        return of(design, net, all, corner, engine, progress);
    }

    /**
     * Asks for some pads.
     *
     * @param pads indices of the pads
     */
    public static Survey of(
            Design design,
            Net net,
            List<Integer> pads,
            Corner corner,
            Engine engine,
            Progress progress) {
        Asker asker = new Asker(design.fabric(), engine);
        int count = pads.size();
        List<Answer> answers = new ArrayList<>(count);
        Optional<OneToAllRoutes> swept =
                engine == Engine.OWN && count > 0
                        ? Optional.of(
                                OneToAllRoutes.from(
                                        new Question(design, net, pads.get(0), corner), progress))
                        : Optional.empty();
        for (int i = 0; i < count; i++) {
            progress.report((double) i / count, "pad " + (i + 1) + " of " + count);
            Question question = new Question(design, net, pads.get(i), corner);
            answers.add(
                    swept.isPresent()
                            ? asker.answer(
                                    question, swept.get().finderFor(question, progress), progress)
                            : asker.answer(question, progress));
        }
        answers.sort(order(corner, List.of()));
        return new Survey(net, corner, answers);
    }

    /** What pads can be ranked by. */
    public enum Key {
        /** Whether something else may drive the pad. */
        HAZARD,
        /** What the design loses. */
        FUNCTION,
        /** How many obstacles have to go. */
        OBSTACLES,
        /** Delay at the corner. */
        DELAY
    }

    /** The same answers in another order: by the given key first, then as usual. */
    public Survey sortedBy(Key key) {
        List<Answer> sorted = new ArrayList<>(answers);
        sorted.sort(order(corner, List.of(key)));
        return new Survey(net, corner, sorted);
    }

    /** The answers that pass a test, in the same order. */
    public Survey only(Predicate<Answer> test) {
        return new Survey(net, corner, answers.stream().filter(test).toList());
    }

    private static Comparator<Answer> order(Corner corner, List<Key> first) {
        Comparator<Answer> result = Comparator.comparing(a -> a instanceof Answer.NoRoute);
        List<Key> keys = new ArrayList<>(first);
        keys.addAll(List.of(Key.values()));
        for (Key key : keys) {
            result =
                    switch (key) {
                        case HAZARD -> result.thenComparing(Survey::hazardous);
                        case FUNCTION -> result.thenComparingInt(Survey::functionCost);
                        case OBSTACLES -> result.thenComparingInt(Survey::obstacleCount);
                        case DELAY -> result.thenComparingInt(a -> delayPs(a, corner));
                    };
        }
        return result.thenComparingInt(a -> a.question().pad());
    }

    /** What the design loses at the most: 0 when nothing or only what is removable has to go. */
    public static int functionCost(Answer answer) {
        if (!(answer instanceof Answer.Blocked blocked)) {
            return 0;
        }
        return blocked.obstacles().stream()
                .mapToInt(o -> o.removable() ? 0 : 1 + o.wouldLose())
                .sum();
    }

    /**
     * Whether something else may drive the pad, a part on the board or whatever feeds an input, or
     * voltages in its bank do not agree.
     */
    public static boolean hazardous(Answer answer) {
        return hazardous(answer.question());
    }

    /** The same before a question has an answer. */
    public static boolean hazardous(Question question) {
        Design design = question.design();
        int pad = question.pad();
        boolean driven =
                design.board()
                        .findWiring(pad)
                        .map(w -> w.attachments().stream().anyMatch(t -> t.kind().drives()))
                        .orElse(false);
        return driven
                || DriverFit.of(question).conflict().isPresent()
                || design.findPortOn(pad)
                        .map(p -> p.direction() != PortDirection.OUT)
                        .orElse(false);
    }

    private static int obstacleCount(Answer answer) {
        if (answer instanceof Answer.Open) {
            return 0;
        }
        return answer instanceof Answer.Blocked blocked
                ? blocked.obstacles().size()
                : Integer.MAX_VALUE;
    }

    private static int delayPs(Answer answer, Corner corner) {
        return answer.findRoute().map(w -> w.total().at(corner)).orElse(Integer.MAX_VALUE);
    }
}
