package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.route.search.VertexPath;
import padward.synth.DesignMaker;

/**
 * What a group's flow becomes once drawn nets are removed: as many nets, at the same price and sum
 * of delays, as a flow from nothing finds on the design without them. Changed back, it is what it
 * was.
 */
class TriedGroupProperties {
    private int more;
    private int same;

    @Test
    void aFlowThatGoesOnFindsWhatOneFromNothingDoes() {
        check(0, 12);
        assertThat(more).isPositive();
        assertThat(same).isPositive();
    }

    @Test
    @Tag("slow")
    void onManyMoreDesigns() {
        check(12, 300);
    }

    private void check(int from, int to) {
        for (int seed = from; seed < to; seed++) {
            Random random = new Random(seed);
            Design design =
                    DesignMaker.make(2_000, seed / 3, 0.8 + 0.1 * (seed % 2), Progress.NONE)
                            .design();
            List<String> nets =
                    random.ints(0, design.nets().size())
                            .distinct()
                            .limit(10)
                            .mapToObj(n -> design.nets().get(n).name())
                            .toList();
            List<Integer> pads =
                    random.ints(0, design.fabric().pads().size())
                            .distinct()
                            .limit(14)
                            .boxed()
                            .toList();
            Bus.Ports ports = Bus.Ports.values()[seed % 2];
            BusRequest request = request(design, nets, pads, ports);
            MostNets first = MostNets.of(request, usable(request), Optional.empty(), Progress.NONE);
            Optional<GroupFlow> flow = first.flow();
            assertThat(flow).isPresent();
            List<Edit> oneMore = oneMore(request, first);
            for (int step = 0; step < 3; step++) {
                List<Edit> edits = step == 1 ? oneMore : drawn(design, nets, random);
                Design after = without(design, edits);
                BusRequest again = request(after, nets, pads, ports);
                MostNets goesOn = MostNets.tried(again, usable(again), flow, Progress.NONE);
                MostNets fresh =
                        MostNets.tried(again, usable(again), Optional.empty(), Progress.NONE);
                String what = "seed " + seed + ", step " + step;
                compare(again, goesOn, fresh, what);
                assertThat(goesOn.flow()).isEqualTo(flow);
                if (fresh.pads().size() > first.pads().size()) {
                    more++;
                } else {
                    same++;
                }
            }
            MostNets back = MostNets.of(request, usable(request), flow, Progress.NONE);
            assertThat(back.flow().equals(flow)).isEqualTo(!first.givesBack());
            compare(request, back, first, "seed " + seed + ", changed back");
            assertThat(back.bottleneck().map(b -> b.vertices().size()))
                    .isEqualTo(first.bottleneck().map(b -> b.vertices().size()));
        }
    }

    private static void compare(BusRequest request, MostNets one, MostNets other, String what) {
        assertThat(one.atMost()).as(what).isEqualTo(other.atMost());
        assertThat(along(request, one).lines()).as(what).hasSize(one.pads().size());
        // Which of several best flows comes first decides what is taken out of it then.
        if (!other.givesBack()) {
            assertThat(one.pads()).as(what).hasSize(other.pads().size());
            assertThat(one.exact()).as(what).isEqualTo(other.exact());
            assertThat(along(request, one).totalPs())
                    .as(what)
                    .isEqualTo(along(request, other).totalPs());
        }
    }

    private static Bus along(BusRequest request, MostNets most) {
        BusRouting routing = new BusRouting(request);
        List<Optional<VertexPath>> paths = new ArrayList<>();
        most.pads()
                .forEach(
                        (net, pad) -> {
                            routing.add(request.nets().get(net), request.pads().get(pad), 0);
                            paths.add(most.paths().get(net));
                        });
        return routing.along(paths, List.of());
    }

    /** What lets one more out, if that is known. */
    private static List<Edit> oneMore(BusRequest request, MostNets most) {
        return OneMoreNet.of(request, most, Progress.NONE).remove().stream()
                .map(
                        o ->
                                o instanceof Occupant.ByCell
                                        ? (Edit) new Edit.RemoveCell(o.name())
                                        : new Edit.RemoveNet(o.name()))
                .toList();
    }

    /** The removal of some nets that are not of the group. */
    private static List<Edit> drawn(Design design, List<String> group, Random random) {
        List<Edit> edits = new ArrayList<>();
        int count = 1 << random.nextInt(6);
        for (int i = 0; i < count; i++) {
            Net net = design.nets().get(random.nextInt(design.nets().size()));
            Edit edit = new Edit.RemoveNet(net.name());
            if (!group.contains(net.name()) && !edits.contains(edit)) {
                edits.add(edit);
            }
        }
        return edits;
    }

    private static Design without(Design design, List<Edit> edits) {
        Outcome outcome = Outcome.of(design, edits);
        return outcome instanceof Outcome.Applied applied ? applied.design() : design;
    }

    private static Set<Integer> usable(BusRequest request) {
        return new BusCosts(request).usablePads();
    }

    private static BusRequest request(
            Design design, List<String> names, List<Integer> pads, Bus.Ports ports) {
        List<Net> nets = names.stream().map(n -> design.findNet(n).orElseThrow()).toList();
        return BusRequest.of(design, nets, pads, Bus.Aim.MOST, ports, WantedDriver.NONE);
    }
}
