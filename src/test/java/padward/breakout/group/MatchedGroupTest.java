package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.synth.DesignMaker;
import padward.timing.ExternalLineDelay;
import padward.timing.OutputPath;
import padward.timing.TreeDelays;

/** Matched groups: within the tolerance, no wire twice, delays equal to an independent sum. */
class MatchedGroupTest {
    private static final int TOLERANCE_PS = 150;

    @Test
    void groupsOnAnInventedDesign() {
        Design design = DesignMaker.make(6_000, 4, 0.5, Progress.NONE).design();
        int reached = 0;
        for (int seed = 0; seed < 3; seed++) {
            Random random = new Random(seed);
            List<Net> nets =
                    random.ints(0, design.nets().size())
                            .distinct()
                            .mapToObj(design.nets()::get)
                            .filter(n -> !n.clock())
                            .limit(5)
                            .toList();
            List<Integer> pads =
                    random.ints(0, design.fabric().pads().size())
                            .distinct()
                            .limit(24)
                            .sorted()
                            .boxed()
                            .toList();
            Bus bus =
                    Bus.of(
                            design,
                            nets,
                            pads,
                            Bus.Aim.SKEW,
                            Bus.Ports.MAY_DISCONNECT,
                            Progress.NONE);
            MatchedGroup matched =
                    MatchedGroup.of(
                            design, bus, TOLERANCE_PS, ExternalLineDelay.USUAL, 5, Progress.NONE);
            check(design, matched);
            reached += matched.reached() ? 1 : 0;
        }
        assertThat(reached).isPositive();
    }

    private static void check(Design design, MatchedGroup matched) {
        assertThat(matched.afterPs()).isLessThanOrEqualTo(matched.beforePs());
        assertThat(matched.reached()).isEqualTo(matched.afterPs() <= TOLERANCE_PS);
        assertThat(matched.misses().isEmpty()).isEqualTo(matched.reached());
        Bus bus = matched.after();
        LedgerEntry entry = new LedgerEntry("now", "me", "", "n", "p", bus.edits());
        Ledger.Applied applied = new Ledger("d", "-", List.of(entry)).applyTo(design);
        assertThat(applied).isInstanceOf(Ledger.Applied.Fits.class);
        Design after = ((Ledger.Applied.Fits) applied).design();
        Set<Integer> taken = new HashSet<>();
        int skew = 0;
        for (Corner corner : Corner.values()) {
            int least = Integer.MAX_VALUE;
            int most = 0;
            for (Bus.Line line : bus.lines()) {
                Net net = after.findNet(line.net().name()).orElseThrow();
                int place = net.route().placeOf(after.fabric().pads().get(line.pad()).vertex());
                Delay toPad = TreeDelays.of(after.fabric(), net.route()).at(place);
                assertThat(toPad).isEqualTo(line.route().toPadVertex());
                OutputPath output =
                        OutputPath.of(
                                design,
                                line.pad(),
                                line.route().setting(),
                                ExternalLineDelay.USUAL);
                int outside = output.trace().middlePs();
                Delay there = toPad.plus(output.driver()).plus(new Delay(outside, outside));
                least = Math.min(least, there.at(corner));
                most = Math.max(most, there.at(corner));
                if (corner == Corner.FAST) {
                    line.route().hops().stream()
                            .skip(line.route().branchHop() + 1)
                            .forEach(h -> assertThat(taken.add(h.vertex())).isTrue());
                }
            }
            skew = Math.max(skew, most - least);
        }
        assertThat(skew).isEqualTo(matched.afterPs());
    }
}
