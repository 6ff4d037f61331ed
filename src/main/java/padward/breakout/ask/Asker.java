package padward.breakout.ask;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Function;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Locks;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Port;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.route.cost.CostModel;
import padward.route.jgrapht.ReferenceSearch;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.RouteFinder;
import padward.route.search.SearchEngineKind;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.route.search.SwitchGroupSearch;
import padward.route.search.VertexPath;
import padward.unblock.Explainer;
import padward.unblock.UnblockExplanation;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.OwnNet;
import padward.unblock.release.PortBranch;
import padward.unblock.release.QuestionContext;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;
import padward.unblock.why.SearchLimits;

/**
 * Answers questions about one net. Two searches at the most: over what is free; then, if that
 * fails, over everything that could be removed, at a price.
 *
 * <p>One object keeps the search's state between questions and belongs to one thread.
 */
public final class Asker {
    private final Fabric fabric;
    private final PathSearch search;
    private final RouteFinder finder;

    /** The net of the last question. */
    private Optional<OwnNet> lastNet = Optional.empty();

    /** An asker for designs on one fabric. O(vertices). */
    public Asker(Fabric fabric, SearchEngineKind engine) {
        this.fabric = fabric;
        this.search = new PathSearch(fabric);
        this.finder = SwitchGroupSearch.over(fabric, finderOf(engine));
    }

    private RouteFinder finderOf(SearchEngineKind engine) {
        return switch (engine) {
            case OWN -> new PerimeterSearch(search);
            case REFERENCE -> ReferenceSearch.dijkstra(fabric);
            case REFERENCE_GUIDED -> ReferenceSearch.aStar(fabric);
        };
    }

    /** An asker that finds its routes by a search of the caller's. O(vertices). */
    public Asker(Fabric fabric, RouteFinder finder) {
        this.fabric = fabric;
        this.search = new PathSearch(fabric);
        this.finder = SwitchGroupSearch.over(fabric, finder);
    }

    /**
     * A net with what questions about it have in common: worked out once for all that come one
     * after the other.
     */
    public OwnNet own(Design design, Net net) {
        Optional<OwnNet> known = lastNet.filter(o -> o.design() == design && o.net() == net);
        OwnNet result = known.orElseGet(() -> OwnNet.of(design, net));
        lastNet = Optional.of(result);
        return result;
    }

    private OwnNet own(Question question) {
        return own(question.design(), question.net());
    }

    /**
     * The explained answer to one question, with the project's own search.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static Answer ask(Question question, Progress progress) {
        return new Asker(question.design().fabric(), SearchEngineKind.OWN)
                .explained(question, SearchLimits.USUAL, progress);
    }

    /**
     * The unexplained answer to one question: what it is, not all that could be said about it. A
     * blocked one names obstacles that would open a route, without proof that they are the fewest.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the question is about another fabric
     */
    public Answer answer(Question question, Progress progress) {
        return answer(
                question,
                (starts, model, disconnected) -> run(question, starts, model, progress),
                progress);
    }

    /**
     * The answer to one question with everything that can be said about it: for a blocked one, the
     * fewest obstacles with proof and consequences, and alternatives; for one without a route, the
     * nearest signals that have one.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the question is about another fabric
     */
    public Answer explained(Question question, SearchLimits limits, Progress progress) {
        Answer unexplained = answer(question, progress);
        if (unexplained instanceof Answer.Blocked blocked) {
            return explain(blocked, limits, progress);
        }
        if (unexplained instanceof Answer.FreeRoute free) {
            QuestionContext situation =
                    new QuestionContext(own(question), free.disconnected(), question.padValue());
            return free.explained(
                    Chokepoint.onFreeRoutes(
                            situation,
                            situation.own().starts(question.corner()),
                            free.route().newPart(),
                            progress));
        }
        if (unexplained instanceof Answer.NoRoute none && isOfTheNet(none.reason())) {
            return new Answer.NoRoute(
                    question,
                    none.reason(),
                    none.detail(),
                    NearbySignals.of(this, question, progress),
                    none.disconnected(),
                    none.cautions());
        }
        return unexplained;
    }

    /** Whether another net might fare better on the same pad. */
    private static boolean isOfTheNet(NoRouteReason reason) {
        return reason != NoRouteReason.INPUT_ONLY_PAD && reason != NoRouteReason.NO_FITTING_SETTING;
    }

