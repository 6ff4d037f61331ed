package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.group.Bus;
import padward.breakout.group.RegisterQuestion;
import padward.breakout.group.RegisteredGroup;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.example.OddDesigns;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.synth.DesignMaker;
import padward.timing.ExternalLineDelay;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;
import padward.watch.circuit.StartState;
import padward.watch.circuit.TruthTable;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;

/** Change lists, carried out step by step by a plain tool. */
class ChangeListProperties {
    private int shown;

    /** The entries that some drawn questions lead to, each on the design with those before it. */
    private static Ledger drawn(Design base, Random random, int most) {
        List<LedgerEntry> entries = new ArrayList<>();
        Design now = base;
        for (int i = 0; i < 4 * most && entries.size() < most; i++) {
            List<Net> nets = List.copyOf(now.nets());
            Net net = nets.get(random.nextInt(nets.size()));
            int pad = random.nextInt(now.fabric().pads().size());
            Answer answer = Asker.ask(new Question(now, net, pad, Corner.SLOW), Progress.NONE);
            List<Edit> edits = edits(answer, random);
            if (!edits.isEmpty() && Outcome.of(now, edits) instanceof Outcome.Applied applied) {
                String name = now.fabric().pads().get(pad).name();
                entries.add(new LedgerEntry("now", "test", "", net.name(), name, edits));
                now = applied.design();
            }
        }
        return new Ledger("drawn", "0".repeat(64), entries);
    }

    private static List<Edit> edits(Answer answer, Random random) {
        if (answer instanceof Answer.FreeRoute free) {
            return AnswerEdits.of(free);
        }
        if (answer instanceof Answer.Blocked blocked) {
            List<WhyBlocked.Option> options = blocked.why().orElseThrow().options();
            return options.isEmpty()
                    ? List.of()
                    : AnswerEdits.of(blocked, options.get(random.nextInt(options.size())));
        }
        return List.of();
    }

    /** There and back again; and what was kept last is at its pin. */
    private void check(Design base, Ledger ledger, String what) {
        Design after = ((Ledger.Applied.Fits) ledger.applyTo(base)).design();
        PlainChip chip = PlainChip.of(base);
        String before = chip.toString();
        chip.carryOut(ChangeList.of(base, ledger));
        assertThat(chip.toString()).as(what).isEqualTo(PlainChip.of(after).toString());
        if (!ledger.entries().isEmpty()) {
            LedgerEntry last = ledger.entries().get(ledger.entries().size() - 1);
            for (Pad pad : base.fabric().pads()) {
                boolean there =
                        pad.name().equals(last.pad())
                                && last.edits().stream().anyMatch(e -> e instanceof Edit.BreakOut);
                if (there) {
                    shown++;
                    assertThat(chip.shows(last.net(), pad)).as(what + " " + last).isTrue();
                }
            }
        }
        chip.carryOut(ChangeList.back(base, ledger));
        assertThat(chip.toString()).as(what).isEqualTo(before);
    }

    @Test
    void thereAndBackOnOddDesigns() {
        for (long seed = 0; seed < 150; seed++) {
            Design base =
                    OddDesigns.make(
                            seed % 5 == 4
                                    ? OddDesigns.WITH_PARTS + seed
                                    : seed % 5 == 3 ? OddDesigns.WITH_ALIKE_PINS + seed : seed);
            if (base.nets().iterator().hasNext()) {
                check(base, drawn(base, new Random(seed), 3), "seed " + seed);
            }
        }
        assertThat(shown).isGreaterThan(50);
    }

    @Test
    void thereAndBackWhereTwoNetsAreOnAPad() {
        for (long seed = 0; seed < 100; seed++) {
            Design base = OddDesigns.make(OddDesigns.WITH_TWO_NETS_ON_PADS + seed);
            if (base.nets().iterator().hasNext()) {
                check(base, drawn(base, new Random(seed), 3), "two nets, seed " + seed);
            }
        }
        assertThat(shown).isGreaterThan(30);
    }

    @Test
    void thereAndBackOnMadeDesigns() {
        for (long seed = 0; seed < 3; seed++) {
            Design base = DesignMaker.make(3_000, seed, 0.6, Progress.NONE).design();
            check(base, drawn(base, new Random(seed), 4), "seed " + seed);
        }
        assertThat(shown).isPositive();
    }

