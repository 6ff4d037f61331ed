package padward.breakout.survey;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;

/**
 * All pads for one net, ranked by their price: free pads with a place for a lead, free pads, pads
 * whose port loses them while nothing listens, pads with obstacles that cannot just be removed,
 * pads on which something on the board will follow, pads that something drives; pads without a
 * route come last. Within these grades, pads whose bank's voltages agree come first; then it goes
 * by what the design loses, by the number of obstacles, and by delay.
 *
 * <p>What an obstacle costs is calculated as if it could not be moved: to find that out takes a
 * search of its own, which asking about the one pad does.
 *
 * @param net the net
 * @param corner corner that ranks delays
 * @param answers one for each pad that was asked for, best first; quick answers, without
 *     explanations
 */
public record Survey(Net net, Corner corner, List<Answer> answers) {
    /** Copies the answers. */
    public Survey {
        answers = List.copyOf(answers);
    }

    /**
     * Asks for every pad that is offered. The project's own engine finds the cost of all pads with
     * two searches over the whole fabric, and a short one for each pad whose port is disconnected.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Survey of(
            Design design, Net net, Corner corner, SearchEngineKind engine, Progress progress) {
        return of(design, net, OfferedPads.of(design.fabric()), corner, engine, progress);
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
            SearchEngineKind engine,
            Progress progress) {
        return of(design, net, pads, corner, WantedDriver.NONE, engine, progress);
    }

    /** The same, with something wanted of the pads' drivers. */
    public static Survey of(
            Design design,
            Net net,
            List<Integer> pads,
            Corner corner,
            WantedDriver driver,
            SearchEngineKind engine,
            Progress progress) {
        Asker asker = new Asker(design.fabric(), engine);
        int count = pads.size();
        List<Answer> answers = new ArrayList<>(count);
        Optional<OneToAllRoutes> swept =
                engine == SearchEngineKind.OWN && count > 0
                        ? Optional.of(OneToAllRoutes.from(asker.own(design, net), corner, progress))
                        : Optional.empty();
        for (int i = 0; i < count; i++) {
            progress.report((double) i / count, "pad " + (i + 1) + " of " + count);
            Question question = new Question(design, net, pads.get(i), corner, driver);
            answers.add(
                    swept.isPresent()
                            ? asker.answer(
                                    question, swept.get().finderFor(question, progress), progress)
                            : asker.answer(question, progress));
        }
        return new Survey(net, corner, sorted(answers, corner, List.of()));
    }

    /** What pads can be ranked by. */
    public enum Key {
        /** What the pad costs: its grade, then whether its bank's voltages agree. */
        PRICE,
        /** What the design loses. */
        FUNCTION,
        /** How many obstacles have to go. */
        OBSTACLES,
        /** Delay at the corner. */
        DELAY
    }

    /** The same answers in another order: by the given key first, then as usual. */
    public Survey sortedBy(Key key) {
        return new Survey(net, corner, sorted(answers, corner, List.of(key)));
    }

    /** The answers that pass a test, in the same order. */
    public Survey only(Predicate<Answer> test) {
        return new Survey(net, corner, answers.stream().filter(test).toList());
    }

    /** An answer with what ranks it, calculated once. */
    private record Ranked(Answer answer, PadRank.Grade grade, boolean odd) {
        static Ranked of(Answer answer) {
            return new Ranked(
                    answer,
                    PadRank.of(answer).grade(),
                    DriverFit.of(answer.question()).conflict().isPresent());
        }
    }

    private static List<Answer> sorted(List<Answer> answers, Corner corner, List<Key> first) {
        return answers.stream()
                .map(Ranked::of)
                .sorted(order(corner, first))
                .map(Ranked::answer)
                .toList();
    }

    private static Comparator<Ranked> order(Corner corner, List<Key> first) {
        Comparator<Ranked> result = Comparator.comparing(r -> r.answer() instanceof Answer.NoRoute);
        List<Key> keys = new ArrayList<>(first);
        keys.addAll(List.of(Key.values()));
        for (Key key : keys) {
            result =
                    switch (key) {
                        case PRICE ->
                                result.thenComparing(Ranked::grade).thenComparing(Ranked::odd);
                        case FUNCTION -> result.thenComparingInt(r -> functionCost(r.answer()));
                        case OBSTACLES -> result.thenComparingInt(r -> obstacleCount(r.answer()));
                        case DELAY -> result.thenComparingInt(r -> delayPs(r.answer(), corner));
                    };
        }
        return result.thenComparingInt(r -> r.answer().question().pad());
    }

    /**
     * What the design loses at the most: the ports that lose their pads, and what obstacles that
     * are not removable feed.
     */
    public static int functionCost(Answer answer) {
        int ports = answer instanceof Answer.NoRoute ? 0 : ports(answer.question());
        if (!(answer instanceof Answer.Blocked blocked)) {
            return ports;
        }
        return ports
                + blocked.obstacles().stream()
                        .mapToInt(o -> o.removable() ? 0 : 1 + o.wouldLose())
                        .sum();
    }

    private static int ports(Question question) {
        return question.losingPort().isPresent() ? 1 : 0;
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
        return question.attached().stream().anyMatch(t -> t.kind().drives())
                || DriverFit.of(question).conflict().isPresent()
                || question.design()
                        .findPortOn(question.pad())
                        .map(p -> p.direction() != PortDirection.OUT)
                        .orElse(false);
    }

    private static int obstacleCount(Answer answer) {
        if (answer instanceof Answer.FreeRoute) {
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
