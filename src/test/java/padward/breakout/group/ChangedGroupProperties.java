package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.synth.DesignMaker;

/**
 * Groups to which nets and pads come and go, a few at a time: the same number of lines at the same
 * price and with the same sum of delays as the group asked about from nothing, and the same answer
 * for each pair.
 */
class ChangedGroupProperties {
    @Test
    void aChangedGroupIsWhatOneFromNothingIs() {
        int left = 0;
        int served = 0;
        for (int seed = 0; seed < 8; seed++) {
            Random random = new Random(seed);
            Design design =
                    DesignMaker.make(3_000, seed / 4, 0.5 + 0.4 * (seed % 2), Progress.NONE)
                            .design();
            Bus.Ports ports = seed % 4 == 3 ? Bus.Ports.MAY_DISCONNECT : Bus.Ports.KEEP;
            List<Net> nets = new ArrayList<>(draw(random, design, 6));
            List<Integer> pads = new ArrayList<>(drawPads(random, design, 12));
            RouteMatrix matrix =
                    RouteMatrix.of(design, nets, pads, Bus.Aim.MOST, ports, Progress.NONE);
            matrix.route(Map.of(), Optional.empty(), Progress.NONE);
            for (int step = 0; step < 5; step++) {
                if (step == 2) {
                    matrix.complete(Progress.NONE);
                }
                change(random, nets, draw(random, design, 1).get(0));
                change(random, pads, drawPads(random, design, 1).get(0));
                matrix = matrix.changedTo(nets, pads, Progress.NONE);
                RouteMatrix fresh =
                        RouteMatrix.of(design, nets, pads, Bus.Aim.MOST, ports, Progress.NONE);
                Bus changed = matrix.route(Map.of(), Optional.empty(), Progress.NONE);
                Bus other = fresh.route(Map.of(), Optional.empty(), Progress.NONE);
                String what = "seed " + seed + ", step " + step;
                assertThat(changed.lines()).as(what).hasSize(other.lines().size());
                assertThat(changed.totalPs()).as(what).isEqualTo(other.totalPs());
                assertThat(changed.proof().isPresent()).isEqualTo(other.proof().isPresent());
                assertThat(changed.price(design).ports())
                        .hasSize(other.price(design).ports().size());
                compareReasons(changed, other, what);
                served += changed.lines().size();
                left += changed.left().size();
                comparePairs(matrix, fresh, what);
            }
        }
        assertThat(served).isGreaterThan(30);
        assertThat(left).isGreaterThan(10);
    }

    /** Of several nets either may be left, but one that is left in both is for the same reason. */
    private static void compareReasons(Bus one, Bus other, String what) {
        for (Bus.Left left : one.left()) {
            other.left().stream()
                    .filter(l -> l.net().equals(left.net()))
                    .forEach(l -> assertThat(left.reason()).as(what).isEqualTo(l.reason()));
        }
    }

    private static void comparePairs(RouteMatrix one, RouteMatrix other, String what) {
        assertThat(one.nets()).isEqualTo(other.nets());
        assertThat(one.pads()).isEqualTo(other.pads());
        int net = one.nets().size() - 1;
        for (int pad = 0; net >= 0 && pad < one.pads().size(); pad++) {
            assertThat(one.answer(net, pad).getClass())
                    .as(what)
                    .isEqualTo(other.answer(net, pad).getClass());
            assertThat(one.isRoutable(0, pad)).as(what).isEqualTo(other.isRoutable(0, pad));
            assertThat(one.isKnownRoutable(0, pad)).as(what).isEqualTo(one.isRoutable(0, pad));
        }
    }

    private static <T> void change(Random random, List<T> members, T other) {
        if (random.nextBoolean() && members.size() > 2) {
            members.remove(random.nextInt(members.size()));
        }
        if (!members.contains(other)) {
            members.add(other);
        }
    }

    private static List<Net> draw(Random random, Design design, int count) {
        return random.ints(0, design.nets().size())
                .distinct()
                .limit(count)
                .mapToObj(design.nets()::get)
                .toList();
    }

    private static List<Integer> drawPads(Random random, Design design, int count) {
        return random.ints(0, design.fabric().pads().size())
                .distinct()
                .limit(count)
                .boxed()
                .toList();
    }
}
