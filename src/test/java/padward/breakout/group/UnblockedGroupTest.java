package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.synth.DesignMaker;
import padward.unblock.why.SearchLimits;

/** Unblocked groups: the removals serve them, and a proven minimum cannot be beaten. */
class UnblockedGroupTest {
    private static final SearchLimits LIMITS = new SearchLimits(100_000, 200, 3, 0);

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void theRemovalsServeTheGroup(long seed) {
        Design design = DesignMaker.make(1_500, seed, 0.8, Progress.NONE).design();
        Random random = new Random(seed);
        List<Net> nets =
                random.ints(0, design.nets().size())
                        .distinct()
                        .mapToObj(design.nets()::get)
                        .filter(n -> !n.clock())
                        .limit(3)
                        .toList();
        List<Integer> pads =
                random.ints(0, design.fabric().pads().size()).distinct().limit(4).boxed().toList();
        UnblockedGroup unblocked =
                UnblockedGroup.of(
                        design,
                        nets,
                        pads,
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        LIMITS,
                        Progress.NONE);
        Bus bus = unblocked.bus();
        assertThat(bus.lines().size() + bus.left().size()).isEqualTo(nets.size());
        Set<Integer> taken = new HashSet<>();
        bus.lines()
                .forEach(
                        l ->
                                l.route().hops().stream()
                                        .skip(l.route().branchHop() + 1)
                                        .forEach(h -> assertThat(taken.add(h.vertex())).isTrue()));
        if (!bus.edits().isEmpty()) {
            LedgerEntry entry = new LedgerEntry("now", "me", "", "n", "p", bus.edits());
            assertThat(new Ledger("d", "-", List.of(entry)).applyTo(design))
                    .isInstanceOf(Ledger.Applied.Fits.class);
        }
        if (unblocked.provenMinimum()) {
            assertThat(unblocked.lowerBound()).isEqualTo(unblocked.removed().size());
            int fewer = unblocked.removed().size() - 1;
            if (fewer == 0) {
                assertThat(served(design, nets, pads)).isLessThan(bus.lines().size());
            } else if (fewer == 1) {
                checkNoSingle(design, nets, pads, bus.lines().size());
            }
        }
    }

    /** No single removal serves as many nets. */
    private static void checkNoSingle(
            Design design, List<Net> nets, List<Integer> pads, int wanted) {
        Set<String> own = new HashSet<>(nets.stream().map(Net::name).toList());
        List<Edit> all = new ArrayList<>();
        IntStream.range(0, design.nets().size())
                .mapToObj(i -> design.nets().get(i).name())
                .filter(n -> !own.contains(n))
                .forEach(n -> all.add(new Edit.RemoveNet(n)));
        design.cells().stream()
                .filter(
                        c ->
                                design.netsDrivenBy(c.id()).stream()
                                        .noneMatch(n -> own.contains(n.name())))
                .forEach(c -> all.add(new Edit.RemoveCell(c.name())));
        for (Edit edit : all) {
            Design freed = Outcome.apply(design, List.of(edit));
            assertThat(served(freed, nets, pads)).isLessThan(wanted);
        }
    }

    private static int served(Design design, List<Net> nets, List<Integer> pads) {
        List<Net> now = nets.stream().map(n -> design.findNet(n.name()).orElseThrow()).toList();
        return Bus.of(design, now, pads, Bus.Aim.SUM, Bus.Ports.MAY_DISCONNECT, Progress.NONE)
                .lines()
                .size();
    }

    @Test
    void nothingIsRemovedWhenAllNetsFit() {
        Design design = DesignMaker.make(1_500, 2, 0.2, Progress.NONE).design();
        List<Integer> pads = IntStream.range(0, design.fabric().pads().size()).boxed().toList();
        List<Net> nets = design.nets().stream().filter(n -> !n.clock()).limit(3).toList();
        Bus bus = Bus.of(design, nets, pads, Bus.Aim.SUM, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
        assertThat(bus.left()).noneMatch(l -> l.couldBeUnblocked(Progress.NONE));
        UnblockedGroup unblocked =
                UnblockedGroup.of(
                        design,
                        nets,
                        pads,
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        LIMITS,
                        Progress.NONE);
        assertThat(unblocked.removed()).isEmpty();
        assertThat(unblocked.provenMinimum()).isTrue();
    }
}
