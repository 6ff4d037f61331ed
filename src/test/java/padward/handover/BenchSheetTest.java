package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import padward.change.Edit;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.example.HandMade;
import padward.fabric.pad.PadDriving;
import padward.timing.ExternalLineDelay;
import padward.timing.Instrument;

/** A sheet says something of every line that was kept. Invented fabric. */
class BenchSheetTest {
    private static LedgerEntry entry(String net, String pad, Edit... edits) {
        return new LedgerEntry("2026-11-26T10:00:00Z", "anna", "", net, pad, List.of(edits));
    }

    private static Edit breakOut(Design design, String net, String pad, String... route) {
        List<Integer> vertices =
                List.of(route).stream().map(v -> design.fabric().findVertex(v)).toList();
        return new Edit.BreakOut(net, "out_" + pad, pad, "", vertices);
    }

    @Test
    void aLineThatALaterEntryRemovesIsNamedInASentence() {
        Design design =
                new HandMade()
                        .site("ONE", "", "q")
                        .site("TWO", "", "q")
                        .wires("w x")
                        .pad("LEFT")
                        .pad("RIGHT")
                        .cell("one", "ONE")
                        .cell("two", "TWO")
                        .chain("ONE.q w LEFT")
                        .chain("TWO.q w x RIGHT")
                        .net("first", "one.q", "")
                        .net("second", "two.q", "")
                        .design();
        Ledger ledger =
                new Ledger(
                        "d.json",
                        "",
                        List.of(
                                entry(
                                        "first",
                                        "LEFT",
                                        breakOut(design, "first", "LEFT", "ONE.q", "w", "LEFT")),
                                entry(
                                        "second",
                                        "RIGHT",
                                        new Edit.RemoveNet("first"),
                                        breakOut(
                                                design, "second", "RIGHT", "TWO.q", "w", "x",
                                                "RIGHT"))));
        EntryReplay replay = new EntryReplay(design);
        ledger.entries().forEach(e -> assertThat(replay.add(e.edits())).isEmpty());
        BenchSheet sheet =
                BenchSheet.of(
                        design,
                        ledger,
                        replay.design(),
                        ExternalLineDelay.USUAL,
                        Instrument.UNKNOWN);
        assertThat(sheet.lines()).extracting(BenchSheet.Line::net).containsExactly("second");
        assertThat(sheet.missing())
                .containsExactly(
                        "Entry 1 brought net first out on pad LEFT; entry 2 removes it from there.");
        String page = SheetPage.html(sheet, replay.design(), "today", SheetPage.Paper.A4);
        assertThat(page).contains(sheet.missing().get(0));
    }

    @Test
    void aPathThatInvertsTurnsThePolarity() {
        Design design =
                new HandMade()
                        .wires("w")
                        .site("ONE", "", "q")
                        .drivenPad("LEFT", "", "", new PadDriving(true, List.of(), ""))
                        .chain("ONE.q w LEFT")
                        .cell("one", "ONE")
                        .net("first", "one.q", "")
                        .design();
        Ledger ledger =
                new Ledger(
                        "d.json",
                        "",
                        List.of(
                                entry(
                                        "first",
                                        "LEFT",
                                        breakOut(design, "first", "LEFT", "ONE.q", "w", "LEFT"))));
        EntryReplay replay = new EntryReplay(design);
        ledger.entries().forEach(e -> assertThat(replay.add(e.edits())).isEmpty());
        BenchSheet sheet =
                BenchSheet.of(
                        design,
                        ledger,
                        replay.design(),
                        ExternalLineDelay.USUAL,
                        Instrument.UNKNOWN);
        assertThat(sheet.lines())
                .extracting(BenchSheet.Line::polarity)
                .containsExactly("the inverse of the net");
    }
}
