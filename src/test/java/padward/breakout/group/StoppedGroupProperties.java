package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Pad;
import padward.route.flow.FlowReferee;
import padward.synth.DesignMaker;

/**
 * Groups that are stopped at each of the calls that ask whether to stop: what they have so far can
 * be applied, its routes are disjoint, and the number that can be served at the most is not less
 * than what JGraphT's maximum flow finds on a graph built here.
 */
class StoppedGroupProperties {
    private int stops;
    private int partly;
    private int undecided;
    private int already;

    @Test
    void whatThereIsSoFarHoldsWheneverItIsStopped() {
        check(0, 8, 40);
        // One of its nets is on one of the pads already, so there is no route to count.
        check(28, 29, 40);
        // What is known where it is stopped does not decide how many can be served.
        check(14, 15, 40);
        assertThat(already).isPositive();
        assertThat(stops).isGreaterThan(100);
        assertThat(partly).isPositive();
        assertThat(undecided).isPositive();
    }

    @Test
    @Tag("slow")
    void whateverTheCall() {
        check(8, 100, 400);
    }

    /** Stops at so many of the calls of each group, evenly spread, the first among them. */
    private void check(int from, int to, int mostStops) {
        for (int seed = from; seed < to; seed++) {
            Random random = new Random(seed);
            Design design =
                    DesignMaker.make(2_000, seed / 4, 0.5 + 0.4 * (seed % 2), Progress.NONE)
                            .design();
            List<Net> nets =
                    random.ints(0, design.nets().size())
                            .distinct()
                            .limit(4 + random.nextInt(8))
                            .mapToObj(design.nets()::get)
                            .toList();
            List<Integer> pads =
                    random.ints(0, design.fabric().pads().size())
                            .distinct()
                            .limit(4 + random.nextInt(12))
                            .sorted()
                            .boxed()
                            .toList();
            Bus.Ports ports = seed % 3 == 2 ? Bus.Ports.MAY_DISCONNECT : Bus.Ports.KEEP;
            Bus.Aim aim = seed % 5 == 4 ? Bus.Aim.SKEW : Bus.Aim.MOST;
            Calls all = new Calls(Integer.MAX_VALUE);
            Bus whole = route(design, nets, pads, aim, ports, all);
            assertThat(whole.isStopped()).isFalse();
            whole.bound().ifPresent(b -> assertThat(b.atMost()).isGreaterThanOrEqualTo(b.served()));
            List<Net> there = nets.stream().filter(n -> isOnAny(design, n, pads)).toList();
            List<Net> toServe = nets.stream().filter(n -> !there.contains(n)).toList();
            assertThat(whole.lines())
                    .as("seed %d", seed)
                    .noneMatch(line -> there.contains(line.net()));
            already += there.size();
            int most =
                    ports == Bus.Ports.KEEP ? judged(design, toServe, pads) : whole.lines().size();
            if (whole.proof().isPresent()) {
                assertThat(whole.lines()).as("seed %d", seed).hasSize(most);
            }
            int step = Math.max(1, all.made / mostStops);
            for (int call = 0; call < all.made; call += step) {
                String what = "seed " + seed + ", stopped at call " + call;
                Bus bus = route(design, nets, pads, aim, ports, new Calls(call));
                checkLegal(design, bus, nets, what);
                if (bus.isStopped()) {
                    checkKnown(bus, most, what);
                } else {
                    assertThat(bus.lines()).as(what).hasSize(whole.lines().size());
                    assertThat(bus.totalPs()).as(what).isEqualTo(whole.totalPs());
                }
                stops++;
            }
        }
    }

    /** Whether a net is on one of the pads already, and needs no route to another. */
    private static boolean isOnAny(Design design, Net net, List<Integer> pads) {
        List<Integer> vertices =
                pads.stream().map(p -> design.fabric().pads().get(p).vertex()).toList();
        return IntStream.range(0, net.route().size())
                .map(net.route()::vertex)
                .anyMatch(vertices::contains);
    }

    private static Bus route(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            Progress progress) {
        return RouteMatrix.unsearched(design, nets, pads, aim, ports, WantedDriver.NONE)
                .routeOrSoFar(progress);
    }

    private void checkKnown(Bus bus, int most, String what) {
        Bus.Bound known = bus.bound().orElseThrow();
        assertThat(bus.proof()).as(what).isEmpty();
        assertThat(known.served()).as(what).isEqualTo(bus.lines().size());
        long there =
                bus.left().stream().filter(l -> l.reason().startsWith("it is already on")).count();
        assertThat(known.of()).as(what).isEqualTo(bus.lines().size() + bus.left().size() - there);
        assertThat(known.atMost()).as(what).isGreaterThanOrEqualTo(known.served());
        assertThat(known.atMost()).as(what).isGreaterThanOrEqualTo(most);
        assertThat(known.atMost()).as(what).isLessThanOrEqualTo(known.of());
        partly += known.served() > 0 && known.served() < most ? 1 : 0;
        undecided += known.atMost() > most ? 1 : 0;
    }

    private static void checkLegal(Design design, Bus bus, List<Net> nets, String what) {
        assertThat(bus.lines().size() + bus.left().size()).as(what).isEqualTo(nets.size());
        assertThat(Outcome.of(design, bus.edits())).as(what).isInstanceOf(Outcome.Applied.class);
        Set<Integer> used = new HashSet<>();
        for (Bus.Line line : bus.lines()) {
            Set<Integer> own = new HashSet<>();
            line.route().hops().forEach(h -> own.add(h.vertex()));
            for (int vertex : own) {
                assertThat(used.add(vertex)).as("%s: vertex %d twice", what, vertex).isTrue();
            }
        }
    }

    /**
     * By plain rules what is free and where routes may end, then by another library's flow.
     *
     * @param nets those that are on none of the pads
     */
    private static int judged(Design design, List<Net> nets, List<Integer> pads) {
        BitSet blocked = new BitSet();
        for (int v = 0; v < design.fabric().vertexCount(); v++) {
            blocked.set(v, design.occupancy().findOccupant(v).isPresent());
        }
        design.tiedPins().forEach(blocked::set);
        for (Pad pad : design.fabric().pads()) {
            blocked.set(pad.vertex());
        }
        List<Integer> goals = new ArrayList<>();
        for (int pad : pads) {
            Pad value = design.fabric().pads().get(pad);
            boolean free =
                    design.findPortOn(pad).isEmpty()
                            && design.occupancy().findOccupant(value.vertex()).isEmpty();
            if (free && value.directions().canDrive()) {
                goals.add(value.vertex());
            }
        }
        List<int[]> trees =
                nets.stream()
                        .map(Net::route)
                        .map(t -> IntStream.range(0, t.size()).map(t::vertex).toArray())
                        .toList();
        return FlowReferee.most(design.fabric(), blocked, trees, goals);
    }

    /** Says to stop from one call on. */
    private static final class Calls implements Progress {
        private final int stopAt;
        private int made;

        Calls(int stopAt) {
            this.stopAt = stopAt;
        }

        @Override
        public void report(double fraction, String message) {}

        @Override
        public boolean cancelled() {
            return made++ >= stopAt;
        }
    }
}
