package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.design.Design;
import padward.format.design.DesignReader;

/** Keeping and undoing, without a window. */
class KeptChangesTest {
    private static Design design;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    private static KeptChanges.Kept freeing(String net) {
        return new KeptChanges.Kept("now", net, "pad", List.of(new Edit.RemoveNet(net)));
    }

    @Test
    void whatIsKeptIsOnTheDesignThatIsShown() {
        KeptChanges desk =
                KeptChanges.of(design).keeping(freeing("alarm/beep")).keeping(freeing("float_hi"));
        assertThat(desk.design().findNet("float_hi")).isEmpty();
        assertThat(desk.design().nets()).hasSize(design.nets().size() - 2);
        assertThat(KeptChanges.of(design).design()).isSameAs(design);
    }
}
