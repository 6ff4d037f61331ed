package padward.watch.place;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.NoRouteReason;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Question;
import padward.breakout.text.AnswerText;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.timing.SinkDelayChange;
import padward.unblock.release.PortBranch;
import padward.watch.circuit.CircuitElement;

/**
 * Places and routes a watch circuit on what a design leaves unused. Cells go to free sites near the
 * nets and the pad; nets of the design get branches. Where nothing may be moved, nets keep every
 * wire and nothing else changes, but for the port that loses the pad, if there is one.
 * Deterministic. One object serves one question, in one thread.
 */
public final class WatchPlacer {
    /** Layouts that are tried before it is looked at closely why they fail. */
    private static final int TRIED_FIRST = 2;

    /** Layouts tried of a small circuit; each several times, with other pins. */
    private static final int MOST_LAYOUTS = 160;

    /** The same where other nets may be moved, which takes longer. */
    private static final int MOST_MOVING = 24;

    private static final int MOST_ANNEALED = 10;

    /** Times that a layout is tried with drawn pins; more often where there are few layouts. */
    private static final int DRAWN = 2;

    private static final int DRAWN_OF_FEW = 48;

    private static final long SEED = 42;

    private final WatchQuestion question;
    private final Design design;
    private final Fabric fabric;
    private final Connections connections;
    private final UnusedResources unused;
    private final int[] pads;
    private final LayoutRouter router;
    private final CircuitPinChoice pins;
    private final Asker asker;
    private final Progress progress;
    private final boolean moving;
    private final RoomMaker room;
    private final PadRoom padRoom;
    private int layoutsTried;

    /** Whether no port loses its pad to the circuit. */
    private boolean nothingFreed;

    /** Those that were tried, each once: the first ones are tried a second time. */
    private final Set<List<FreeSite>> distinctTried = new HashSet<>();

    /** What stands against sites, by their outputs: elements of a sort share their sites. */
    private final Int2IntOpenHashMap awkward = new Int2IntOpenHashMap();

    /** Whether a pad has no route on an empty fabric either. */
    private boolean noRouteAtAll;

    /** The last answer about a pad that was not a free route. */
    private Optional<Answer> padAnswer = Optional.empty();

    private WatchPlacer(WatchQuestion question, boolean moving, Progress progress) {
        this.question = question;
        this.progress = progress;
        this.design = question.design();
        this.fabric = design.fabric();
        this.connections = Connections.of(question.circuit(), design);
        this.moving = moving;
        this.unused =
                new UnusedResources(
                        design,
                        moving ? MovableWires.of(design, connections) : MovableWires.none());
        this.room = new RoomMaker(unused);
        this.pads = question.pads().stream().mapToInt(p -> p).toArray();
        this.router = new LayoutRouter(connections, unused, pads);
        this.pins = new CircuitPinChoice(unused);
        this.asker = new Asker(fabric, SearchEngineKind.OWN);
        this.padRoom = new PadRoom(asker, design, connections);
    }

    /**
     * Places a circuit.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the design lacks a net or pad that the circuit names
     */
    public static WatchResult place(WatchQuestion question, Progress progress) {
        WatchPlacer placer = new WatchPlacer(question, false, progress);
        WatchResult result = placer.run();
        if (!(result instanceof WatchResult.DoesNotFit not) || !question.mayMove()) {
            return result;
        }
        WatchResult moved = placeMoving(question, progress);
        return moved instanceof WatchResult.DoesNotFit notMoving
                ? placer.withMovesToo(not, notMoving)
                : moved;
    }

    /** What is said where moves were looked for as well: a proof must hold with them too. */
    private WatchResult withMovesToo(WatchResult.DoesNotFit not, WatchResult.DoesNotFit moving) {
        return !not.proven() || moving.proven() || noRouteAtAll
                ? not
                : new WatchResult.DoesNotFit(
                        question,
                        not.reason(),
                        not.text() + " No moves were found that make room.",
                        false);
    }

