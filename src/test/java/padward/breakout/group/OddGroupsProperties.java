package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.example.OddDesigns;
import padward.fabric.delay.Corner;
import padward.unblock.why.SearchLimits;

/** On odd little designs: what a group proposes can be applied, and every line then stands. */
class OddGroupsProperties {
    private static final SearchLimits LIMITS = new SearchLimits(100_000, 1_000, 3, 0);

    private int lines;
    private int unblocked;

    @Test
    void whatAGroupProposesCanBeApplied() {
        check(0, 200);
        assertThat(lines).isGreaterThan(100);
        assertThat(unblocked).isGreaterThan(15);
    }

    @Test
    void whatAGroupProposesCanBeAppliedWhereSwitchesExcludeEachOther() {
        check(OddDesigns.WITH_SWITCH_GROUPS, OddDesigns.WITH_SWITCH_GROUPS + 300);
        assertThat(lines).isGreaterThan(100);
        assertThat(unblocked).isGreaterThan(15);
    }

    @Test
    @Tag("slow")
    void whatThousandsOfGroupsProposeCanBeApplied() {
        check(200, 8_000);
    }

    @Test
    @Tag("slow")
    void whatThousandsOfGroupsProposeWhereSwitchesExcludeEachOther() {
        check(OddDesigns.WITH_SWITCH_GROUPS + 300, OddDesigns.WITH_SWITCH_GROUPS + 3_000);
    }

    @Test
    void whatAGroupProposesCanBeAppliedWhereSomeIsLockedOrUnusable() {
        check(OddDesigns.WITH_LOCKS, OddDesigns.WITH_LOCKS + 300);
        assertThat(lines).isGreaterThan(60);
        assertThat(unblocked).isGreaterThan(5);
    }

    private void check(long from, long to) {
        for (long seed = from; seed < to; seed++) {
            Design design = OddDesigns.make(seed);
            List<Net> nets = List.copyOf(design.nets());
            if (nets.size() < 2) {
                continue;
            }
            Random random = new Random(seed);
            int first = random.nextInt(nets.size() - 1);
            List<Net> group = nets.subList(first, Math.min(nets.size(), first + 3));
            List<Integer> pads = IntStream.range(0, design.fabric().pads().size()).boxed().toList();
            Bus.Aim aim = Bus.Aim.values()[(int) (seed % Bus.Aim.values().length)];
            Bus bus = Bus.of(design, group, pads, aim, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
            lines += bus.lines().size();
            check(design, bus, "seed " + seed + " " + aim);
            UnblockedGroup more =
                    UnblockedGroup.of(
                            design,
                            group,
                            pads,
                            aim,
                            Bus.Ports.MAY_DISCONNECT,
                            LIMITS,
                            Progress.NONE);
            unblocked += more.removed().size();
            check(design, more.bus(), "seed " + seed + " " + aim + " unblocked");
        }
    }

    private static void check(Design design, Bus bus, String what) {
        Outcome outcome = Outcome.of(design, bus.edits());
        assertThat(outcome).as(what + bus.edits()).isInstanceOf(Outcome.Applied.class);
        Design after = ((Outcome.Applied) outcome).design();
        for (Bus.Line line : bus.lines()) {
            Net net = after.findNet(line.net().name()).orElseThrow();
            Answer answer =
                    Asker.ask(new Question(after, net, line.pad(), Corner.SLOW), Progress.NONE);
            assertThat(answer).as(what).isInstanceOf(Answer.FreeRoute.class);
            assertThat(answer.findRoute().orElseThrow().total())
                    .as(what)
                    .isEqualTo(line.route().total());
        }
    }
}
