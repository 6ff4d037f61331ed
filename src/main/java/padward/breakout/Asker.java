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
import padward.design.Net;
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

    /** The answer, with the two searches done by a finder: over what is free first, then priced. */
    Answer answer(Question question, Finder finder, Progress progress) {
        if (question.design().fabric() != fabric) {
            throw new IllegalArgumentException("the question is about another fabric");
        }
        Pad pad = question.padValue();
        List<String> cautions = Cautions.of(question);
        boolean inputOnly = !pad.directions().canDrive();
        if (inputOnly || DriverFit.of(question).isHopeless()) {
            return new Answer.NoWay(
                    question,
                    inputOnly ? NoWayReason.INPUT_ONLY_PAD : NoWayReason.NO_FITTING_SETTING,
                    "",
                    List.of(),
                    Optional.empty(),
                    cautions);
        }
        Net net = question.net();
        boolean alreadyThere = net.route().placeOf(pad.vertex()) >= 0;
        Optional<LetGo> letGo =
                alreadyThere
                        ? Optional.empty()
                        : PortBranch.find(question.design(), question.pad());
        Situation situation = new Situation(question.design(), net, letGo);
        WayBuilder ways = new WayBuilder(question, situation);
        Starts starts = starts(question);
        boolean enabled = alreadyThere || Explainer.enableHolder(situation, pad) == Fabric.NOTHING;

        Optional<Path> path =
                accepted(question, starts, situation, Situation::overFree, finder, progress);
        boolean open = path.isPresent() && enabled;
        if (path.isEmpty()) {
            path = accepted(question, starts, situation, Situation::atAPrice, finder, progress);
        }
        if (path.isPresent()) {
            Way way = ways.build(path.get(), letGo);
            return open
                    ? new Answer.Open(question, way, List.of(), letGo, cautions)
                    : new Answer.Blocked(
                            question, way, ways.obstacles(way), letGo, cautions, Optional.empty());
        }
        Reach reach = Reach.of(question, starts, situation.closed());
        return new Answer.NoWay(
                question, reach.reason(), reach.detail(), List.of(), letGo, cautions);
    }

    /** The first way by a finder; another one when that drives a second pad on its way. */
    private Optional<Path> accepted(
            Question question,
            Starts starts,
            Situation situation,
            Function<Situation, CostModel> model,
            Finder finder,
            Progress progress) {
        SearchOutcome outcome = finder.find(starts, model.apply(situation), situation.letGo());
        while (outcome instanceof SearchOutcome.Found f && situation.closePadsPassed(f.path())) {
            outcome = run(question, starts, model.apply(situation), progress);
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
