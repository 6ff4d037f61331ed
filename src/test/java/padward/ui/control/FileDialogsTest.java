package padward.ui.control;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.layout.Pane;
import javafx.stage.FileChooser;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;

/** Where the file dialogs begin and what they offer, without the system's window. */
@ExtendWith(ApplicationExtension.class)
class FileDialogsTest {
    @TempDir private Path folder;

    @Start
    void start(Stage stage) {
        stage.show();
    }

    @Test
    void theFirstBeginsBesideTheDesignAndTheNextWhereTheLastEnded() throws Exception {
        Path designs = Files.createDirectories(folder.resolve("designs"));
        Path bench = Files.createDirectories(folder.resolve("bench"));
        FileDialogs dialogs =
                new FileDialogs(new Pane(), () -> Optional.of(designs.resolve("a.design.json")));
        assertThat(dialogs.chooser("Open").getInitialDirectory()).isEqualTo(designs.toFile());
        assertThat(dialogs.path(null)).as("cancelled").isEmpty();
        assertThat(dialogs.chooser("Open").getInitialDirectory()).isEqualTo(designs.toFile());
        assertThat(dialogs.path(bench.resolve("x.pdf").toFile())).contains(bench.resolve("x.pdf"));
        assertThat(dialogs.chooser("Save").getInitialDirectory()).isEqualTo(bench.toFile());
        // A folder that is gone would make the system's dialog fail.
        Files.delete(bench);
        assertThat(dialogs.chooser("Save").getInitialDirectory()).isNull();
        assertThat(new FileDialogs(new Pane()).chooser("Open").getInitialDirectory()).isNull();
    }

    @Test
    void aSheetIsSavedAsAnyOfItsKinds() {
        FileChooser chooser = new FileChooser();
        FileDialogs.sheetFilters(chooser);
        assertThat(chooser.getExtensionFilters())
                .flatExtracting(FileChooser.ExtensionFilter::getExtensions)
                .containsExactly("*.pdf", "*.html", "*.csv", "*.sdf", "*.json", "*");
        FileChooser picture = new FileChooser();
        FileDialogs.filters(picture, "map.svg");
        assertThat(picture.getExtensionFilters())
                .extracting(FileChooser.ExtensionFilter::getDescription)
                .containsExactly("Pictures (*.svg)", "All files");
        FileChooser fabric = new FileChooser();
        FileDialogs.filters(fabric, "fabric.json", "fabric.json.gz");
        assertThat(fabric.getExtensionFilters())
                .extracting(FileChooser.ExtensionFilter::getDescription)
                .containsExactly("Fabrics (*.json)", "Compressed files (*.gz)", "All files");
    }
}
