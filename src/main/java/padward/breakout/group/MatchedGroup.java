package padward.breakout.group;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Route;
import padward.breakout.ask.WantedDriver;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.search.DelayWindowSearch;
import padward.route.search.SearchSources;
import padward.timing.ExternalLineDelay;
import padward.unblock.release.QuestionContext;

/**
 * A group with matched delays: short routes take detours until all signals arrive, at each corner,
 * within a tolerance of the latest. Lines are rerouted one by one, the shortest delay first,
 * together with all others as they are ({@link DelayWindowSearch}); where that fails, all are tried
 * with a later arrival. Pads do not change, nor does a line that is within the tolerance.
 *
 * <p>This reduces the skew between lines at one corner: lines on one chip are fast together and
 * slow together. No route can reduce the spread of a single line between the corners.
 *
 * @param before the group before matching
 * @param after the group with delays matched as far as possible
 * @param beforePs greatest skew at either corner before, at the instrument, outside parts as
 *     stated, ps
 * @param afterPs the same after
 * @param tolerancePs the requested tolerance, ps
 * @param uncertainPs how uncertain the skew of two of the lines is at most, either way, ps
 * @param misses the lines that are not within the tolerance of the latest
 */
public record MatchedGroup(
        Bus before,
        Bus after,
        int beforePs,
        int afterPs,
        int tolerancePs,
        int uncertainPs,
        List<Miss> misses) {
    /** Copies the list. */
    public MatchedGroup {
        misses = List.copyOf(misses);
    }

    /**
     * A line that could not be matched.
     *
     * @param line the line, unchanged
     * @param proven whether it is proven that no route with the required delay exists together with
     *     the others; otherwise none was found within the search limits
     */
    public record Miss(Bus.Line line, boolean proven) {}

    /** Whether the tolerance is finer than what is known of the lines. */
    public boolean isFinerThanKnown() {
        return uncertainPs > tolerancePs;
    }

    /** Whether all lines arrive within the tolerance, at both corners. */
    public boolean reached() {
        return afterPs <= tolerancePs;
    }

    /**
     * The same with what has been proven since about the number of its nets, which matching does
     * not change.
     *
     * @param explained the group after matching, with that
     */
    public MatchedGroup explained(Bus explained) {
        return new MatchedGroup(
                explained.proof().map(before::proven).orElse(before),
                explained,
                beforePs,
                afterPs,
                tolerancePs,
                uncertainPs,
                misses);
    }

    /**
     * Matches the delays of a group.
     *
     * @param design the design that the group was routed on
     * @param external what is between the pads and the instrument, where the delays are matched
     * @param localPercent by how much two routes of the same delay can differ on one die
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static MatchedGroup of(
            Design design,
            Bus bus,
            int tolerancePs,
            ExternalLineDelay external,
            double localPercent,
            Progress progress) {
        return new Matcher(design, bus, tolerancePs, external, localPercent, progress).run();
    }

    /** Matches one group, once. Not thread-safe. */
    private static final class Matcher {
        /** Number of attempts with all lines, each later by the tolerance. */
        private static final int ATTEMPTS = 5;

        /** Maximum labels per pass of one search: a few tenths of a second. */
        private static final int LABELS = 60_000;

        private final Design start;
        private final Bus bus;
        private final int tolerancePs;
        private final ExternalLineDelay external;
        private final double localPercent;
        private final Progress progress;
        private final BitSet used;

        /** Delay of each line after its pad's vertex, outside parts as stated. */
        private final List<Delay> beyond = new ArrayList<>();

        /** The best lines so far. */
        private List<Bus.Line> best;

        private List<Miss> misses = List.of();

        Matcher(
                Design design,
                Bus bus,
                int tolerancePs,
                ExternalLineDelay external,
                double localPercent,
                Progress progress) {
            this.external = external;
            this.localPercent = localPercent;
            this.bus = bus;
            this.tolerancePs = tolerancePs;
            this.progress = progress;
            this.start = Outcome.apply(design, removals(bus));
            this.used = BusRouting.closed(start);
            this.best = bus.lines();
            for (Bus.Line line : bus.lines()) {
                beyond.add(line.output(design, external).after(Delay.ZERO).nominal());
            }
        }

        private static List<Edit> removals(Bus bus) {
            return bus.edits().stream().filter(e -> !AnswerEdits.bringsOut(e)).toList();
        }

        MatchedGroup run() {
            int beforePs = skewPs(bus.lines());
            for (int attempt = 0; attempt < ATTEMPTS && skewPs(best) > tolerancePs; attempt++) {
                progress.report((double) attempt / ATTEMPTS, "matching, attempt " + (attempt + 1));
                attempt(attempt * tolerancePs);
            }
            int afterPs = skewPs(best);
            Bus after = afterPs < beforePs ? routed(best) : bus;
            int uncertainPs =
                    after.skews(start, external, localPercent).stream()
                            .mapToInt(s -> s.skew().uncertainPs())
                            .max()
                            .orElse(0);
            return new MatchedGroup(
                    bus,
                    after,
                    beforePs,
                    Math.min(afterPs, beforePs),
                    tolerancePs,
                    uncertainPs,
                    afterPs <= tolerancePs ? List.of() : misses);
        }

        /** Tries to make all lines arrive within the tolerance before the latest, plus a delay. */
        private void attempt(int laterPs) {
            List<Bus.Line> lines = new ArrayList<>(bus.lines());
            int fast =
                    IntStream.range(0, lines.size())
                            .map(i -> at(lines, i).fastPs())
                            .max()
                            .orElse(0);
            int slow =
                    IntStream.range(0, lines.size())
                            .map(i -> at(lines, i).slowPs())
                            .max()
                            .orElse(0);
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
                    reroute(lines, i, most, missed);
                }
            }
            if (skewPs(lines) < skewPs(best) || misses.isEmpty()) {
                misses = missed;
            }
            if (skewPs(lines) < skewPs(best)) {
                best = lines;
            }
        }

        private void reroute(List<Bus.Line> lines, int index, Delay most, List<Miss> missed) {
            Bus.Line line = lines.get(index);
            Delay after = beyond.get(index);
            Net net = start.findNet(line.net().name()).orElseThrow();
            Fabric fabric = start.fabric();
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
                routed =
                        BusRouting.line(
                                start,
                                net,
                                line.pad(),
                                line.route()
                                        .setting()
                                        .map(s -> WantedDriver.of(s.name()))
                                        .orElse(WantedDriver.NONE),
                                line.standing(),
                                outcome.path());
            }
            // Loads can make a route slower than the sum of its edges: its total counts.
            Optional<Bus.Line> fitting =
                    routed.filter(l -> isWithin(l.toPad(), fastMost, slowMost));
            if (fitting.isPresent()) {
                lines.set(index, fitting.get());
            } else {
                boolean proven =
                        outcome.kind() == DelayWindowSearch.Kind.PROVEN_NONE
                                && fabric.info().electrical().isUnknown();
                missed.add(new Miss(line, proven));
            }
        }

        private boolean isWithin(Delay toPad, int fastMost, int slowMost) {
            return toPad.fastPs() <= fastMost
                    && toPad.slowPs() <= slowMost
                    && toPad.fastPs() >= fastMost - tolerancePs
                    && toPad.slowPs() >= slowMost - tolerancePs;
        }

        /** What a line's new route may not enter: used vertices, and all other lines. */
        private BitSet closedFor(List<Bus.Line> lines, int index, Net net) {
            BitSet closed = (BitSet) used.clone();
            for (int i = 0; i < lines.size(); i++) {
                if (i != index) {
                    close(closed, lines.get(i).route());
                }
            }
            QuestionContext context = new QuestionContext(start, net, Optional.empty());
            context.closedVertices().forEach(closed::set);
            return closed;
        }

        /** Closes a route, and all pins of the sites that it goes through. */
        private void close(BitSet closed, Route route) {
            Fabric fabric = start.fabric();
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

        /** Greatest skew at either corner, ps. */
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
            List<Edit> edits = new ArrayList<>(removals(bus));
            Design now = start;
            for (Bus.Line line : lines) {
                List<Edit> out = line.breakOut(now);
                now = Outcome.apply(now, out);
                edits.addAll(out);
            }
            return new Bus(lines, bus.left(), edits, bus.alonePs(), bus.proof(), bus.bound());
        }
    }
}
