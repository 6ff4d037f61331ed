package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.group.UnblockedGroup;
import padward.breakout.survey.PadRank;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
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
}
