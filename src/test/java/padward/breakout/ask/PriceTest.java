package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.group.UnblockedGroup;
import padward.breakout.survey.PadRank;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.PortDirection;
import padward.example.HandMade;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.unblock.move.DelayChange;
import padward.unblock.release.LostEndpoint;
import padward.unblock.why.SearchLimits;

/** What answers cost on the small examples, whose board is known. */
class PriceTest {
    private static final String NET = "pump/level/sample[1]";
    private static Design only;
    private static Design around;

    @BeforeAll
    static void read() throws Exception {
        only = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        around = DesignReader.read(Path.of("fixtures/small/around.design.json"), Progress.NONE);
    }

    private static int pad(Design design, String name) {
        return PadNames.find(design, name).get(0);
    }

    private static Answer ask(Design design, String pad) {
        Net net = design.findNet(NET).orElseThrow();
        return Asker.ask(new Question(design, net, pad(design, pad), Corner.SLOW), Progress.NONE);
    }

    @Test
    void aPortThatLosesItsPadIsNamedWithWhatFollows() {
        Answer answer = ask(around, "MOTOR");
        assertThat(AnswerKind.of(answer)).isEqualTo(AnswerKind.TAKES_PORT);
        assertThat(AnswerText.sentence(answer))
                .startsWith("Takes a port's pad: ")
                .contains("net pump/run/motor_out then feeds nothing")
                .endsWith("U7 pin 4 will follow " + NET + ".");
        assertThat(PriceText.sentences(Price.of(answer)))
                .startsWith("Port motor loses its pad. U7 pin 4 will follow")
                .doesNotContain("Nothing loses its signal");
    }

    @Test
    void aPortThatIsBlockedTooIsNamedAsWell() {
        Price price = Price.of(ask(only, "MOTOR"));
        assertThat(price.ports()).extracting(Price.LosingPort::name).containsExactly("motor");
        assertThat(price.follows()).hasSize(1);
        assertThat(price.obstacles())
                .extracting(Price.Cleared::fate)
                .containsExactly(Price.Fate.REMOVABLE);
        assertThat(price.toAccept()).containsExactly(Caution.Kind.FOLLOWS);
    }

    @Test
    void anInputPortCostsWhatItFeedsAndWhatDrivesIt() {
        Price price = Price.of(ask(only, "FLOAT_HI"));
        assertThat(price.lost())
                .extracting(LostEndpoint::toText)
                .containsExactly("port float_hi", "pump/level/hi_sync.in[0]");
        assertThat(price.drives()).extracting(d -> d.part().name()).containsExactly("U4");
        assertThat(price.toAccept()).containsExactly(Caution.Kind.DRIVES, Caution.Kind.READS);
    }

    @Test
    void aFreePadCostsNothingAndALampLosesItsPortOnly() {
        assertThat(Price.of(ask(only, "J1.1")).isNothing()).isTrue();
        assertThat(PriceText.sentences(Price.of(ask(only, "J1.1"))))
                .isEqualTo("Nothing loses its signal.");
        Answer lamp = ask(only, "LAMP");
        assertThat(Price.of(lamp).toAccept()).isEmpty();
        assertThat(PadRank.of(ask(only, "MOTOR")).reason()).isEqualTo("U7.4 follows, port motor");
        assertThat(PadRank.of(ask(only, "J1.1")).reason()).isEqualTo("free, place for a lead");
        assertThat(PadRank.of(lamp).reason()).isEqualTo("port lamp loses it, nothing listens");
    }

