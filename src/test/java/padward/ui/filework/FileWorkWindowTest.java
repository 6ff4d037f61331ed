package padward.ui.filework;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.DialogPane;
import javafx.scene.control.TextField;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.cli.Padward;
import padward.ui.OpenWindow;
import padward.ui.model.WindowModel;

/** Tools from the menu do what the commands do, and tell what came out. */
@ExtendWith(ApplicationExtension.class)
class FileWorkWindowTest {
    private static final String CAPTURE =
            "$timescale 1 ps $end\n$scope module top $end\n$var wire 1 ! D0 $end\n"
                    + "$var wire 1 \" D1 $end\n$upscope $end\n$enddefinitions $end\n"
                    + "#0\n0!\n0\"\n#10000\n1!\n#20000\n1\"\n";

    private static final String SHEET =
            "net,port,instrumentFast_ps,instrumentSlow_ps\n"
                    + "first,D0,1000,1000\nsecond,other,4000,4000\n";

    private Stage stage;
    private WindowModel model;

    @TempDir private Path folder;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
    }

    @AfterEach
    void closeDialogs(FxRobot robot) {
        robot.interact(
                () ->
                        Window.getWindows().stream()
                                .filter(w -> w != stage)
                                .toList()
                                .forEach(Window::hide));
    }

    private DialogPane open(FxRobot robot, String action) {
        robot.interact(() -> OpenWindow.actions(stage).get(action).run());
        WaitForAsyncUtils.waitForFxEvents();
        return robot.lookup("#tool-dialog").queryAs(DialogPane.class);
    }

    private static void enter(FxRobot robot, DialogPane dialog, String field, Object text) {
        robot.interact(
                () ->
                        robot.from(dialog)
                                .lookup("#" + field)
                                .queryAs(TextField.class)
                                .setText(text.toString()));
    }

    private static void run(FxRobot robot, DialogPane dialog) {
        robot.interact(() -> robot.from(dialog).lookup("#tool-run").queryAs(Button.class).fire());
        WaitForAsyncUtils.waitForFxEvents();
    }

    private String note() {
        assertThat(model.notes().all()).hasSize(1);
        return model.notes().all().get(0).text();
    }

    private Path file(String name, String text) throws Exception {
        return Files.writeString(folder.resolve(name), text);
    }

    @Test
    void aCaptureIsDeskewedByTheSheet(FxRobot robot) throws Exception {
        Path out = folder.resolve("out.vcd");
        DialogPane dialog = open(robot, "deskew");
        Button run = robot.from(dialog).lookup("#tool-run").queryAs(Button.class);
        assertThat(run.isDisabled()).as("nothing is stated yet").isTrue();
        enter(robot, dialog, "deskew-capture", file("in.vcd", CAPTURE));
        enter(robot, dialog, "deskew-sheet", file("sheet.csv", SHEET));
        enter(robot, dialog, "deskew-channels", "D1 = second");
        enter(robot, dialog, "deskew-output", out);
        assertThat(run.isDisabled()).isFalse();
        run(robot, dialog);
        assertThat(robot.lookup("#tool-dialog").tryQuery()).as("closed").isEmpty();
        assertThat(model.notes().statusProperty().get())
                .isEqualTo(
                        "Saved the deskewed capture in "
                                + out
                                + ": 2 of 2 channels shifted by the delay of a line on the sheet.");
        assertThat(model.notes().all()).isEmpty();
        // The lines differ by 3 ns, so the second change is 7 ns after the first, not 10.
        assertThat(sinceFirst(out)).isEqualTo(7_000_000);
    }

    @ParameterizedTest
    @CsvSource({"deskew, channels", "deskew, clocks", "place-route, top"})
    void anEmptyFieldShowsAnExampleAndItsTooltipSaysWhenItIsNeeded(
            String tool, String name, FxRobot robot) {
        DialogPane dialog = open(robot, tool);
        TextField field =
                robot.from(dialog).lookup("#" + tool + "-" + name).queryAs(TextField.class);
        assertThat(field.getPromptText()).startsWith("such as ");
        assertThat(field.getTooltip().getText())
                .contains("where ")
                .isEqualTo(field.getAccessibleHelp());
    }

    @Test
    void fieldsHaveRoomForAsMuchOfAPathInLargeText(FxRobot robot) {
        double usual = fieldWidth(robot);
        robot.interact(() -> model.look().setTextSize(20));
        assertThat(fieldWidth(robot)).isGreaterThan(1.3 * usual);
    }

    private double fieldWidth(FxRobot robot) {
        DialogPane dialog = open(robot, "deskew");
        double wide =
                robot.from(dialog).lookup("#deskew-capture").queryAs(TextField.class).getWidth();
        robot.interact(() -> dialog.getScene().getWindow().hide());
        return wide;
    }

    /** The second line is a watch circuit's, two cycles late. */
    @Test
    void aLineThatIsLateByCyclesNeedsTheClocksFrequency(FxRobot robot) throws Exception {
        String sheet =
                "net,port,instrumentFast_ps,instrumentSlow_ps,lateCycles,lateClock\n"
                        + "first,D0,1000,1000,,\nsecond,D1,1000,1000,2,clk12\n";
        Path out = folder.resolve("out.vcd");
        DialogPane dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-capture", file("in.vcd", CAPTURE));
        enter(robot, dialog, "deskew-sheet", file("sheet.csv", sheet));
        enter(robot, dialog, "deskew-output", out);
        run(robot, dialog);
        assertThat(note())
                .startsWith("top.D1 is 2 cycles of clk12 late")
                .contains("under “Clocks, MHz”, such as clk12 = 12.5");
        assertThat(sinceFirst(out)).isEqualTo(10_000_000);
        Path with = folder.resolve("with.vcd");
        dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-clocks", "clk12 = 500");
        enter(robot, dialog, "deskew-output", with);
        run(robot, dialog);
        assertThat(model.notes().all()).isEmpty();
        assertThat(sinceFirst(with)).as("4 ns less").isEqualTo(6_000_000);
        for (String wrong : List.of("clk13 = 10", "clk12 = fast", "clk12")) {
            dialog = open(robot, "deskew");
            enter(robot, dialog, "deskew-clocks", wrong);
            enter(robot, dialog, "deskew-output", folder.resolve("wrong.vcd"));
            run(robot, dialog);
            assertThat(note()).as(wrong).contains("Clocks, MHz").doesNotContain("--");
        }
    }

    /** Time between the two changes after the start, fs; read by hand. */
    private static long sinceFirst(Path vcd) throws Exception {
        String text = Files.readString(vcd);
        String unit = text.substring(text.indexOf("$timescale") + 10).strip().split("\\$end")[0];
        long fs =
                Long.parseLong(unit.replaceAll("[^0-9]", ""))
                        * (unit.contains("fs") ? 1 : unit.contains("ps") ? 1000 : 1_000_000);
        long now = 0;
        long first = -1;
        long second = -1;
        for (String line : text.substring(text.indexOf("$enddefinitions")).split("\n")) {
            if (line.startsWith("#")) {
                now = Long.parseLong(line.substring(1).strip());
            } else if (line.equals("1!")) {
                first = now;
            } else if (line.equals("1\"")) {
                second = now;
            }
        }
        return (second - first) * fs;
    }

    @Test
    void faultsAreToldAndWhatWasEnteredStays(FxRobot robot) throws Exception {
        Path in = file("in.vcd", CAPTURE);
        DialogPane dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-capture", in);
        enter(robot, dialog, "deskew-sheet", file("sheet.csv", SHEET));
        enter(robot, dialog, "deskew-output", in);
        run(robot, dialog);
        assertThat(note())
                .startsWith(
                        "The field “Write to” needs a file other than those that are read, but has"
                                + " “"
                                + in
                                + "”.");
        assertThat(Files.readString(in)).isEqualTo(CAPTURE);
        dialog = open(robot, "deskew");
        assertThat(robot.from(dialog).lookup("#deskew-capture").queryAs(TextField.class).getText())
                .isEqualTo(in.toString());
        enter(robot, dialog, "deskew-output", folder.resolve("out.vcd"));
        enter(robot, dialog, "deskew-channels", "D9 = second");
        run(robot, dialog);
        assertThat(note())
                .startsWith("The field “Channels” needs a channel of the capture, but has D9.");
        dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-channels", "second");
        run(robot, dialog);
        assertThat(note()).startsWith("The field “Channels” needs pairs such as D0 = J1.2");
    }

    private static String text(FxRobot robot, DialogPane dialog, String field) {
        return robot.from(dialog).lookup("#" + field).queryAs(TextField.class).getText();
    }

    @Test
    void theOfferedNameFollowsWhatIsReadUntilTheUserStatesAnother(FxRobot robot) {
        DialogPane dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-capture", folder.resolve("one.vcd"));
        String offered = folder.resolve("one-deskewed.vcd").toString();
        assertThat(text(robot, dialog, "deskew-output")).isEqualTo(offered);
        enter(robot, dialog, "deskew-capture", folder.resolve("two.vcd"));
        offered = folder.resolve("two-deskewed.vcd").toString();
        assertThat(text(robot, dialog, "deskew-output")).isEqualTo(offered);
        enter(robot, dialog, "deskew-output", "mine.vcd");
        enter(robot, dialog, "deskew-capture", folder.resolve("three.vcd"));
        assertThat(text(robot, dialog, "deskew-output")).isEqualTo("mine.vcd");
    }

    private static void answer(FxRobot robot, String button) {
        DialogPane consent = robot.lookup("#consent").queryAs(DialogPane.class);
        robot.interact(
                () ->
                        consent.getButtonTypes().stream()
                                .filter(t -> t.getText().equals(button))
                                .map(t -> (Button) consent.lookupButton(t))
                                .forEach(Button::fire));
        WaitForAsyncUtils.waitForFxEvents();
    }

    @Test
    void aFileThatIsThereIsReplacedOnlyWhenTheUserAgrees(FxRobot robot) throws Exception {
        Path out = file("out.vcd", "measured yesterday");
        DialogPane dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-capture", file("in.vcd", CAPTURE));
        enter(robot, dialog, "deskew-sheet", file("sheet.csv", SHEET));
        enter(robot, dialog, "deskew-output", out);
        run(robot, dialog);
        assertThat(robot.lookup("#consent").queryAs(DialogPane.class).getContentText())
                .isEqualTo("There is a file " + out + " already.");
        answer(robot, "Cancel");
        assertThat(Files.readString(out)).isEqualTo("measured yesterday");
        assertThat(model.notes().statusProperty().get()).doesNotContain("Saved");
        run(robot, open(robot, "deskew"));
        answer(robot, "Replace it");
        assertThat(model.notes().statusProperty().get()).startsWith("Saved the deskewed capture");
        assertThat(Files.readString(out)).contains("$enddefinitions");
    }

    @Test
    void noToolWritesOverTheOpenDesign(FxRobot robot) throws Exception {
        Path design = folder.resolve("only.design.json");
        Path fabric = folder.resolve("only.fabric.json");
        Path board = folder.resolve("board.json");
        for (Path copy : List.of(design, fabric, board)) {
            Files.copy(Path.of("fixtures/small").resolve(copy.getFileName()), copy);
        }
        Path ledger = folder.resolve("ledger.json");
        robot.interact(() -> model.open(design));
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J1.2");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.shown().acceptedProperty().set(true);
                    model.keep();
                    model.design().saveLedger(ledger);
                });
        assertThat(model.notes().all()).isEmpty();
        for (Path file : List.of(design, fabric, board, ledger)) {
            String before = Files.readString(file);
            netlist(robot, "fixtures/workbench/fabric.json.gz", file, false);
            assertThat(robot.lookup("#consent").tryQuery()).as("no use in asking").isEmpty();
            assertThat(note())
                    .startsWith("The field “Write to” needs a file other than the open design's,")
                    .contains("but has “" + file + "”");
            assertThat(Files.readString(file)).isEqualTo(before);
        }
    }

    @Test
    void aSheetWithoutAnyOfTheChannelsIsTold(FxRobot robot) throws Exception {
        DialogPane dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-capture", file("in.vcd", CAPTURE));
        enter(robot, dialog, "deskew-sheet", file("sheet.csv", SHEET.replace("D0", "x")));
        enter(robot, dialog, "deskew-output", folder.resolve("out.vcd"));
        run(robot, dialog);
        assertThat(note())
                .startsWith("No channel of the capture has a line on the bench sheet")
                .contains("State the line of each channel under “Channels”");
    }

    @Test
    void tablesAreImportedAndOpened(FxRobot robot) {
        Path out = folder.resolve("imported");
        DialogPane dialog = open(robot, "import");
        enter(robot, dialog, "import-tables", "fixtures/tables");
        enter(robot, dialog, "import-output", out);
        run(robot, dialog);
        assertThat(model.notes().statusProperty().get())
                .startsWith("Imported the tables into " + out + ": design ")
                .endsWith(" nets.");
        assertThat(model.design().fileProperty().get()).contains(out.resolve("design.json.gz"));
        assertThat(model.openedProperty().get()).isPresent();
        dialog = open(robot, "import");
        run(robot, dialog);
        assertThat(note())
                .contains("this needs a new or empty folder, but there is \"board.json\" in it.")
                .endsWith("Choose another file or folder, or make room there, and save again.");
    }

    @Test
    void theFirstFaultOfTablesIsToldAndAllAreCounted(FxRobot robot) throws Exception {
        Path tables = Files.createDirectory(folder.resolve("tables"));
        try (var all = Files.list(Path.of("fixtures/tables"))) {
            for (Path one : all.toList()) {
                Files.copy(one, tables.resolve(one.getFileName()));
            }
        }
        Path nets = tables.resolve("nets.csv");
        Files.writeString(nets, Files.readString(nets) + "switch\n");
        DialogPane dialog = open(robot, "import");
        enter(robot, dialog, "import-tables", tables);
        enter(robot, dialog, "import-output", folder.resolve("imported"));
        run(robot, dialog);
        assertThat(note())
                .startsWith("Nothing was imported. ")
                .contains("nets.csv")
                .endsWith("Correct the tables and import them again.");
        assertThat(folder.resolve("imported")).doesNotExist();
    }

    private void netlist(FxRobot robot, String fabric, Path out, boolean opens) {
        netlist(robot, Path.of("fixtures/netlists/counter.v"), "", fabric, out, opens);
    }

    private void netlist(FxRobot robot, Path netlist, String top, String fabric, Path out) {
        netlist(robot, netlist, top, fabric, out, false);
    }

    private void netlist(
            FxRobot robot, Path netlist, String top, String fabric, Path out, boolean opens) {
        DialogPane dialog = open(robot, "place-route");
        enter(robot, dialog, "place-route-netlist", netlist);
        enter(robot, dialog, "place-route-top", top);
        enter(robot, dialog, "place-route-mapping", "fixtures/netlists/larch.mapping.json");
        enter(robot, dialog, "place-route-fabric", fabric);
        enter(robot, dialog, "place-route-output", out);
        robot.interact(
                () ->
                        robot.from(dialog)
                                .lookup("#place-route-opens")
                                .queryAs(CheckBox.class)
                                .setSelected(opens));
        run(robot, dialog);
    }

    private static void command(Object... words) {
        String[] texts = Arrays.stream(words).map(Object::toString).toArray(String[]::new);
        assertThat(Padward.commandLine().execute(texts)).isZero();
    }

    @Test
    void aNetlistIsPlacedAndRoutedAsByTheCommand(FxRobot robot) throws Exception {
        Path made = folder.resolve("made");
        command("make", "--wires", "8000", "--seed", "5", "--used", "0", "-o", made);
        Path fabric = made.resolve("fabric.json.gz");
        Path out = folder.resolve("window.design.json");
        netlist(robot, fabric.toString(), out, true);
        assertThat(model.notes().all()).isEmpty();
        assertThat(model.notes().statusProperty().get())
                .startsWith("Saved the routed design in " + out + ": ")
                .contains(" cells, ")
                .contains(" nets, worst delay ");
        assertThat(model.design().fileProperty().get()).contains(out);
        Path byCommand = folder.resolve("command.design.json");
        command(
                "place-route",
                "--netlist",
                "fixtures/netlists/counter.v",
                "--mapping",
                "fixtures/netlists/larch.mapping.json",
                "--fabric",
                fabric,
                "-o",
                byCommand);
        assertThat(out).hasSameTextualContentAs(byCommand);
    }

    @Test
    void whatDoesNotFitIsToldWithItsReason(FxRobot robot) {
        netlist(robot, "fixtures/small/only.fabric.json", folder.resolve("out.json"), true);
        assertThat(note())
                .startsWith("The netlist does not fit on the fabric, so nothing was written: ")
                .endsWith(". Choose a larger fabric or a smaller netlist.");
        assertThat(folder.resolve("out.json")).doesNotExist();
    }

    /** The window names its own field, where the command names an option. */
    @Test
    void theTopModuleCanBeStated(FxRobot robot) throws Exception {
        Path two =
                file(
                        "two.v",
                        Files.readString(Path.of("fixtures/netlists/counter.v"))
                                + "\nmodule other; endmodule\n");
        netlist(robot, two, "", "fixtures/small/only.fabric.json", folder.resolve("out.json"));
        assertThat(note())
                .contains(
                        "one module that no other instantiates, or its name under “Top module”, but"
                                + " there is counter, other.")
                .doesNotContain("--");
        netlist(
                robot,
                two,
                "counter",
                "fixtures/small/only.fabric.json",
                folder.resolve("out.json"));
        assertThat(note()).startsWith("The netlist does not fit on the fabric");
    }

    @Test
    void aNameOfTwoLinesIsStatedInTheFieldOfChannels(FxRobot robot) throws Exception {
        DialogPane dialog = open(robot, "deskew");
        enter(robot, dialog, "deskew-capture", file("in.vcd", CAPTURE));
        enter(robot, dialog, "deskew-sheet", file("sheet.csv", SHEET.replace("other", "D0")));
        enter(robot, dialog, "deskew-output", folder.resolve("out.vcd"));
        run(robot, dialog);
        assertThat(note())
                .contains("one line called D0, or the line of each channel under “Channels”")
                .doesNotContain("--");
    }

    @Test
    void remarksOfReadingTheNetlistAreTold(FxRobot robot) throws Exception {
        String text =
                Files.readString(Path.of("fixtures/netlists/counter.v"))
                        .replace("enable, count);", "enable, count, steady);\n  output steady;")
                        .replace(
                                "assign carry[0] = enable;",
                                "assign carry[0] = enable;\n  assign steady = 1'b1;");
        Path out = folder.resolve("out.design.json");
        netlist(robot, file("remarks.v", text), "", "fixtures/workbench/fabric.json.gz", out);
        assertThat(out).exists();
        assertThat(note())
                .startsWith("About the netlist: ")
                .contains("port steady is constant 1, so it has no net");
    }

    @Test
    void aMissingFileIsNamed(FxRobot robot) {
        netlist(robot, "no/such.fabric.json", folder.resolve("out.json"), false);
        assertThat(note()).startsWith("no/such.fabric.json: this needs ");
        assertThat(folder.resolve("out.json")).doesNotExist();
    }
}
