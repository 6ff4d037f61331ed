package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.synth.DesignMaker;

/**
 * Groups served as many as possible, beside the choice by the smallest sum: never fewer nets, at
 * the same number never a greater sum, applied without a conflict, and nearly always proven. That
 * the proof itself is right is judged where the flow is, against another library's flows.
 */
class MostNetsProperties {
    private int groups;
    private int proven;
    private int bottlenecks;
    private int taken;
    private Bus.Ports ports = Bus.Ports.KEEP;

    /** Pads that ports may lose are taken where the others are not enough, proven too. */
    @Test
    void portsThatMayLoseTheirPadsAreInTheFlow() {
        ports = Bus.Ports.MAY_DISCONNECT;
        check(0, 30);
        assertThat(taken).isPositive();
    }

    @Test
    @Tag("slow")
    void portsThatMayLoseTheirPadsAreInTheFlowOfAThousandGroups() {
        ports = Bus.Ports.MAY_DISCONNECT;
        check(0, 1_000);
    }

    @Test
    void neverFewerThanTheSmallestSum() {
        check(0, 30);
        assertThat(bottlenecks).isPositive();
    }

    @Test
    @Tag("slow")
    void neverFewerThanTheSmallestSumInAThousandGroups() {
        check(0, 1_000);
    }

    private void check(int from, int to) {
        for (int seed = from; seed < to; seed++) {
            Random random = new Random(seed);
            Design design =
                    DesignMaker.make(3_000, seed / 10, 0.5 + 0.4 * (seed / 10 % 2), Progress.NONE)
                            .design();
            List<Net> nets =
                    random.ints(0, design.nets().size())
                            .distinct()
                            .limit(2 + random.nextInt(10))
                            .mapToObj(design.nets()::get)
                            .toList();
            List<Integer> pads =
                    random.ints(0, design.fabric().pads().size())
                            .distinct()
                            .limit(3 + random.nextInt(20))
                            .sorted()
                            .boxed()
                            .toList();
            compare(design, nets, pads, "seed " + seed);
        }
        assertThat(proven).isGreaterThanOrEqualTo(groups * 95 / 100);
    }

    private void compare(Design design, List<Net> nets, List<Integer> pads, String what) {
        Bus most = Bus.of(design, nets, pads, Bus.Aim.MOST, ports, Progress.NONE);
        Bus sum = Bus.of(design, nets, pads, Bus.Aim.SUM, ports, Progress.NONE);
        groups++;
        proven += most.proof().isPresent() ? 1 : 0;
        assertThat(most.lines()).as(what).hasSizeGreaterThanOrEqualTo(sum.lines().size());
        assertThat(most.lines().size() + most.left().size()).isEqualTo(nets.size());
        if (most.lines().size() == sum.lines().size() && rank(design, most) == rank(design, sum)) {
            assertThat(most.totalPs()).as(what).isLessThanOrEqualTo(sum.totalPs());
        }
        taken += most.price(design).ports().size();
        assertThat(
                        most.lines().size() > sum.lines().size()
                                || price(design, most) <= price(design, sum))
                .as(what)
                .isTrue();
        assertThat(Outcome.of(design, most.edits())).isInstanceOf(Outcome.Applied.class);
        assertThat(most.edits().stream().filter(e -> e instanceof Edit.BreakOut))
                .hasSize(most.lines().size());
        Optional<Bus.Bottleneck> bottleneck = most.proof().flatMap(Bus.Proof::bottleneck);
        bottlenecks += bottleneck.isPresent() ? 1 : 0;
        if (bottleneck.isPresent()) {
            Set<Net> served = new HashSet<>();
            most.lines().forEach(l -> served.add(design.findNet(l.net().name()).orElseThrow()));
            long through = bottleneck.get().nets().stream().filter(served::contains).count();
            assertThat(bottleneck.get().vertices()).as(what).hasSize((int) through);
        }
    }

    private static long price(Design design, Bus bus) {
        return bus.price(design).ports().size();
    }

    /** Number of pads that cost somebody something. */
    private static long rank(Design design, Bus bus) {
        return bus.lines().stream()
                .filter(l -> !design.board().findWiring(l.pad()).isEmpty())
                .filter(
                        l ->
                                design.board().findWiring(l.pad()).get().attachments().stream()
                                        .anyMatch(a -> !a.kind().probeable()))
                .count();
    }
}
