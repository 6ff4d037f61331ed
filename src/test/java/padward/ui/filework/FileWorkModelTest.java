package padward.ui.filework;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.ui.model.WindowModel;
import padward.ui.work.HeldBackground;

/** Tools run in the background, as work that is shown and can be stopped. */
class FileWorkModelTest {
    private final HeldBackground background = new HeldBackground();
    private final WindowModel model = new WindowModel(background);
    private final FileWorkModel tools = new FileWorkModel(model);

    @TempDir private Path folder;

    private void start(Path out) {
        tools.importTables(
                new FileWorkModel.ImportFields("fixtures/tables", "", out.toString(), false));
    }

    @Test
    void whatRunsIsShownUntilItIsDone() {
        Path out = folder.resolve("imported");
        start(out);
        assertThat(model.jobs().running())
                .singleElement()
                .satisfies(job -> assertThat(job.messageProperty().get()).isEqualTo("Importing"));
        assertThat(out).as("not on this thread").doesNotExist();
        background.endAll();
        assertThat(model.jobs().running()).isEmpty();
        assertThat(model.notes().all()).isEmpty();
        assertThat(model.notes().statusProperty().get()).startsWith("Imported the tables into ");
        assertThat(out).exists();
    }

    @Test
    void whatIsStoppedWritesNothing() {
        Path out = folder.resolve("imported");
        start(out);
        model.cancel();
        background.endAll();
        assertThat(model.jobs().running()).isEmpty();
        assertThat(model.notes().statusProperty().get()).isEmpty();
        assertThat(out).doesNotExist();
    }

    /** Two tools work beside each other, and each tells its own faults. */
    @Test
    void aToolLeavesAnotherAlone() {
        Path out = folder.resolve("imported");
        start(out);
        tools.placeAndRoute(
                new FileWorkModel.NetlistFields(
                        "no/such.v",
                        "",
                        "fixtures/netlists/larch.mapping.json",
                        "fixtures/small/only.fabric.json",
                        "",
                        folder.resolve("out.design.json").toString(),
                        false));
        assertThat(model.jobs().running()).hasSize(2);
        background.endAll();
        assertThat(out).exists();
        assertThat(model.notes().all())
                .singleElement()
                .matches(n -> n.text().contains("no/such.v"));
        start(folder.resolve("again"));
        assertThat(model.notes().all()).as("not about this tool").hasSize(1);
    }
}
