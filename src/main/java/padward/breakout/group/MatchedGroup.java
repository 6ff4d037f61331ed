package padward.breakout.group;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.breakout.ask.Route;
import padward.change.Edit;
import padward.change.WhatIf;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.route.search.DelayWindowSearch;
import padward.route.search.SearchSources;
import padward.timing.ExternalLine;
import padward.unblock.release.QuestionContext;

/**
 * A group whose ways were made to agree: the quick ones go by detours until all arrive, at each
 * corner, within a tolerance of the latest. Lines are laid anew one by one, the quickest first,
 * beside all others as they lie ({@link DelayWindowSearch}); where that fails, all are tried at a
 * later time. Pads stay as they are, and so does every line that is within the tolerance.
 *
 * <p>The skew that this brings down is that between lines at one corner: lines on one chip are fast
 * together and slow together. The spread of a single line between the corners no way can take away.
 *
 * @param before the group as it was
 * @param after the group with ways that agree, as far as it went
 * @param beforePs greatest skew at either corner before, at the instrument, ps
 * @param afterPs the same after
 * @param tolerancePs what was asked for, ps
 * @param misses the lines that are not within the tolerance of the latest, with the reason
 */
public record MatchedGroup(
        Bus before, Bus after, int beforePs, int afterPs, int tolerancePs, List<Miss> misses) {
    /** Copies the list. */
    public MatchedGroup {
        misses = List.copyOf(misses);
    }

    /**
     * A line that could not be matched.
     *
     * @param line the line, as it stays
     * @param proven whether it is proven that no way beside the others takes as long; else none was
     *     found in the stated effort
     */
    public record Miss(Bus.Line line, boolean proven) {}

    /** Whether all lines arrive within the tolerance, at both corners. */
    public boolean reached() {
        return afterPs <= tolerancePs;
    }

    /**
     * Matches a group's ways.
     *
     * @param design the design that the group was laid on
     * @param outside what lies between the pads and the instrument: lines agree there
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static MatchedGroup of(
            Design design, Bus bus, int tolerancePs, ExternalLine outside, Progress progress) {
        return new Matcher(design, bus, tolerancePs, outside, progress).run();
    }

/** Makes the ways of one group agree. One object does it once; it belongs to one thread. */
private static final class Matcher {
    /** How many times all lines are tried, each time later by the tolerance. */
    private static final int ATTEMPTS = 5;

    /** Labels for each pass of one search; a few tenths of a second. */
    private static final int LABELS = 60_000;

    private final Design freed;
    private final Bus bus;
    private final int tolerancePs;
    private final Progress progress;
    private final BitSet used;

    /** What each line passes after its pad's vertex: driver, trace, connector, lead. */
    private final List<Delay> beyond = new ArrayList<>();

    /** The best so far. */
    private List<Bus.Line> best;

    private List<Miss> misses = List.of();

    Matcher(Design design, Bus bus, int tolerancePs, ExternalLine outside, Progress progress) {
        this.bus = bus;
        this.tolerancePs = tolerancePs;
        this.progress = progress;
        this.freed = WhatIf.of(design, room(bus));
        this.used = BusRouting.closed(freed);
        this.best = bus.lines();
        for (Bus.Line line : bus.lines()) {
            Delay driver = line.route().total().less(line.route().toPadVertex());
            beyond.add(driver.plus(outside.delay(design, line.pad())));
        }
    }

    private static List<Edit> room(Bus bus) {
        return bus.edits().stream().filter(e -> !(e instanceof Edit.BreakOut)).toList();
    }

    MatchedGroup run() {
        int beforePs = skewPs(bus.lines());
        for (int attempt = 0; attempt < ATTEMPTS && skewPs(best) > tolerancePs; attempt++) {
            progress.report((double) attempt / ATTEMPTS, "matching, attempt " + (attempt + 1));
            attempt(attempt * tolerancePs);
        }
        int afterPs = skewPs(best);
        return new MatchedGroup(
                bus,
                afterPs < beforePs ? routed(best) : bus,
                beforePs,
                Math.min(afterPs, beforePs),
                tolerancePs,
                afterPs <= tolerancePs ? List.of() : misses);
    }

    /** Tries to have all lines arrive within the tolerance before the latest, or later still. */
    private void attempt(int laterPs) {
        List<Bus.Line> lines = new ArrayList<>(bus.lines());
        int fast = IntStream.range(0, lines.size()).map(i -> at(lines, i).fastPs()).max().orElse(0);
        int slow = IntStream.range(0, lines.size()).map(i -> at(lines, i).slowPs()).max().orElse(0);
        Delay most = new Delay(fast + laterPs, Math.max(fast, slow) + laterPs);
        List<Miss> missed = new ArrayList<>();
        List<Integer> order =
                IntStream.range(0, lines.size())
                        .boxed()
                        .sorted(Comparator.comparingInt(i -> at(lines, i).slowPs()))
                        .toList();
        for (int i : order) {
            Delay there = at(lines, i);
            boolean within =
                    there.fastPs() >= most.fastPs() - tolerancePs
                            && there.slowPs() >= most.slowPs() - tolerancePs;
            if (!within) {
                relay(lines, i, most, missed);
            }
        }
        if (skewPs(lines) < skewPs(best) || misses.isEmpty()) {
            misses = missed;
        }
        if (skewPs(lines) < skewPs(best)) {
            best = lines;
        }
    }

    private void relay(
            List<Bus.Line> lines, int index, Delay most, List<Miss> missed) {
        Bus.Line line = lines.get(index);
        Delay after = beyond.get(index);
        Net net = freed.findNet(line.net().name()).orElseThrow();
        Fabric fabric = freed.fabric();
        int fastMost = most.fastPs() - after.fastPs();
        int slowMost = most.slowPs() - after.slowPs();
        if (fastMost < 0 || slowMost < fastMost) {
            missed.add(new Miss(line, slowMost < 0 || fastMost < 0));
            return;
        }
        int fastLeast = Math.max(0, fastMost - tolerancePs);
        int slowLeast = Math.max(fastLeast, slowMost - tolerancePs);
        DelayWindowSearch.Outcome outcome =
                DelayWindowSearch.run(
                        fabric,
                        SearchSources.along(fabric, net.route(), Corner.FAST),
                        SearchSources.along(fabric, net.route(), Corner.SLOW),
                        fabric.pads().get(line.pad()).vertex(),
                        closedFor(lines, index, net),
                        new DelayWindowSearch.Window(
                                new Delay(fastLeast, slowLeast), new Delay(fastMost, slowMost)),
                        LABELS,
                        progress);
        Optional<Bus.Line> routed = Optional.empty();
        if (outcome.kind() == DelayWindowSearch.Kind.FOUND) {
            routed = BusRouting.line(freed, net, line.pad(), outcome.path());
        }
        // Loads can make a way slower than its edges add up to: what counts is what it takes.
        Optional<Bus.Line> fitting =
                routed.filter(l -> isWithin(l.route().total().less(driver(l)), fastMost, slowMost));
        if (fitting.isPresent()) {
            lines.set(index, fitting.get());
        } else {
            boolean proven =
                    outcome.kind() == DelayWindowSearch.Kind.PROVEN_NONE
                            && fabric.info().electrical().isUnknown();
            missed.add(new Miss(line, proven));
        }
    }

    private static Delay driver(Bus.Line line) {
        return line.route().total().less(line.route().toPadVertex());
    }

    private boolean isWithin(Delay toPad, int fastMost, int slowMost) {
        return toPad.fastPs() <= fastMost
                && toPad.slowPs() <= slowMost
                && toPad.fastPs() >= fastMost - tolerancePs
                && toPad.slowPs() >= slowMost - tolerancePs;
    }

    /** What a line's new way may not enter: what is held, and all other lines. */
    private BitSet closedFor(List<Bus.Line> lines, int index, Net net) {
        BitSet closed = (BitSet) used.clone();
        for (int i = 0; i < lines.size(); i++) {
            if (i != index) {
                close(closed, lines.get(i).route());
            }
        }
        QuestionContext situation = new QuestionContext(freed, net, Optional.empty());
        situation.closedVertices().forEach(closed::set);
        return closed;
    }

    /** Closes a way, and all pins of the sites that it goes through. */
    private void close(BitSet closed, Route route) {
        Fabric fabric = freed.fabric();
        for (int i = route.branchHop() + 1; i < route.hops().size(); i++) {
            int vertex = route.hops().get(i).vertex();
            closed.set(vertex);
            int site = fabric.siteOf(vertex);
            if (site != Fabric.NOTHING) {
                SiteView view = fabric.site(site);
                closed.set(view.firstPin(), view.firstPin() + view.pins().size());
            }
        }
    }

    private Delay at(List<Bus.Line> lines, int index) {
        return lines.get(index).route().toPadVertex().plus(beyond.get(index));
    }

    /** Greatest skew at one corner, of both. */
    private int skewPs(List<Bus.Line> lines) {
        int result = 0;
        for (Corner corner : Corner.values()) {
            int least = Integer.MAX_VALUE;
            int most = Integer.MIN_VALUE;
            for (int i = 0; i < lines.size(); i++) {
                least = Math.min(least, at(lines, i).at(corner));
                most = Math.max(most, at(lines, i).at(corner));
            }
            result = Math.max(result, lines.isEmpty() ? 0 : most - least);
        }
        return result;
    }

    private Bus routed(List<Bus.Line> lines) {
        List<Edit> edits = new ArrayList<>(room(bus));
        Design now = freed;
        for (Bus.Line line : lines) {
            Edit edit = line.breakOut(now);
            now = WhatIf.of(now, List.of(edit));
            edits.add(edit);
        }
        return new Bus(lines, bus.left(), edits, bus.alonePs());
    }
}
}
