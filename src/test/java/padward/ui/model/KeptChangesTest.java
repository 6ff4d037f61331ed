package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.DesignReader;

/** Keeping and undoing, without a window. */
class KeptChangesTest {
    private static Design design;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    private static LedgerEntry removing(String net) {
        return new LedgerEntry("now", "me", "", net, "pad", List.of(new Edit.RemoveNet(net)));
    }

    @Test
    void keptChangesAreOnTheDesignThatIsShown() {
        KeptChanges kept =
                KeptChanges.of(design).with(removing("alarm/beep")).with(removing("float_hi"));
        assertThat(kept.design().findNet("float_hi")).isEmpty();
        assertThat(kept.design().nets()).hasSize(design.nets().size() - 2);
        assertThat(KeptChanges.of(design).design()).isSameAs(design);
    }
}
