package padward.ui.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.embed.swing.SwingFXUtils;
import javafx.event.ActionEvent;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Labeled;
import javafx.scene.control.MenuItem;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextField;
import javafx.scene.image.ImageView;
import javafx.scene.input.Clipboard;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.design.Design;
import padward.format.ledger.LeadField;
import padward.ui.OpenWindow;
import padward.ui.model.WindowModel;
import padward.ui.work.HeldBackground;

/** Undo at each entry, the check that nothing else was touched, and the bench sheet. */
@ExtendWith(ApplicationExtension.class)
class LedgerViewTest {
    private static final String ONE = "pump/level/sample[1]";
    private static final String ZERO = "pump/level/sample[0]";

    @TempDir private Path folder;
    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        stage.setWidth(1280);
        stage.setHeight(800);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private void keep(FxRobot robot, String net, String pad) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set(pad);
                    model.shown().ask();
                    model.shown().tryIt();
                    model.shown().acceptedProperty().set(true);
                    model.keep();
                });
    }

    private static void press(FxRobot robot, String id) {
        robot.interact(robot.lookup(id).queryAs(Button.class)::fire);
    }

    private static String all(FxRobot robot, String id) {
        StringBuilder text = new StringBuilder();
        Node within = robot.lookup(id).query();
        for (Node node : within.lookupAll("*")) {
            if (node instanceof Labeled labeled) {
                text.append(labeled.getText()).append('\n');
            }
        }
        return text.toString();
    }

    private Design shown() {
        return model.openedProperty().get().orElseThrow().design();
    }

    @Test
    void anEntryInTheMiddleIsUndoneAndRedone(FxRobot robot) throws Exception {
        keep(robot, ONE, "J1.3");
        keep(robot, ZERO, "J2.1");
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(2);
        press(robot, "#show-kept-button");
        assertThat(all(robot, "#ledger-view")).contains("1. " + ONE).contains("2. " + ZERO);
        press(robot, "#check-button");
        assertThat(all(robot, "#audit"))
                .contains("✓ Nothing else changed")
                .contains("cell pump/run/motor_out: gone by entry 1");
        picture(robot, "window-ledger", stage.getScene());
        robot.interact(() -> model.look().darkProperty().set(true));
        picture(robot, "window-ledger-dark", stage.getScene());
        robot.interact(() -> model.look().darkProperty().set(false));
        press(robot, "#undo-entry-1");
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(1);
        assertThat(shown().findCell("pump/run/motor_out")).isPresent();
        assertThat(shown().findNet(ZERO).orElseThrow().sinks()).hasSize(2);
        robot.interact(model::undo);
        assertThat(shown().findCell("pump/run/motor_out")).isEmpty();
    }

    @Test
    void whatDependsIsToldBeforeItGoes(FxRobot robot) throws Exception {
        keep(robot, ONE, "J1.3");
        // The pad is given up again for another net: that hangs on the entry before.
        keep(robot, ZERO, "J1.3");
        press(robot, "#undo-kept-1");
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(2);
        assertThat(all(robot, "#pending-undo"))
                .contains("Other entries depend on")
                .contains("2. " + ZERO);
        picture(robot, "window-dependents", stage.getScene());
        press(robot, "#cancel-undo-button");
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(2);
        press(robot, "#undo-entry-1");
        press(robot, "#undo-all-button");
        assertThat(model.keptProperty().get().orElseThrow().entries()).isEmpty();
        assertThat(shown().findCell("pump/run/motor_out")).isPresent();
        robot.interact(model::undo);
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(2);
    }

    private String clipboard(FxRobot robot) {
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        return copied[0];
    }

    @Test
    void entriesAreCountedAndCopiedWithHeads(FxRobot robot) throws Exception {
        keep(robot, ONE, "J1.3");
        robot.interact(() -> OpenWindow.actions(stage).get("show-kept").run());
        assertThat(robot.lookup("#ledger-count").queryLabeled().getText())
                .isEqualTo("1 kept change");
        robot.interact(() -> robot.lookup("#check-button").query().requestFocus());
        robot.push(KeyCode.SHORTCUT, KeyCode.C);
        List<String> lines = clipboard(robot).lines().toList();
        assertThat(lines).hasSize(2);
        assertThat(lines.get(0)).isEqualTo("entry,net or change,pad,when,who,note,accepted,edits");
        assertThat(lines.get(1)).startsWith("1," + ONE + ",").contains("motor");
        Button undo = robot.lookup("#undo-entry-1").queryAs(Button.class);
        List<String> items =
                undo.getContextMenu().getItems().stream().map(MenuItem::getText).toList();
        assertThat(items)
                .contains("Undo this entry", "Show on the map", "Copy all entries with heads");
        robot.interact(() -> undo.getContextMenu().getItems().get(0).fire());
        assertThat(model.keptProperty().get().orElseThrow().entries()).isEmpty();
    }

    /** The number of an entry is none of its words. */
    @Test
    void onlyWhatThePromptNamesIsSearched() {
        Edit edit = new Edit.RemoveNet("pump/run");
        LedgerEntry entry =
                new LedgerEntry("a Monday", "me", "a note", "clock", "pad", List.of(edit));
        for (String word : List.of("clock", "pad", "monday", "me", "note", "pump/run")) {
            assertThat(LedgerView.hasAll(entry, List.of(word))).as(word).isTrue();
        }
        assertThat(LedgerView.hasAll(entry, List.of("1"))).isFalse();
        assertThat(LedgerView.hasAll(entry, List.of("clock", "other"))).isFalse();
    }

    @Test
    void entriesAreFiltered(FxRobot robot) throws Exception {
        keep(robot, ONE, "J1.3");
        keep(robot, ZERO, "J2.1");
        robot.interact(() -> OpenWindow.actions(stage).get("show-kept").run());
        press(robot, "#check-button");
        TextField filter = robot.lookup("#ledger-filter").queryAs(TextField.class);
        robot.interact(() -> filter.setText("MOTOR sample[1]"));
        assertThat(robot.lookup("#ledger-count").queryLabeled().getText())
                .isEqualTo("1 of 2 kept changes");
        assertThat(all(robot, "#ledger-view")).contains("1. " + ONE).doesNotContain("2. " + ZERO);
        assertThat(all(robot, "#audit")).as("what was compared").contains("Nothing else changed");
        robot.interact(() -> filter.setText("sample[0]"));
        // It keeps its number, and its button undoes just it.
        assertThat(all(robot, "#ledger-view")).contains("2. " + ZERO);
        robot.interact(() -> robot.lookup("#check-button").query().requestFocus());
        robot.push(KeyCode.SHORTCUT, KeyCode.C);
        assertThat(clipboard(robot).lines().skip(1)).hasSize(1).allMatch(l -> l.startsWith("2,"));
        press(robot, "#undo-entry-2");
        assertThat(model.keptProperty().get().orElseThrow().entries())
                .singleElement()
                .satisfies(e -> assertThat(e.net()).isEqualTo(ONE));
        assertThat(all(robot, "#ledger-view")).contains("No entry has these words");
    }

    @Test
    void theSheetIsSeenAndExported(FxRobot robot) throws Exception {
        keep(robot, ONE, "J1.3");
        Stage[] opened = new Stage[1];
        robot.interact(() -> opened[0] = SheetWindow.open(model, stage));
        try {
            Scene scene = opened[0].getScene();
            assertThat(scene.getRoot().lookupAll("*"))
                    .anyMatch(n -> n instanceof ImageView v && v.getImage().getWidth() > 800);
            picture(robot, "window-sheet", scene);
        } finally {
            robot.interact(opened[0]::close);
        }
        // A closed sheet no longer listens to the main window's looks.
        robot.interact(() -> model.look().darkProperty().set(true));
        assertThat(opened[0].getScene().getRoot().getStyleClass()).doesNotContain("dark");
        SheetModel sheet = new SheetModel(model);
        for (String name : new String[] {"s.pdf", "s.html", "s.csv", "s.sdf", "s.json"}) {
            robot.interact(() -> sheet.export(folder.resolve(name)));
            assertThat(Files.size(folder.resolve(name))).isPositive();
        }
        try (PDDocument pdf = Loader.loadPDF(folder.resolve("s.pdf").toFile())) {
            assertThat(pdf.getNumberOfPages()).isEqualTo(1);
        }
        List<BufferedImage> forPrinter = new ArrayList<>();
        robot.interact(() -> sheet.forPrinter((made, size) -> forPrinter.addAll(made)));
        assertThat(forPrinter).singleElement().matches(p -> p.getWidth() > 2000);
        robot.interact(() -> sheet.export(folder.resolve("s.txt")));
        assertThat(model.notes().all().get(0).text()).contains("a name that ends in .pdf");
        assertThat(sheet.noteProperty().get()).contains("a name that ends in .pdf");
    }

    @Test
    void leadsAreEditedInTheSheetAndUndone(FxRobot robot) throws Exception {
        keep(robot, ONE, "J1.3");
        keep(robot, ZERO, "J2.1");
        press(robot, "#show-kept-button");
        Stage[] opened = new Stage[1];
        robot.interact(() -> opened[0] = SheetWindow.open(model, stage));
        try {
            Scene scene = opened[0].getScene();
            type(robot, scene, "#lead-1-name", "clip 3");
            type(robot, scene, "#lead-1-pod", "A");
            type(robot, scene, "#lead-2-colour", "red");
            type(robot, scene, "#lead-2-length-m", "0,25");
            assertThat(lead(0).toText()).isEqualTo("pod A, clip 3");
            assertThat(lead(1).toText()).isEqualTo("red, 0.25 m");
            assertThat(all(robot, "#ledger-view"))
                    .contains("Channel 1 on port out_J1.3: pod A, clip 3")
                    .contains("Channel 2 on port out_J2.1: red, 0.25 m");
            assertThat(csv(robot)).contains(",clip 3,A,,0").contains(",,red,0.25");
            type(robot, scene, "#lead-2-channel", "1");
            assertThat(text(scene, "#leads-fault"))
                    .isEqualTo(
                            "Channel of the lead of out_J2.1: this needs a channel of no other"
                                    + " line, but there is out_J1.3's.");
            type(robot, scene, "#lead-2-colour", "blue");
            assertThat(lead(1).colour()).isEqualTo("blue");
            assertThat(text(scene, "#leads-fault")).startsWith("Channel of the lead of out_J2.1");
            type(robot, scene, "#lead-1-length-m", "far");
            assertThat(text(scene, "#leads-fault").lines())
                    .anyMatch(l -> l.startsWith("Length, m of the lead of out_J1.3: this needs "))
                    .hasSize(2);
            robot.push(KeyCode.ESCAPE);
            assertThat(text(scene, "#leads-fault").lines()).hasSize(1);
            robot.interact(model::undo);
            picture(robot, "window-leads", scene);
            robot.interact(() -> model.look().darkProperty().set(true));
            picture(robot, "window-leads-dark", scene);
            robot.interact(() -> model.look().darkProperty().set(false));
            assertThat(lead(1).channel()).isEqualTo(2);
            type(robot, scene, "#lead-2-channel", "7");
            assertThat(text(scene, "#leads-fault")).isEmpty();
            assertThat(lead(1).channel()).isEqualTo(7);
            robot.interact(model::undo);
            assertThat(lead(1).channel()).isEqualTo(2);
            assertThat(field(scene, "#lead-2-channel").getText()).isEqualTo("2");
            robot.interact(model::undo);
            assertThat(lead(1).metres()).isEmpty();
            robot.interact(model::redo);
            assertThat(lead(1).metres()).contains(0.25);
        } finally {
            robot.interact(opened[0]::close);
        }
        Path ledger = folder.resolve("l.json");
        robot.interact(() -> model.design().saveLedger(ledger));
        assertThat(Files.readString(ledger)).contains("clip 3").contains("\"length_m\": 0.25");
    }

    @Test
    void aLeadIsNotWrittenBackByLosingItsField(FxRobot robot) {
        keep(robot, ONE, "J1.3");
        keep(robot, ZERO, "J2.1");
        Stage[] opened = new Stage[1];
        robot.interact(() -> opened[0] = SheetWindow.open(model, stage));
        try {
            Scene scene = opened[0].getScene();
            press(robot, "#undo-kept-1");
            robot.interact(() -> field(scene, "#lead-1-name").requestFocus());
            robot.interact(() -> field(scene, "#lead-1-name").setText("half ty"));
            robot.interact(model::undo);
            WaitForAsyncUtils.waitForFxEvents();
            assertThat(lead(1).name()).isEmpty();
            assertThat(model.history().nextRedoProperty().get()).isPresent();
            assertThat(field(scene, "#lead-1-name").getText()).isEmpty();
            assertThat(field(scene, "#lead-2-name").getText()).isEqualTo("half ty");
            assertThat(field(scene, "#lead-2-name").isFocused()).isTrue();
        } finally {
            robot.interact(opened[0]::close);
        }
    }

    @Test
    void onlyLeadsAreUndoneFromTheSheet(FxRobot robot) {
        keep(robot, ONE, "J1.3");
        Stage[] opened = new Stage[1];
        robot.interact(() -> opened[0] = SheetWindow.open(model, stage));
        try {
            Scene scene = opened[0].getScene();
            robot.interact(() -> scene.lookup("#export-button").requestFocus());
            robot.push(KeyCode.SHORTCUT, KeyCode.Z);
            assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(1);
            assertThat(text(scene, "#sheet-note"))
                    .startsWith("The next step to undo is keeping ")
                    .endsWith("undo it in the main window.");
            type(robot, scene, "#lead-1-name", "clip");
            robot.push(KeyCode.SHORTCUT, KeyCode.Z);
            assertThat(lead(0).name()).isEmpty();
            assertThat(text(scene, "#sheet-note"))
                    .isEqualTo("Undone: changing the lead of out_J1.3.");
            robot.push(KeyCode.SHORTCUT, KeyCode.Y);
            assertThat(lead(0).name()).isEqualTo("clip");
            robot.push(KeyCode.SHORTCUT, KeyCode.Z);
            robot.push(KeyCode.SHORTCUT, KeyCode.SHIFT, KeyCode.Z);
            assertThat(lead(0).name()).isEqualTo("clip");
            Spinner<?> length = (Spinner<?>) scene.lookup("#lead");
            robot.interact(
                    () -> {
                        length.requestFocus();
                        length.getEditor().setText("0.35");
                    });
            robot.push(KeyCode.SHORTCUT, KeyCode.Z);
            assertThat(lead(0).name()).isEqualTo("clip");
        } finally {
            robot.interact(opened[0]::close);
        }
    }

    @Test
    void aChangedLeadDoesNotStopAnExport(FxRobot robot) throws IOException {
        keep(robot, ONE, "J1.3");
        HeldBackground held = new HeldBackground();
        Path file = folder.resolve("late.csv");
        robot.interact(
                () -> {
                    WindowModel own = new WindowModel(held);
                    own.open(Path.of("fixtures/small/only.design.json"));
                    held.endAll();
                    own.design()
                            .keep(
                                    own.design().state().orElseThrow().version(),
                                    model.keptProperty().get().orElseThrow().entries().get(0),
                                    model.openedProperty().get().orElseThrow());
                    held.endAll();
                    SheetModel sheet = new SheetModel(own);
                    sheet.export(file);
                    sheet.refresh();
                    List<BufferedImage> printed = new ArrayList<>();
                    sheet.forPrinter((made, size) -> printed.addAll(made));
                    sheet.stop();
                    assertThat(sheet.busyProperty().get()).isTrue();
                    held.endAll();
                    assertThat(printed).isEmpty();
                    assertThat(sheet.busyProperty().get()).isFalse();
                });
        assertThat(file).isNotEmptyFile();
    }

    @Test
    void aWhatIfOutlivesAnotherLeadsName(FxRobot robot) {
        keep(robot, ONE, "J1.3");
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(ZERO);
                    model.shown().padTextProperty().set("J2.1");
                    model.shown().ask();
                    model.shown().tryIt();
                    new LeadsModel(model).set("out_J1.3", LeadField.NAME, "clip");
                    model.shown().acceptedProperty().set(true);
                    model.keep();
                });
        assertThat(model.keptProperty().get().orElseThrow().entries()).hasSize(2);
        assertThat(lead(0).name()).isEqualTo("clip");
    }

    private LedgerLead lead(int line) {
        return LedgerLead.all(model.keptProperty().get().orElseThrow().entries()).stream()
                .flatMap(List::stream)
                .toList()
                .get(line);
    }

    private String csv(FxRobot robot) throws IOException {
        Path file = folder.resolve("l.csv");
        robot.interact(() -> new SheetModel(model).export(file));
        return Files.readString(file);
    }

    private static TextField field(Scene scene, String id) {
        return (TextField) scene.lookup(id);
    }

    private static String text(Scene scene, String id) {
        return ((Labeled) scene.lookup(id)).getText();
    }

    private static void type(FxRobot robot, Scene scene, String id, String text) {
        robot.interact(
                () -> {
                    field(scene, id).requestFocus();
                    field(scene, id).setText(text);
                    field(scene, id).fireEvent(new ActionEvent());
                });
    }

    private static void picture(FxRobot robot, String name, Scene scene) throws Exception {
        Optional<String> pictures = Optional.ofNullable(System.getProperty("pictures"));
        if (pictures.isEmpty()) {
            return;
        }
        for (int pulse = 0; pulse < 4; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
            Thread.sleep(80);
        }
        File file = new File(pictures.get(), name + ".png");
        robot.interact(
                () -> {
                    try {
                        ImageIO.write(
                                SwingFXUtils.fromFXImage(scene.snapshot(null), null), "png", file);
                    } catch (IOException fault) {
                        throw new UncheckedIOException(fault);
                    }
                });
    }
}