    /** Registers before the pads of a group: cells, nets, branches of nets and clock, and back. */
    @Test
    void thereAndBackWithRegisters() throws Exception {
        Design base = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        List<Net> nets =
                base.nets().stream().filter(n -> n.name().startsWith("pump/level/sample")).toList();
        List<Integer> pads =
                List.of(
                        PadNames.findExact(base.fabric(), "x7y2/pad[0]").getAsInt(),
                        PadNames.findExact(base.fabric(), "x7y2/pad[1]").getAsInt());
        Bus bus = Bus.of(base, nets, pads, Bus.Aim.SUM, Bus.Ports.KEEP, Progress.NONE);
        Bus placed =
                RegisteredGroup.of(
                                new RegisterQuestion(
                                        base,
                                        bus,
                                        base.findNet("clk12").orElseThrow(),
                                        0,
                                        ExternalLineDelay.USUAL,
                                        5),
                                Progress.NONE)
                        .placed()
                        .orElseThrow();
        LedgerEntry entry =
                new LedgerEntry("now", "test", "", "samples", "header J1", placed.edits());
        check(base, new Ledger("drawn", "0".repeat(64), List.of(entry)), "registers");
    }

    /** A watch circuit: cells with their tables' contents, nets, branches, and back. */
    @Test
    void thereAndBackWithAWatchCircuit() throws Exception {
        Design base = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        Signal run = new Signal.Observed("pump/run/hold");
        CircuitElement table =
                new CircuitElement.Table("hit", List.of(run), TruthTable.of(1, row -> row == 0));
        CircuitElement register =
                new CircuitElement.Register("q", new Signal.Made(0), "clk12", Optional.of(true));
        Circuit circuit =
                new Circuit(
                        "trigger",
                        "High while the pump stands.",
                        List.of(table, register),
                        List.of(new Circuit.Output("out", new Signal.Made(1))),
                        1,
                        StartState.any(1),
                        List.of());
        int pad = PadNames.findExact(base.fabric(), "x7y2/pad[1]").getAsInt();
        WatchResult.Placed placed =
                (WatchResult.Placed)
                        WatchPlacer.place(
                                new WatchQuestion(base, circuit, List.of(pad)), Progress.NONE);
        LedgerEntry entry =
                new LedgerEntry(
                        "now", "test", "", "watch/trigger1/q", "x7y2/pad[1]", placed.edits());
        Ledger ledger = new Ledger("drawn", "0".repeat(64), List.of(entry));
        check(base, ledger, "watch");
        List<String> listed =
                ChangeList.of(base, ledger).entries().get(0).changes().stream()
                        .filter(c -> c.what().name().matches("CELL_.*|NET_.*|END_.*"))
                        .map(c -> c.what().label() + " " + c.get("name") + " " + c.get("value"))
                        .toList();
        assertThat(listed)
                .contains(
                        "cell-new watch/trigger1/hit ",
                        "cell-new watch/trigger1/q ",
                        "cell-set watch/trigger1/q 1",
                        "net-new watch/trigger1/hit ",
                        "end-new pump/run/hold ",
                        "end-new clk12 ")
                .anyMatch(t -> t.matches("cell-set watch/trigger1/hit [0-9a-f]{4}"));
    }

    /** A pad whose driver has an enable: the list switches it on. */
    @Test
    void aKeptBreakoutOnAGatedPadShowsWithTheDriverOn() throws Exception {
        Design base =
                DesignReader.read(Path.of("fixtures/lessons/gated.design.json"), Progress.NONE);
        Net net = base.findNet("gauge/depth").orElseThrow();
        int tied = 0;
        for (int pad = 0; pad < base.fabric().pads().size(); pad++) {
            Pad value = base.fabric().pads().get(pad);
            Answer answer = Asker.ask(new Question(base, net, pad, Corner.SLOW), Progress.NONE);
            List<Edit> edits = edits(answer, new Random(0));
            if (edits.isEmpty()) {
                continue;
            }
            LedgerEntry entry = new LedgerEntry("now", "test", "", net.name(), value.name(), edits);
            Ledger ledger = new Ledger("gated", "0".repeat(64), List.of(entry));
            check(base, ledger, value.name());
            tied +=
                    ChangeList.of(base, ledger).entries().get(0).changes().stream()
                                    .anyMatch(c -> c.what() == Change.What.ENABLE_TIED)
                            ? 1
                            : 0;
        }
        assertThat(tied).isPositive();
    }
}