    /**
     * Places a circuit with other nets and cells moved, whatever the question says of that, and
     * without looking first whether it fits as they are: for a question that was answered with no.
     * What it finds may do without moves after all, because it tries other layouts.
     *
     * @throws CancellationException when {@code progress} says so
     * @throws IllegalArgumentException when the design lacks a net or pad that the circuit names
     */
    public static WatchResult placeMoving(WatchQuestion question, Progress progress) {
        return new WatchPlacer(question, true, progress).run();
    }

    private WatchResult run() {
        List<IntSet> freed = freedAtPads();
        nothingFreed = freed.stream().allMatch(IntSet::isEmpty);
        progress.check();
        CandidateSites candidateSites =
                new CandidateSites(connections, unused, freed, pads, progress);
        question.lastAtPad().ifPresent(candidateSites::setLast);
        // What blocks a pad may be movable as well.
        Optional<WatchResult> hopeless =
                hopeless(moving ? candidateSites.ofClocks() : candidateSites.ofClocksAndPads());
        if (hopeless.isPresent()) {
            return hopeless.get();
        }
        Optional<WatchResult> placed = search(candidateSites.freeSites(), TRIED_FIRST);
        if (placed.isPresent()) {
            return placed.get();
        }
        hopeless = hopeless(candidateSites.ofAllNets());
        if (hopeless.isPresent()) {
            return hopeless.get();
        }
        return search(candidateSites.freeSites(), moving ? MOST_MOVING : MOST_LAYOUTS)
                .orElseGet(this::notTogether);
    }

    /** By output, what becomes free when its pad's port is disconnected. */
    private List<IntSet> freedAtPads() {
        return question.pads().stream()
                .map(p -> PortBranch.find(design, p))
                .map(b -> b.map(x -> x.allVertices()).orElse(IntSet.of()))
                .toList();
    }

    private Optional<WatchResult> hopeless(Optional<CandidateSites.Fault> fault) {
        return fault.map(
                f -> {
                    boolean pad = f.reason() == WatchResult.Reason.PAD_BLOCKED;
                    // What a port gives back with its pad counts for the route to the pad only.
                    return new WatchResult.DoesNotFit(
                            question,
                            f.reason(),
                            pad ? whyBlocked(f) : f.text(),
                            pad || nothingFreed);
                });
    }

    /** What is in the way of any net that comes to the pad: asked of a net that is there. */
    private String whyBlocked(CandidateSites.Fault fault) {
        int pad = pads[fault.output()];
        noRouteAtAll = !fabric.pads().get(pad).directions().canDrive();
        for (Source source : connections.sources()) {
            if (source instanceof Source.OfNet of) {
                Answer answer =
                        asker.answer(
                                new Question(design, of.net(), pad, Corner.SLOW, question.driver()),
                                progress);
                boolean never = answer instanceof Answer.NoRoute no && isOfThePad(no.reason());
                noRouteAtAll |= never;
                if (never || answer instanceof Answer.Blocked) {
                    return textOf(answer);
                }
            }
        }
        return fault.text();
    }

    /**
     * Whether it keeps every net from the pad. The others are about the net that was asked about,
     * such as a clock that stays on its own wires, and say nothing of what the circuit drives.
     */
    private static boolean isOfThePad(NoRouteReason reason) {
        return switch (reason) {
            case INPUT_ONLY_PAD, NO_FITTING_SETTING, NOTHING_LEADS_TO_PAD -> true;
            case OWN_DRIVER_ON_ENABLE,
                    LOCKED,
                    UNUSABLE_ON_ROUTE,
                    NEVER_LEAVES_ITS_SITE,
                    CLOCK_WIRES_ONLY,
                    DEDICATED_WIRES,
                    PAD_OUT_OF_REACH,
                    OWN_PASS_THROUGH,
                    SWITCHES_EXCLUDE ->
                    false;
        };
    }

    private static String textOf(Answer answer) {
        if (!(answer instanceof Answer.Blocked blocked)) {
            String why = AnswerText.explanation(answer);
            return Character.toUpperCase(why.charAt(0)) + why.substring(1);
        }
        String text = AnswerText.padText(answer.question());
        return Character.toUpperCase(text.charAt(0))
                + text.substring(1)
                + " is blocked: "
                + blocked.obstacles().stream()
                        .map(AnswerText::obstacle)
                        .collect(Collectors.joining("; "))
                + ".";
    }

