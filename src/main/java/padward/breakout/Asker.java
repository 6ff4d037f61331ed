package padward.breakout;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Function;
import padward.base.Progress;
import padward.clearance.Chokepoint;
import padward.clearance.Clearance;
import padward.clearance.Explainer;
import padward.clearance.Explanation;
import padward.clearance.LetGo;
import padward.clearance.PortBranch;
import padward.clearance.SearchLimits;
import padward.clearance.Situation;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.route.CostModel;
import padward.route.Engine;
import padward.route.LowerBound;
import padward.route.Path;
import padward.route.PathSearch;
import padward.route.ReferenceSearch;
import padward.route.SearchOutcome;
import padward.route.Starts;
import padward.route.TwoEnded;

/**
 * Answers questions about one net. Two searches at the most: over what is free; then, if that
 * fails, over everything that could be freed, at a price.
 *
 * <p>One object keeps the search's state between questions and belongs to one thread.
 */
public final class Asker {
    private final Fabric fabric;
    private final PathSearch search;
    private final WaySearch ways;

    /** An asker for designs on one fabric. O(vertices). */
    public Asker(Fabric fabric, Engine engine) {
        this.fabric = fabric;
        this.search = new PathSearch(fabric);
        this.ways = waysOf(engine);
    }

    private WaySearch waysOf(Engine engine) {
        return switch (engine) {
            case OWN ->
                    (starts, goal, corner, model, progress) ->
                            TwoEnded.run(search, fabric, starts, goal, corner, model, progress);
            case REFERENCE ->
                    (starts, goal, corner, model, progress) ->
                            ReferenceSearch.run(fabric, starts, goal, corner, model, progress);
            case REFERENCE_GUIDED ->
                    (starts, goal, corner, model, progress) ->
                            ReferenceSearch.runGuided(
                                    fabric,
                                    starts,
                                    goal,
                                    corner,
                                    model,
                                    LowerBound.best(fabric, goal, corner),
                                    progress);
        };
    }

    /** An asker that finds its ways by a search of the caller's. O(vertices). */
    public Asker(Fabric fabric, WaySearch ways) {
        this.fabric = fabric;
        this.search = new PathSearch(fabric);
        this.ways = ways;
    }

    /**
     * The explained answer to one question, with the project's own search.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static Answer ask(Question question, Progress progress) {
        return new Asker(question.design().fabric(), Engine.OWN)
                .explained(question, SearchLimits.USUAL, progress);
    }

    /**
     * The quick answer to one question: what it is, not all that could be said about it. A blocked
     * one names obstacles that would open a way, without proof that they are the fewest.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the question is about another fabric
     */
    public Answer answer(Question question, Progress progress) {
        return answer(
                question,
                (starts, model, letGo) -> run(question, starts, model, progress),
                progress);
    }

    /**
     * The answer to one question with everything that can be said about it: for a blocked one, the
     * fewest obstacles with proof and consequences, and alternatives; for one without a way, the
     * nearest signals that have one.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the question is about another fabric
     */
    public Answer explained(Question question, SearchLimits limits, Progress progress) {
        Answer quick = answer(question, progress);
        if (quick instanceof Answer.Blocked blocked) {
            return explain(blocked, limits, progress);
        }
        if (quick instanceof Answer.Open open) {
            Situation situation = new Situation(question.design(), question.net(), open.letGo());
            return new Answer.Open(
                    question,
                    open.way(),
                    Chokepoint.onFreeWays(situation, starts(question), open.way().newPart()),
                    open.letGo(),
                    open.cautions());
        }
        if (quick instanceof Answer.NoWay none && isOfTheNet(none.reason())) {
            return new Answer.NoWay(
                    question,
                    none.reason(),
                    none.detail(),
                    NearbySignals.of(this, question, progress),
                    none.letGo(),
                    none.cautions());
        }
        return quick;
    }

    /** Whether another net might fare better on the same pad. */
    private static boolean isOfTheNet(NoWayReason reason) {
        return reason != NoWayReason.INPUT_ONLY_PAD && reason != NoWayReason.NO_FITTING_SETTING;
    }

    private Answer explain(Answer.Blocked blocked, SearchLimits limits, Progress progress) {
        Question question = blocked.question();
        Situation situation = new Situation(question.design(), question.net(), blocked.letGo());
        Explanation explanation =
                new Explainer(
                                situation,
                                starts(question),
                                question.padValue(),
                                blocked.way().newPart(),
                                question.corner(),
                                search,
                                limits,
                                progress)
                        .explain();
        WayBuilder ways = new WayBuilder(question, situation);
        IntSet chokepoints = new IntOpenHashSet();
        explanation.chokepoints().forEach(c -> chokepoints.add(c.vertex()));
        List<WhyBlocked.Option> options = new ArrayList<>();
        for (Clearance clearance : explanation.clearances()) {
            Way way = ways.build(clearance.path(), blocked.letGo());
            options.add(
                    new WhyBlocked.Option(
                            clearance, way, ways.obstacles(clearance, way, chokepoints)));
        }
        return new Answer.Blocked(
                question,
                options.get(0).way(),
                options.get(0).obstacles(),
                blocked.letGo(),
                blocked.cautions(),
                Optional.of(new WhyBlocked(explanation, options)));
    }