    private Answer explain(Answer.Blocked blocked, SearchLimits limits, Progress progress) {
        Question question = blocked.question();
        QuestionContext situation =
                new QuestionContext(own(question), blocked.disconnected(), question.padValue());
        UnblockExplanation explanation =
                new Explainer(
                                situation,
                                situation.own().starts(question.corner()),
                                question.padValue(),
                                blocked.route().newPart(),
                                question.corner(),
                                search,
                                limits,
                                progress)
                        .explain();
        RouteBuilder routes = new RouteBuilder(question, situation);
        IntSet chokepoints = new IntOpenHashSet();
        explanation.chokepoints().forEach(c -> chokepoints.add(c.vertex()));
        List<WhyBlocked.Option> options = new ArrayList<>();
        for (UnblockOption option : explanation.options()) {
            Route route = routes.build(option.path(), blocked.route().proven());
            options.add(
                    new WhyBlocked.Option(
                            option, route, routes.obstacles(option, route, chokepoints)));
        }
        return new Answer.Blocked(
                question,
                options.get(0).route(),
                options.get(0).obstacles(),
                blocked.disconnected(),
                blocked.cautions(),
                Optional.of(new WhyBlocked(explanation, options)));
    }

    /** How a route to the question's pad is found under a cost model. */
    public interface Finder {
        SearchOutcome find(
                SearchSources starts, CostModel model, Optional<DisconnectedBranch> disconnected);
    }

    /**
     * A question with what follows from it before any search.
     *
     * @param enabled whether nobody else uses the pad's enable
     * @param loses the port that loses the pad
     */
    private record Posed(
            Question question,
            boolean enabled,
            Optional<Port> loses,
            Optional<DisconnectedBranch> disconnected,
            QuestionContext situation,
            SearchSources starts,
            List<Caution> cautions) {
        static Posed of(OwnNet own, Question question) {
            Pad pad = question.padValue();
            boolean there = question.isThere();
            Optional<DisconnectedBranch> disconnected =
                    there ? Optional.empty() : PortBranch.find(question.design(), question.pad());
            QuestionContext situation = new QuestionContext(own, disconnected, pad);
            return new Posed(
                    question,
                    there || situation.enableOccupant(pad) == Fabric.NOTHING,
                    question.losingPort(),
                    disconnected,
                    situation,
                    own.starts(question.corner()),
                    Cautions.of(question));
        }

        Answer.FreeRoute free(SearchOutcome.Found found) {
            Route route = new RouteBuilder(question, situation).build(found.path(), found.proven());
            return loses.isPresent()
                    ? new Answer.TakesPort(
                            question, route, List.of(), loses.get(), disconnected, cautions)
                    : new Answer.Open(question, route, List.of(), cautions);
        }

        Answer.Blocked blocked(VertexPath path, boolean proven) {
            RouteBuilder routes = new RouteBuilder(question, situation);
            Route route = routes.build(path, proven);
            List<Obstacle> obstacles = routes.obstacles(route);
            return new Answer.Blocked(
                    question, route, obstacles, disconnected, cautions, Optional.empty());
        }

        Answer.NoRoute noRoute(NoRouteDiagnosis reach) {
            return new Answer.NoRoute(
                    question,
                    reach.reason(),
                    reach.detail(),
                    List.of(),
                    disconnected,
                    Cautions.withoutRoute(cautions));
        }
    }

    /** The answer, with the two searches done by a finder: over what is free first, then priced. */
    public Answer answer(Question question, Finder finder, Progress progress) {
        checkFabric(question);
        Optional<NoRouteDiagnosis> undrivable = undrivable(question);
        if (undrivable.isPresent()) {
            return new Answer.NoRoute(
                    question,
                    undrivable.get().reason(),
                    undrivable.get().detail(),
                    List.of(),
                    Optional.empty(),
                    Cautions.withoutRoute(Cautions.of(question)));
        }
        Posed posed = Posed.of(own(question), question);
        SearchOutcome free = accepted(posed, QuestionContext::overFree, finder, progress);
        if (free instanceof SearchOutcome.Found found && posed.enabled()) {
            return posed.free(found);
        }
        SearchOutcome last =
                free instanceof SearchOutcome.Found
                        ? free
                        : accepted(posed, QuestionContext::atAPrice, finder, progress);
        if (last instanceof SearchOutcome.Found found) {
            boolean looked = !(free instanceof SearchOutcome.Unreachable none) || none.proven();
            return posed.blocked(found.path(), looked);
        }
        NoRouteDiagnosis reach =
                NoRouteDiagnosis.of(question, posed.starts(), posed.situation(), progress);
        if (last instanceof SearchOutcome.Unreachable none && !none.proven()) {
            String detail =
                    SwitchGroupSearch.MOST_SEARCHES + " routes were looked at; others may exist.";
            return posed.noRoute(new NoRouteDiagnosis(reach.reason(), detail));
        }
        return posed.noRoute(reach);
    }