    @Test
    void aGroupTakesFreePadsFirstAndPortsOnlyWhenAllowed() {
        List<Integer> pads = List.of(pad(around, "MOTOR"), pad(around, "J1.1"));
        List<Net> one = List.of(around.findNet(NET).orElseThrow());
        List<Net> two = List.of(around.findNet("pump/level/sample[0]").orElseThrow(), one.get(0));
        for (Bus.Aim aim : Bus.Aim.values()) {
            Bus free = Bus.of(around, one, pads, aim, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
            assertThat(free.price(around).ports()).as(aim.name()).isEmpty();
        }
        Bus kept = Bus.of(around, two, pads, Bus.Aim.SUM, Bus.Ports.KEEP, Progress.NONE);
        assertThat(kept.lines()).hasSize(1);
        Bus taken = Bus.of(around, two, pads, Bus.Aim.SUM, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
        assertThat(taken.lines()).hasSize(2);
        assertThat(PriceText.sentences(taken.price(around))).contains("Port motor loses its pad");
    }

    @Test
    void aGroupOnInputPortsNamesTheNetsThatGoWithThem() {
        List<Integer> pads = List.of(pad(around, "FLOAT_HI"), pad(around, "FLOAT_LO"));
        List<Net> nets =
                List.of(
                        around.findNet("pump/level/sample[0]").orElseThrow(),
                        around.findNet(NET).orElseThrow());
        UnblockedGroup group =
                UnblockedGroup.of(
                        around,
                        nets,
                        pads,
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        SearchLimits.USUAL,
                        Progress.NONE);
        assertThat(group.removed())
                .extracting(r -> r.removal().occupant().name())
                .containsExactly("float_hi", "float_lo");
        assertThat(group.price(around).lost())
                .extracting(LostEndpoint::toText)
                .contains("pump/level/hi_sync.in[0]", "pump/level/lo_sync.in[0]");
    }

    /**
     * Net n can come to pad P over a, where net m is. Port io is on pad Q: net out comes to it, and
     * net in starts there and feeds cell u.
     */
    private static HandMade small() {
        return new HandMade()
                .wires("a b")
                .site("S", "", "o")
                .site("T", "", "o p")
                .site("U", "i", "")
                .site("V", "i", "")
                .pad("P")
                .pad("Q")
                .chain("S.o a P")
                .chain("S.o Q")
                .chain("T.o a V.i")
                .chain("T.p Q U.i")
                .cell("s", "S")
                .cell("t", "T")
                .cell("u", "U")
                .cell("v", "V")
                .port("io", PortDirection.BOTH, "Q")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "v.i", "T.o a V.i")
                .net("in", "io", "u.i", "Q U.i")
                .net("out", "t.p", "io", "T.p Q");
    }

    private static Question ask(Design design, int pad) {
        return new Question(design, design.findNet("n").orElseThrow(), pad, Corner.SLOW);
    }

    @Test
    void aPortInBothDirectionsIsNamedWithBothNetsAndWhatItFeeds() {
        Price price = Price.ofPad(ask(small().design(), 1));
        assertThat(price.ports())
                .containsExactly(
                        new Price.LosingPort(
                                "io", PortDirection.BOTH, Optional.of("out"), Optional.of("in")));
        assertThat(price.lost()).extracting(LostEndpoint::toText).containsExactly("port io", "u.i");
        assertThat(price.takesInput()).isTrue();
        assertThat(price.isNothing()).isFalse();
    }

    @Test
    void anOutputThatLosesItsPadFeedsNothing() {
        Design design =
                new HandMade()
                        .site("S", "", "o p")
                        .pad("P")
                        .chain("S.p P")
                        .cell("s", "S")
                        .port("led", PortDirection.OUT, "P")
                        .net("n", "s.o", "", "S.o")
                        .net("out", "s.p", "led", "S.p P")
                        .design();
        Price price = Price.ofPad(ask(design, 0));
        assertThat(price.lost()).extracting(LostEndpoint::toText).containsExactly("port led");
        assertThat(price.takesInput()).isFalse();
        Question there = new Question(design, design.nets().get(1), 0, Corner.SLOW);
        assertThat(Price.ofPad(there)).isEqualTo(Price.NOTHING);
    }

    @Test
    void theObstaclesOfAnAnswerAreNamedWithWhatBecomesOfThem() {
        Answer.Blocked blocked =
                (Answer.Blocked) Asker.ask(ask(small().design(), 0), Progress.NONE);
        Price price = Price.of(blocked);
        assertThat(price.obstacles())
                .extracting(c -> c.occupant().name() + " " + c.fate().label())
                .containsExactly("m loses-function");
        assertThat(price.lost()).extracting(LostEndpoint::toText).containsExactly("v.i");
        Answer.Blocked quick =
                new Answer.Blocked(
                        blocked.question(),
                        blocked.route(),
                        blocked.obstacles(),
                        blocked.disconnected(),
                        blocked.cautions(),
                        Optional.empty());
        assertThat(Price.of(quick).obstacles())
                .extracting(c -> c.occupant().name() + " " + c.fate().label())
                .containsExactly("m not-examined");
        // A second route for net m.
        Design movable = small().chain("T.o b V.i").design();
        Price moved = Price.of(Asker.ask(ask(movable, 0), Progress.NONE));
        assertThat(moved.obstacles())
                .extracting(c -> c.occupant().name() + " " + c.fate().label())
                .containsExactly("m movable");
        assertThat(moved.moved()).extracting(DelayChange::net).containsExactly("m");
        assertThat(moved.lost()).isEmpty();
    }

    @Test
    void anAnswerWithoutARouteCostsNothing() {
        Design design = small().pad("R").design();
        Answer none = Asker.ask(ask(design, 2), Progress.NONE);
        assertThat(none).isInstanceOf(Answer.NoRoute.class);
        assertThat(Price.of(none)).isEqualTo(Price.NOTHING);
    }

    @Test
    void editsCostWhatTheirPadsCost() {
        Design design = small().design();
        Edit out = new Edit.BreakOut("n", "o", "Q", "", List.of());
        assertThat(Price.ofPads(design, List.of(out))).isEqualTo(Price.ofPad(ask(design, 1)));
        assertThat(Price.ofPads(design, List.of())).isEqualTo(Price.NOTHING);
    }
}
