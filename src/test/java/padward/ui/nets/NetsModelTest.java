package padward.ui.nets;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.NetObservability;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** The list of nets and how they stand with the pads, without a window. */
class NetsModelTest {
    private final WindowModel model = new WindowModel(BackgroundWork.immediate());
    private final NetsModel nets = new NetsModel(model);

    @Test
    void theTextChoosesAndFaultsAreTold() {
        assertThat(nets.treeProperty().get()).isEmpty();
        model.open(Path.of("fixtures/small/only.design.json"));
        assertThat(nets.treeProperty().get().orElseThrow().children()).isNotEmpty();
        nets.textProperty().set("float_(hi|lo)$");
        assertThat(nets.treeProperty().get().orElseThrow().children()).isEmpty();
        nets.expressionProperty().set(true);
        assertThat(nets.treeProperty().get().orElseThrow().children()).hasSize(2);
        nets.textProperty().set("(");
        assertThat(nets.treeProperty().get()).isEmpty();
        assertThat(nets.faultProperty().get())
                .isEqualTo(
                        "The field “nets” needs a regular expression, but has a fault at character"
                                + " 1: unclosed group.");
        nets.textProperty().set("");
        assertThat(nets.faultProperty().get()).isEmpty();
    }

    /** The independent way: ask for every pad, one question at a time, by the reference search. */
    @Test
    void standingsAgreeWithAskingForEveryPad() {
        model.open(Path.of("fixtures/small/only.design.json"));
        Design design = model.openedProperty().get().orElseThrow().design();
        List<String> names = design.nets().stream().map(Net::name).toList();
        nets.see(names);
        assertThat(nets.knownProperty().get()).isEqualTo(names.size());
        Asker asker = new Asker(design.fabric(), SearchEngineKind.REFERENCE);
        for (Net net : design.nets()) {
            int open = 0;
            int blocked = 0;
            for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
                Answer answer =
                        asker.answer(new Question(design, net, pad, Corner.SLOW), Progress.NONE);
                open += answer instanceof Answer.Open ? 1 : 0;
                blocked += answer instanceof Answer.Blocked ? 1 : 0;
            }
            NetObservability standing = nets.findObservability(net.name()).orElseThrow();
            assertThat(standing.open()).as(net.name()).isEqualTo(open);
            assertThat(standing.blocked()).as(net.name()).isEqualTo(blocked);
            assertThat(standing.reason().isPresent()).isEqualTo(open + blocked == 0);
            assertThat(standing.toText()).isNotBlank();
        }
    }

    @Test
    void aChangedDesignIsLookedAtAfresh() {
        model.open(Path.of("fixtures/small/only.design.json"));
        nets.see(List.of("alarm/beep"));
        assertThat(nets.findObservability("alarm/beep")).isPresent();
        model.open(Path.of("fixtures/small/around.design.json"));
        assertThat(nets.findObservability("alarm/beep")).isEmpty();
    }

    @Test
    void aPadAloneIsAskedForAtItsCorner() {
        model.open(Path.of("fixtures/small/only.design.json"));
        model.shown().padTextProperty().set("J1.3");
        model.shown().ask();
        nets.see(List.of("alarm/beep"));
        assertThat(cornerOf("alarm/beep")).isEqualTo(Corner.SLOW);
        model.shown().cornerProperty().set(Corner.FAST);
        model.shown().ask();
        assertThat(nets.findToPad("alarm/beep")).isEmpty();
        nets.see(List.of("alarm/beep"));
        assertThat(cornerOf("alarm/beep")).isEqualTo(Corner.FAST);
    }

    @Test
    void nothingAskedForIsNoPad() {
        model.open(Path.of("fixtures/small/only.design.json"));
        model.shown().ask();
        assertThat(nets.findPad()).isEmpty();
    }

    private Corner cornerOf(String net) {
        return nets.findToPad(net).orElseThrow().question().corner();
    }
}
