package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Edit;
import padward.format.DesignReader;

/** Keeping and undoing, without a window. */
class TrialDeskTest {
    private static Design design;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    private static TrialDesk.Kept freeing(String net) {
        return new TrialDesk.Kept("now", net, "pad", List.of(new Edit.FreeNet(net)));
    }

    @Test
    void whatIsKeptIsOnTheDesignThatIsShown() {
        TrialDesk desk =
                TrialDesk.of(design).keeping(freeing("alarm/beep")).keeping(freeing("float_hi"));
        assertThat(desk.design().findNet("float_hi")).isEmpty();
        assertThat(desk.design().nets()).hasSize(design.nets().size() - 2);
        assertThat(TrialDesk.of(design).design()).isSameAs(design);
    }
}