    private Optional<WatchResult> search(List<List<FreeSite>> sites, int most) {
        LayoutSearch search =
                new LayoutSearch(
                        new Estimate(connections, new Distances(connections, fabric, pads)),
                        sites,
                        this::against);
        boolean small = connections.elements() <= LayoutSearch.MOST_TRIED_WHOLE;
        if (small) {
            List<Layout> layouts = search.best(progress);
            for (Layout layout : layouts.subList(0, Math.min(most, layouts.size()))) {
                Optional<WatchResult> placed = tried(layout, layouts.size());
                if (placed.isPresent()) {
                    return placed;
                }
            }
            return Optional.empty();
        }
        Set<List<FreeSite>> known = new HashSet<>();
        for (int i = 0; i < Math.min(most, MOST_ANNEALED); i++) {
            Optional<Layout> layout = search.annealed(SEED + i, progress);
            if (layout.isPresent() && known.add(layout.get().sites())) {
                Optional<WatchResult> placed = tried(layout.get(), MOST_ANNEALED);
                if (placed.isPresent()) {
                    return placed;
                }
            }
        }
        return Optional.empty();
    }

    private int against(FreeSite site) {
        return awkward.computeIfAbsent(site.outVertex(), v -> calculatedAgainst(site));
    }

    private int calculatedAgainst(FreeSite site) {
        progress.check();
        int inputs =
                connections.circuit().elements().stream()
                        .filter(e -> e instanceof CircuitElement.Table == isTable(site))
                        .mapToInt(e -> e.inputs().size())
                        .max()
                        .orElse(1);
        return pins.against(site, inputs);
    }

    private static boolean isTable(FreeSite site) {
        return site.clockVertex() == Fabric.NOTHING;
    }

    /** A layout with the easiest pins, then with drawn ones. */
    private Optional<WatchResult> tried(Layout layout, int of) {
        layoutsTried++;
        distinctTried.add(layout.sites());
        progress.report(Math.min(1.0, (double) layoutsTried / of), "layout " + layoutsTried);
        Random random = new Random(SEED);
        int draws = Math.max(DRAWN, layoutsTried <= TRIED_FIRST ? 0 : DRAWN_OF_FEW / of);
        for (int i = 0; i <= draws; i++) {
            progress.check();
            List<int[]> inputs = new ArrayList<>();
            for (int e = 0; e < connections.elements(); e++) {
                FreeSite site = layout.sites().get(e);
                int count = connections.inputs(e).length;
                inputs.add(i == 0 ? pins.easiest(site, count) : pins.drawn(site, count, random));
            }
            Optional<WatchResult> placed = tried(layout, inputs, false);
            boolean padFailed = placed.isEmpty() && padAnswer.isPresent();
            if (padFailed) {
                placed = tried(layout, inputs, true);
            }
            if (placed.isPresent()) {
                return placed;
            }
        }
        return Optional.empty();
    }

    private Optional<WatchResult> tried(Layout layout, List<int[]> inputs, boolean toPads) {
        LayoutRouter.Passing first = LayoutRouter.Passing.IO_SITES;
        Optional<WatchResult> placed =
                router.route(layout, inputs, toPads, first, progress).flatMap(this::finished);
        if (placed.isPresent()) {
            return placed;
        }
        LayoutRouter.Passing last = LayoutRouter.Passing.ALL_SITES;
        return layoutsTried <= TRIED_FIRST
                ? placed
                : router.route(layout, inputs, toPads, last, progress).flatMap(this::finished);
    }