    /** The answer if a route exists now, by this asker's own search. */
    public Optional<Answer.FreeRoute> ifFree(Question question, Progress progress) {
        return ifFree(
                question,
                (starts, model, disconnected) -> run(question, starts, model, progress),
                progress);
    }

    /**
     * Whether a net may come to a pad at all as things are, if there is a free route. No search.
     */
    public static boolean mayEnd(Question question) {
        return undrivable(question).isEmpty()
                && (question.isThere()
                        || QuestionContext.enableOccupant(
                                        question.design(), question.net(), question.padValue())
                                == Fabric.NOTHING);
    }

    /** The answer if a route exists now, by one search over what is free; else empty. */
    public Optional<Answer.FreeRoute> ifFree(Question question, Finder finder, Progress progress) {
        checkFabric(question);
        if (undrivable(question).isPresent()) {
            return Optional.empty();
        }
        Posed posed = Posed.of(own(question), question);
        return posed.enabled()
                        && accepted(posed, QuestionContext::overFree, finder, progress)
                                instanceof SearchOutcome.Found found
                ? Optional.of(posed.free(found))
                : Optional.empty();
    }

    private void checkFabric(Question question) {
        if (question.design().fabric() != fabric) {
            throw new IllegalArgumentException("the question is about another fabric");
        }
    }

    /** Why a pad cannot be driven at all, whatever the routes. */
    private static Optional<NoRouteDiagnosis> undrivable(Question question) {
        if (!question.padValue().directions().canDrive()) {
            return Optional.of(new NoRouteDiagnosis(NoRouteReason.INPUT_ONLY_PAD, ""));
        }
        if (DriverFit.of(question).hopeless()) {
            return Optional.of(new NoRouteDiagnosis(NoRouteReason.NO_FITTING_SETTING, ""));
        }
        boolean ownEnable =
                !question.isThere()
                        && QuestionContext.isEnabledByItself(
                                question.net(), question.design(), question.padValue());
        return ownEnable
                ? Optional.of(new NoRouteDiagnosis(NoRouteReason.OWN_DRIVER_ON_ENABLE, ""))
                : locked(question)
                        .map(why -> new NoRouteDiagnosis(NoRouteReason.LOCKED, why + "."));
    }

    /** What is locked, where a net cannot come to a pad because of that; as a clause. */
    private static Optional<String> locked(Question question) {
        Locks locks = question.design().locks();
        if (question.isThere() || locks.isEmpty()) {
            return Optional.empty();
        }
        Net net = question.net();
        if (net.lock() == NetLock.WHOLE) {
            return Optional.of("net " + net.name() + " is locked and takes no branch");
        }
        Optional<String> ofPort = question.losingPort().flatMap(locks::whyKept);
        int site = question.padValue().enableSite();
        if (ofPort.isPresent() || site == Fabric.NOTHING) {
            return ofPort;
        }
        return question.design()
                .occupancy()
                .findCellOn(site)
                .flatMap(locks::whyKept)
                .or(() -> lockedAt(question.design(), site));
    }

    /** The locked net that comes to a site, as a clause. */
    private static Optional<String> lockedAt(Design design, int site) {
        SiteView view = design.fabric().site(site);
        return IntStream.range(view.firstPin(), view.firstPin() + view.pins().size())
                .mapToObj(design.occupancy()::findNetOn)
                .flatMap(Optional::stream)
                .flatMap(n -> design.locks().whyKept(n).stream())
                .findFirst();
    }

    /** The first route by a finder; another one when that drives a second pad. */
    private SearchOutcome accepted(
            Posed posed,
            Function<QuestionContext, CostModel> model,
            Finder finder,
            Progress progress) {
        QuestionContext situation = posed.situation();
        SearchOutcome outcome =
                situation.isPadUsedOtherwise()
                        ? run(posed.question(), posed.starts(), model.apply(situation), progress)
                        : finder.find(posed.starts(), model.apply(situation), posed.disconnected());
        while (outcome instanceof SearchOutcome.Found f
                && (situation.closePadsPassed(f.path()) || situation.isClosedTo(f.path()))) {
            outcome = run(posed.question(), posed.starts(), model.apply(situation), progress);
        }
        return outcome;
    }

    /** The net's own tree, each vertex at the delay that the signal has there. */
    public static SearchSources starts(Question question) {
        return SearchSources.along(
                question.design().fabric(), question.net().route(), question.corner());
    }

    private SearchOutcome run(
            Question question, SearchSources starts, CostModel model, Progress progress) {
        int goal = question.padValue().vertex();
        SearchOutcome outcome = finder.find(starts, goal, question.corner(), model, progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        return outcome;
    }
}