    /** How a way to the question's pad is found under a cost model. */
    interface Finder {
        SearchOutcome find(Starts starts, CostModel model, Optional<LetGo> letGo);
    }

    /**
     * A question with what follows from it before any search.
     *
     * @param enabled whether nobody else has the pad's enable in hand
     */
    private record Posed(
            Question question,
            boolean enabled,
            Optional<LetGo> letGo,
            Situation situation,
            Starts starts,
            List<String> cautions) {
        static Posed of(Question question) {
            Pad pad = question.padValue();
            boolean there = question.net().route().placeOf(pad.vertex()) >= 0;
            Optional<LetGo> letGo =
                    there ? Optional.empty() : PortBranch.find(question.design(), question.pad());
            Situation situation = new Situation(question.design(), question.net(), letGo);
            return new Posed(
                    question,
                    there || Explainer.enableHolder(situation, pad) == Fabric.NOTHING,
                    letGo,
                    situation,
                    Asker.starts(question),
                    Cautions.of(question));
        }

        Answer.Open open(Path path) {
            Way way = new WayBuilder(question, situation).build(path, letGo);
            return new Answer.Open(question, way, List.of(), letGo, cautions);
        }

        Answer.Blocked blocked(Path path) {
            WayBuilder ways = new WayBuilder(question, situation);
            Way way = ways.build(path, letGo);
            List<Obstacle> obstacles = ways.obstacles(way);
            return new Answer.Blocked(question, way, obstacles, letGo, cautions, Optional.empty());
        }

        Answer.NoWay noWay(Reach reach) {
            return new Answer.NoWay(
                    question, reach.reason(), reach.detail(), List.of(), letGo, cautions);
        }
    }

    /** The answer, with the two searches done by a finder: over what is free first, then priced. */
    Answer answer(Question question, Finder finder, Progress progress) {
        checkFabric(question);
        Optional<NoWayReason> undrivable = undrivable(question);
        if (undrivable.isPresent()) {
            return new Answer.NoWay(
                    question,
                    undrivable.get(),
                    "",
                    List.of(),
                    Optional.empty(),
                    Cautions.of(question));
        }
        Posed posed = Posed.of(question);
        Optional<Path> free = accepted(posed, Situation::overFree, finder, progress);
        if (free.isPresent() && posed.enabled()) {
            return posed.open(free.get());
        }
        Optional<Path> path = free.or(() -> accepted(posed, Situation::atAPrice, finder, progress));
        if (path.isPresent()) {
            return posed.blocked(path.get());
        }
        Reach reach = Reach.of(question, posed.starts(), posed.situation().closed());
        return posed.noWay(reach);
    }

    /** The answer if it is Open, by one search over what is free; empty when it is another. */
    Optional<Answer.Open> ifOpen(Question question, Finder finder, Progress progress) {
        checkFabric(question);
        if (undrivable(question).isPresent()) {
            return Optional.empty();
        }
        Posed posed = Posed.of(question);
        return posed.enabled()
                ? accepted(posed, Situation::overFree, finder, progress).map(posed::open)
                : Optional.empty();
    }

    private void checkFabric(Question question) {
        if (question.design().fabric() != fabric) {
            throw new IllegalArgumentException("the question is about another fabric");
        }
    }

    /** Why a pad cannot be driven at all, whatever the ways. */
    private static Optional<NoWayReason> undrivable(Question question) {
        if (!question.padValue().directions().canDrive()) {
            return Optional.of(NoWayReason.INPUT_ONLY_PAD);
        }
        return DriverFit.of(question).isHopeless()
                ? Optional.of(NoWayReason.NO_FITTING_SETTING)
                : Optional.empty();
    }

    /** The first way by a finder; another one when that drives a second pad on its way. */
    private Optional<Path> accepted(
            Posed posed, Function<Situation, CostModel> model, Finder finder, Progress progress) {
        Situation situation = posed.situation();
        SearchOutcome outcome = finder.find(posed.starts(), model.apply(situation), posed.letGo());
        while (outcome instanceof SearchOutcome.Found f && situation.closePadsPassed(f.path())) {
            outcome = run(posed.question(), posed.starts(), model.apply(situation), progress);
        }
        return outcome instanceof SearchOutcome.Found found
                ? Optional.of(found.path())
                : Optional.empty();
    }

    /** The net's own tree, each vertex at the delay that the signal has there. */
    static Starts starts(Question question) {
        return Starts.along(question.design().fabric(), question.net().route(), question.corner());
    }

    private SearchOutcome run(
            Question question, Starts starts, CostModel model, Progress progress) {
        int goal = question.padValue().vertex();
        SearchOutcome outcome = ways.run(starts, goal, question.corner(), model, progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        return outcome;
    }
}
