package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.Difference;
import padward.breakout.verify.NetDiff;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.format.design.DesignReader;
import padward.synth.DesignMaker;
import padward.timing.ExternalLineDelay;

/** Groups: no wire twice, nothing else touched, sums never below the bound. */
class BusTest {
    @ParameterizedTest
    @EnumSource(Bus.Aim.class)
    void groupsOnAnInventedDesign(Bus.Aim aim) {
        Design design = DesignMaker.make(12_000, 4, 0.7, Progress.NONE).design();
        for (int seed = 0; seed < 4; seed++) {
            Random random = new Random(seed);
            List<Net> nets =
                    random.ints(0, design.nets().size())
                            .distinct()
                            .limit(6)
                            .mapToObj(design.nets()::get)
                            .filter(n -> !n.clock())
                            .toList();
            List<Integer> pads =
                    random.ints(0, design.fabric().pads().size())
                            .distinct()
                            .limit(14)
                            .sorted()
                            .boxed()
                            .toList();
            check(
                    design,
                    Bus.of(design, nets, pads, aim, Bus.Ports.MAY_DISCONNECT, Progress.NONE),
                    nets,
                    pads);
        }
    }

    private static void check(Design design, Bus bus, List<Net> nets, List<Integer> pads) {
        assertThat(bus.lines().size() + bus.left().size()).isEqualTo(nets.size());
        Set<Integer> taken = new HashSet<>();
        for (Bus.Line line : bus.lines()) {
            assertThat(pads).contains(line.pad());
            line.route().hops().stream()
                    .skip(line.route().branchHop() + 1)
                    .forEach(h -> assertThat(taken.add(h.vertex())).isTrue());
        }
        assertThat(bus.totalPs()).isGreaterThanOrEqualTo(bus.alonePs());
        LedgerEntry entry = new LedgerEntry("now", "me", "", "n", "p", bus.edits());
        Ledger.Applied applied = new Ledger("d", "-", List.of(entry)).applyTo(design);
        assertThat(applied).isInstanceOf(Ledger.Applied.Fits.class);
        Design after = ((Ledger.Applied.Fits) applied).design();
        ChangeAudit report = ChangeAudit.of(design, List.of(entry), after);
        assertThat(report.holds()).isTrue();
        assertThat(report.diff().nets())
                .hasSizeLessThanOrEqualTo(bus.edits().size())
                .allMatch(n -> n.how() == Difference.CHANGED)
                .extracting(NetDiff::name)
                .containsAll(bus.lines().stream().map(l -> l.net().name()).toList());
        assertThat(bus.skews(design, ExternalLineDelay.USUAL, 5))
                .hasSize(bus.lines().size() * (bus.lines().size() - 1) / 2)
                .allMatch(s -> s.skew().localPs() > 0)
                .allMatch(s -> s.skew().mostPs() > s.skew().slowPs());
    }

    @Test
    void bitsAreInTheRequestedOrder() throws BadInput {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        List<Net> nets =
                IntStream.range(0, 2)
                        .mapToObj(i -> design.findNet("pump/level/sample[" + i + "]").orElseThrow())
                        .toList();
        List<Integer> pads = IntStream.range(0, design.fabric().pads().size()).boxed().toList();
        Bus bus =
                Bus.of(design, nets, pads, Bus.Aim.ORDER, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
        assertThat(bus.lines()).hasSize(2);
        assertThat(bus.lines().get(0).pad()).isLessThan(bus.lines().get(1).pad());
    }

    @Test
    void netsThatAreNotServedHaveAReason() throws BadInput {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        List<Net> nets = List.copyOf(design.nets()).subList(4, 8);
        Bus bus =
                Bus.of(
                        design,
                        nets,
                        List.of(0, 1),
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        Progress.NONE);
        assertThat(bus.left()).isNotEmpty().allMatch(l -> !l.reason().isBlank());
    }
}
