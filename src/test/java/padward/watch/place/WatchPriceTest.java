package padward.watch.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.verify.CarryOver;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.PadNames;
import padward.format.design.DesignReader;
import padward.unblock.why.SearchLimits;

/** What a watch circuit costs on the board is told as for any net that is brought out. */
class WatchPriceTest {
    private static final String MOTOR = "x7y3/pad[0]";

    private static WatchResult.Placed placedOnMotor(Design design) {
        int pad = PadNames.findExact(design.fabric(), MOTOR).getAsInt();
        return (WatchResult.Placed)
                WatchPlacer.place(
                        new WatchQuestion(
                                design,
                                SomeCircuits.drawn(design, 2, 3, Optional.empty(), new Random(1)),
                                List.of(pad)),
                        Progress.NONE);
    }

    private static Design around() throws Exception {
        return DesignReader.read(Path.of("fixtures/small/around.design.json"), Progress.NONE);
    }

    @Test
    void thePortAndWhatFollowsAreToldOfTheNewNet() throws Exception {
        Design design = around();
        WatchResult.Placed placed = placedOnMotor(design);
        Price price = Price.ofPads(design, placed.edits());
        assertThat(price.ports()).extracting(p -> p.name()).containsExactly("motor");
        assertThat(price.follows()).isNotEmpty();
        assertThat(price.follows().get(0).net()).isEqualTo(placed.legs().get(0).net());
        assertThat(price.toAccept()).contains(Caution.Kind.FOLLOWS);
        assertThat(Price.of(placed.legs().get(0).answer())).isEqualTo(price);
        List<Question> shown = Question.ofNewOutputs(design, placed.design());
        assertThat(shown).hasSize(1);
        assertThat(Price.ofPad(shown.get(0)).follows()).isEqualTo(price.follows());
    }

    @Test
    void aRunThatHasNoRoomForItSaysHowToGoOn() throws Exception {
        WatchResult.Placed placed = placedOnMotor(around());
        LedgerEntry entry = new LedgerEntry("t", "w", "", "n", MOTOR, placed.edits());
        Ledger ledger = new Ledger("d", "-", List.of(entry));
        CarryOver again =
                CarryOver.of(ledger, placed.design(), true, SearchLimits.USUAL, Progress.NONE);
        assertThat(again.isWhole()).isFalse();
        assertThat(again.outcomes().get(0).lines()).singleElement().asString().contains("watch");
        CarryOver same = CarryOver.of(ledger, around(), true, SearchLimits.USUAL, Progress.NONE);
        assertThat(same.isWhole()).isTrue();
    }
}
