package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.breakout.group.ForwardedClock;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.format.design.DesignReader;
import padward.timing.ExternalLineDelay;
import padward.timing.TreeDelays;

/**
 * A clock forwarded through a register of both edges before its pad. The example gets such a kind
 * of cell on its pads' sites: with a constant high for the rising edge and a constant low for the
 * falling one, what it drives is its clock.
 */
class ForwardedClockTest {
    private static final String KIND =
            """
            {"name": "io-register", "holdsState": true},
            {"name": "io-double", "holdsState": true, "doubleRateRegister": {"rising": "up",
             "falling": "down", "clock": "clk", "output": "q"SETTINGS,
             "doubleClockToOutput_ps": [80, 140]}}""";

    private static final String SETTINGS =
            ", \"risingSetting\": \"up_level\", \"fallingSetting\": \"down_level\"";

    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
        withKind(SETTINGS);
    }

    private void withKind(String settings) throws Exception {
        String text = Files.readString(Path.of("fixtures/small/only.fabric.json"));
        String site = "\"accepts\": [\"io-register\"],\n          \"pins\": [";
        assertThat(text).contains(site);
        Files.writeString(
                folder.resolve("only.fabric.json"),
                text.replace(
                                "{\"name\": \"io-register\", \"holdsState\": true}",
                                KIND.replace("SETTINGS", settings))
                        .replace(
                                site,
                                "\"accepts\": [\"io-register\", \"io-double\"],\n\"pins\": ["
                                        + "{\"name\": \"up\", \"direction\": \"in\"},"
                                        + "{\"name\": \"down\", \"direction\": \"in\"},"));
    }

    private CommandRun bus(Object... more) {
        List<Object> words = new ArrayList<>(List.of("bus", "-d", design));
        words.addAll(List.of("-p", "header J1", "--register", "clk12"));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    private Design applied() throws Exception {
        Path changed = folder.resolve("changed.json");
        CommandRun.of("apply", "-d", design, "-l", ledger, "-o", changed);
        assertThat(CommandRun.of("check", changed).out()).contains("sound");
        return DesignReader.read(changed, Progress.NONE);
    }

    @Test
    void theCopyIsPlacedWithConstantsAndStaysOnTheClockNetwork() throws Exception {
        CommandRun kept = bus("-n", "clk12", "-n", "pump/level/sample[0]", "-l", ledger);
        assertThat(kept.err()).isEmpty();
        assertThat(kept.code()).isZero();
        assertThat(kept.out())
                .contains("the clock, forwarded")
                .contains("clk12 is forwarded on ", "by a register of both edges, forwarded/clk12")
                .contains("stays on the kinds of wire on which the clock already runs")
                .contains("The registers are placed.");
        Design after = applied();
        Cell cell = after.findCell("forwarded/clk12").orElseThrow();
        assertThat(cell.kind()).isEqualTo("io-double");
        // High after a rising edge, low after a falling one: the clock itself, not its inverse.
        assertThat(cell.settings()).containsEntry("up_level", "1").containsEntry("down_level", "0");
        Net copy = after.findNet("forwarded/clk12").orElseThrow();
        assertThat(after.textOf(copy.driver())).isEqualTo("forwarded/clk12.q");
        Net clock = after.findNet("clk12").orElseThrow();
        assertThat(clock.sinks()).contains(new Terminal.CellPin(cell.id(), "clk"));
        SiteView site = after.fabric().site(cell.site());
        for (String pin : List.of("up", "down", "d")) {
            assertThat(after.occupancy().findNetOn(site.findPin(pin))).isEmpty();
        }
        assertThat(kept.out())
                .contains("add cell forwarded/clk12 of kind io-double on " + site.name());
    }

    /** By hand: the clock's way to the register, 80 to 140 ps, and the line from there. */
    @Test
    void itsDelayIsTheSumOfItsParts() throws Exception {
        JsonObject forwarded =
                bus("-n", "clk12", "--json")
                        .json()
                        .getAsJsonObject("registered")
                        .getAsJsonObject("forwarded");
        bus("-n", "clk12", "-l", ledger);
        Design after = applied();
        Cell cell = after.findCell("forwarded/clk12").orElseThrow();
        Net clock = after.findNet("clk12").orElseThrow();
        int pin = after.fabric().site(cell.site()).findPin("clk");
        Delay edge = TreeDelays.of(after.fabric(), clock.route()).at(clock.route().placeOf(pin));
        assertThat(forwarded.getAsJsonArray("clock_ps"))
                .hasToString("[" + edge.fastPs() + "," + edge.slowPs() + "]");
        assertThat(forwarded.getAsJsonArray("otherWires")).isEmpty();
        JsonObject plain =
                CommandRun.of(
                                "ask",
                                "-d",
                                folder.resolve("changed.json"),
                                "-n",
                                "forwarded/clk12",
                                "-p",
                                after.fabric().pads().stream()
                                        .filter(p -> p.dataSite() == cell.site())
                                        .findFirst()
                                        .orElseThrow()
                                        .name(),
                                "--json")
                        .json();
        Delay fromRegister =
                new Delay(
                        plain.getAsJsonArray("delay_ps").get(0).getAsInt(),
                        plain.getAsJsonArray("delay_ps").get(1).getAsInt());
        for (Corner corner : Corner.values()) {
            int trace =
                    forwarded.getAsJsonArray("instrument_ps").get(corner.ordinal()).getAsInt()
                            - edge.at(corner)
                            - (corner == Corner.FAST ? 80 : 140)
                            - fromRegister.at(corner);
            assertThat(trace).as("trace and load").isBetween(0, 1_500);
        }
    }

    @Test
    void undoGivesTheVeryDesignBack() throws Exception {
        bus("-n", "clk12", "-l", ledger);
        assertThat(CommandRun.of("undo", "-d", design, "-l", ledger).code()).isZero();
        Path back = folder.resolve("again.json");
        CommandRun.of("apply", "-d", design, "-l", ledger, "-o", back);
        assertThat(Files.readAllBytes(back)).isEqualTo(Files.readAllBytes(design));
    }

    /** The copy is a channel of the clock: lines that the clock registers have their windows. */
    @Test
    void theSheetTakesTheCopyForTheClock() throws Exception {
        bus("-n", "clk12", "-n", "pump/level/sample[0]", "-l", ledger);
        Path sheet = folder.resolve("s.csv");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", sheet);
        List<String> rows = Files.readAllLines(sheet);
        int late = List.of(rows.get(0).split(",")).indexOf("lateCycles");
        int channel = rows.get(1).contains("forwarded/clk12") ? 1 : 2;
        assertThat(rows.get(channel).split(",", -1)[late]).isEmpty();
        assertThat(rows.get(3 - channel).split(",", -1)[late]).isEqualTo("1");
        int polarity = List.of(rows.get(0).split(",")).indexOf("polarity");
        assertThat(rows.get(channel).split(",")[polarity]).isEqualTo("as clk12");
        assertThat(rows.get(3 - channel).split(",")[polarity]).isEqualTo("as pump/level/sample[0]");
        Path page = folder.resolve("s.html");
        CommandRun made =
                CommandRun.of(
                        "sheet",
                        "-d",
                        design,
                        "-l",
                        ledger,
                        "-o",
                        page,
                        "--clock-channel",
                        "" + channel,
                        "--clock-mhz",
                        "12");
        assertThat(made.err()).isEmpty();
        assertThat(Jsoup.parse(page).text())
                .contains("rising edges of clk12 on channel " + channel)
                .containsPattern("registered/pump/level/sample\\[0\\].{0,20}: valid from")
                // The copy toggles twice a period, as its clock does.
                .contains("Channel " + channel + ": Sample rate: 96 MS/s are needed")
                .contains("Channel " + (3 - channel) + ": Sample rate: 48 MS/s are needed");
    }

    /** The irregular device has no way for its clock to a pad but through such a register. */
    @Test
    void aClockWithoutARouteIsForwardedNevertheless() throws Exception {
        Path device = folder.resolve("avocet");
        CommandRun.of("import", "--tables", Path.of("fixtures/irregular"), "-o", device);
        Path tide = device.resolve("design.json.gz");
        Object[] words = {
            "bus",
            "-d",
            tide,
            "-n",
            "clk",
            "-p",
            "x3y1/pad4",
            "--register",
            "clk",
            "--may-disconnect",
            "-l",
            ledger
        };
        CommandRun kept = CommandRun.of(words);
        assertThat(kept.code()).isZero();
        assertThat(kept.out())
                .doesNotContain("Not served")
                .contains("clk is forwarded on x3y1/pad4")
                .contains("disconnect port level");
        Path changed = device.resolve("changed.json.gz");
        CommandRun.of("apply", "-d", tide, "-l", ledger, "-o", changed);
        assertThat(CommandRun.of("check", changed).out()).contains("sound");
        Design after = DesignReader.read(changed, Progress.NONE);
        assertThat(after.findCell("forwarded/clk").orElseThrow().settings())
                .containsEntry("up_level", "1")
                .containsEntry("down_level", "0");
    }

    @Test
    void withoutWhatMakesTheDataConstantItIsRefused() throws Exception {
        withKind("");
        CommandRun run = bus("-n", "clk12", "-l", ledger);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains(
                        "not possible: it is the clock itself, and the fabric does not say how the"
                                + " data pins of kind io-double become constant");
        assertThat(Files.exists(ledger)).isFalse();
    }

    @Test
    void aPadWhosePathInvertsHasNoCopyInPhase() throws Exception {
        inFabric("\"packagePin\":", "\"inverts\": true, \"packagePin\":");
        CommandRun run = bus("-n", "clk12", "-l", ledger);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains(
                        "not possible: it is the clock itself, and the path to its pad inverts, so"
                                + " it would not be in phase");
        assertThat(Files.exists(ledger)).isFalse();
    }

    /**
     * For each pad, what {@code ask} says of a copy is what {@code bus} then does: the command that
     * it names works, and where it names none, none does.
     */
    @Test
    void theCommandThatAskNamesWorks() throws Exception {
        int works = 0;
        int without = 0;
        Design read = DesignReader.read(design, Progress.NONE);
        for (Pad pad : read.fabric().pads()) {
            String out = CommandRun.of("ask", "-d", design, "-n", "clk12", "-p", pad.name()).out();
            String command = "bus --nets 'clk12' --pads '" + pad.name() + "' --register 'clk12'";
            List<Object> words = new ArrayList<>(List.of("bus", "-d", design));
            words.addAll(List.of("-n", "clk12", "-p", pad.name(), "--register", "clk12"));
            boolean port = read.findPortOn(read.fabric().pads().indexOf(pad)).isPresent();
            if (port) {
                words.add("--may-disconnect");
                command += " --may-disconnect";
            }
            boolean named = out.contains(command + " forwards a copy in phase");
            boolean forwarded =
                    CommandRun.of(words.toArray()).out().contains("clk12 is forwarded on ");
            assertThat(named).as(pad.name() + ": " + out).isEqualTo(forwarded);
            works += named ? 1 : 0;
            without += named ? 0 : 1;
        }
        assertThat(works).isPositive();
        assertThat(without).isPositive();
    }

    /** Nothing uses such a site, and nothing may. */
    @Test
    void aSiteThatIsUnusableIsNotCalledUsed() throws Exception {
        Design read = DesignReader.read(design, Progress.NONE);
        String sites =
                read.fabric().pads().stream()
                        .map(p -> '"' + read.fabric().site(p.dataSite()).name() + '"')
                        .filter(
                                s ->
                                        read.cells().stream()
                                                .map(c -> read.fabric().site(c.site()).name())
                                                .noneMatch(n -> s.equals('"' + n + '"')))
                        .distinct()
                        .collect(Collectors.joining(", ", "\"unusable\": {\"sites\": [", "]}, "));
        inFabric("\"pads\": [\n    {\"pad\"", sites + "\"pads\": [\n    {\"pad\"");
        Design marked = DesignReader.read(design, Progress.NONE);
        List<String> reasons = new ArrayList<>();
        for (Pad pad : marked.fabric().pads()) {
            String site = marked.fabric().site(pad.dataSite()).name();
            String reason =
                    ForwardedClock.of(
                                    marked,
                                    marked.findNet("clk12").orElseThrow(),
                                    marked.fabric().pads().indexOf(pad),
                                    WantedDriver.NONE,
                                    "",
                                    ExternalLineDelay.USUAL,
                                    Progress.NONE)
                            .reason();
            boolean used = !sites.contains('"' + site + '"');
            assertThat(reason).isEqualTo("site " + site + (used ? " is used" : " is unusable"));
            reasons.add(reason);
        }
        assertThat(reasons).anyMatch(r -> r.endsWith("unusable")).anyMatch(r -> r.endsWith("used"));
    }

    private void inFabric(String what, String with) throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String text = Files.readString(fabric);
        assertThat(text).contains(what);
        Files.writeString(fabric, text.replace(what, with));
    }

    @Test
    void aKindIsOneSortOfRegisterAndNamesEachPinOnce() throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String text = Files.readString(fabric);
        Files.writeString(fabric, text.replace("\"falling\": \"down\"", "\"falling\": \"up\""));
        CommandRun run = CommandRun.of("check", design);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("cellKinds[3]", "expected each pin once", "\"up\" again");
    }
}