    /** Brings the outputs out; empty when that cannot be done with this wiring. */
    private Optional<WatchResult> finished(Wiring wiring) {
        WatchEdits names = new WatchEdits(connections, design, wiring);
        List<Edit> edits = new ArrayList<>();
        if (moving) {
            Optional<List<Edit>> made = room.roomFor(wiring, progress);
            if (made.isEmpty()) {
                return Optional.empty();
            }
            edits.addAll(made.get());
        }
        edits.addAll(names.all());
        Design now = design;
        if (!edits.isEmpty()) {
            if (!(Outcome.of(design, edits) instanceof Outcome.Applied inside)) {
                return Optional.empty();
            }
            now = inside.design();
        }
        List<WatchResult.Leg> legs = new ArrayList<>();
        for (int o = 0; o < pads.length; o++) {
            Net net = now.findNet(netOf(connections.outputs()[o], names, now)).orElseThrow();
            Question leg = new Question(now, net, pads[o], Corner.SLOW, question.driver());
            Answer answer = asker.answer(leg, progress);
            if (moving && answer instanceof Answer.Blocked) {
                List<Edit> moves = padRoom.movesFor(leg, progress);
                if (Outcome.of(now, moves) instanceof Outcome.Applied applied) {
                    edits.addAll(moves);
                    now = applied.design();
                    net = now.findNet(net.name()).orElseThrow();
                    leg = new Question(now, net, pads[o], Corner.SLOW, question.driver());
                    answer = asker.answer(leg, progress);
                }
            }
            if (!(answer instanceof Answer.FreeRoute free)) {
                padAnswer = Optional.of(answer);
                return Optional.empty();
            }
            List<Edit> out = AnswerEdits.of(free);
            if (!(Outcome.of(now, out) instanceof Outcome.Applied applied)) {
                return Optional.empty();
            }
            edits.addAll(out);
            now = applied.design();
            legs.add(new WatchResult.Leg(connections.circuit().outputs().get(o).name(), free));
        }
        progress.check();
        if (!(Outcome.of(design, edits) instanceof Outcome.Applied whole)) {
            return Optional.empty();
        }
        progress.check();
        List<WatchResult.PlacedCell> cells = new ArrayList<>();
        for (int e = 0; e < connections.elements(); e++) {
            FreeSite site = wiring.layout().sites().get(e);
            cells.add(
                    new WatchResult.PlacedCell(
                            e, names.nameOf(e), site.kind(), site.site().name()));
        }
        Design after = whole.design();
        WatchTiming timing = new Arrivals(connections, wiring, names, design, after, legs).timing();
        progress.check();
        List<SinkDelayChange> changes =
                SinkDelayChange.between(design, after).stream()
                        .filter(c -> !c.before().equals(c.after()))
                        .toList();
        progress.check();
        return Optional.of(
                new WatchResult.Placed(question, edits, after, cells, legs, timing, changes));
    }

    private String netOf(int source, WatchEdits names, Design now) {
        Source from = connections.sources().get(source);
        if (from instanceof Source.OfNet of) {
            return of.net().name();
        }
        if (from instanceof Source.OfElement of) {
            return names.nameOf(of.element());
        }
        int vertex = fabric.pads().get(((Source.OfPad) from).pad()).vertex();
        return now.occupancy().findNetOn(vertex).orElseThrow().name();
    }

    private WatchResult notTogether() {
        int count = distinctTried.size();
        String tried = count + (count == 1 ? " layout was" : " layouts were") + " tried.";
        if (padAnswer.isPresent() && !isOwnDoing(padAnswer.get())) {
            return new WatchResult.DoesNotFit(
                    question,
                    WatchResult.Reason.PAD_BLOCKED,
                    textOf(padAnswer.get()) + " " + tried,
                    false);
        }
        return new WatchResult.DoesNotFit(
                question,
                WatchResult.Reason.NOT_TOGETHER,
                "No layout was found in which all nets have their routes together; " + tried,
                false);
    }

    /** Whether what blocks the pad is part of the circuit as it was tried, and in no design. */
    private boolean isOwnDoing(Answer answer) {
        return answer instanceof Answer.Blocked blocked
                && blocked.obstacles().stream()
                        .map(Obstacle::occupant)
                        .anyMatch(
                                o ->
                                        o instanceof Occupant.ByCell
                                                ? design.findCell(o.name()).isEmpty()
                                                : design.findNet(o.name()).isEmpty());
    }
}
