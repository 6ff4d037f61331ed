package padward.change;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.design.Design;
import padward.example.HandMade;

/** Kept changes, their leads, and what depends on what, on a design of two nets and two pads. */
class LedgerTest {
    private static final Design DESIGN =
            new HandMade()
                    .wires("a b")
                    .site("S", "", "o")
                    .site("T", "", "o")
                    .pad("P")
                    .pad("Q")
                    .chain("S.o a P")
                    .chain("a Q")
                    .chain("T.o b Q")
                    .cell("s", "S")
                    .cell("t", "T")
                    .net("n", "s.o", "", "S.o")
                    .net("m", "t.o", "", "T.o")
                    .design();

    private static Edit out(String net, String port, String pad, String route) {
        List<Integer> path = Stream.of(route.split(" ")).map(DESIGN.fabric()::findVertex).toList();
        return new Edit.BreakOut(net, port, pad, "", path);
    }

    private static LedgerEntry entry(String note, Edit... edits) {
        return new LedgerEntry("2026-11-27T10:00:00Z", "anna", note, "n", "P", List.of(edits));
    }

    private static final LedgerEntry FIRST = entry("first", out("n", "p", "P", "S.o a P"));

    /** Goes on from a wire of the first. */
    private static final LedgerEntry SECOND = entry("second", out("n", "q", "Q", "a Q"));

    private static final LedgerEntry OTHER = entry("other", out("m", "r", "Q", "T.o b Q"));

    private static Ledger ledger(LedgerEntry... entries) {
        Ledger result = new Ledger("d.json", "00ff", List.of());
        for (LedgerEntry entry : entries) {
            result = result.with(entry);
        }
        return result;
    }

    private static List<String> notes(Ledger ledger) {
        return ledger.entries().stream().map(LedgerEntry::note).toList();
    }

    @Test
    void entriesAreAppliedInTheirOrder() {
        Ledger.Applied applied = ledger(FIRST, SECOND).applyTo(DESIGN);
        assertThat(applied).isInstanceOf(Ledger.Applied.Fits.class);
        Design after = ((Ledger.Applied.Fits) applied).design();
        assertThat(after.ports()).extracting(p -> p.name()).containsExactly("p", "q");
    }

    @Test
    void anEntryThatDoesNotFitIsToldAndThoseAfterItAreTriedAllTheSame() {
        Ledger.Applied applied = ledger(FIRST, SECOND, OTHER, OTHER).applyTo(DESIGN);
        assertThat(((Ledger.Applied.Clashes) applied).all())
                .extracting(c -> c.index() + " " + c.entry().note() + ": " + c.reasons().get(0))
                .containsExactly(
                        "2 other: port q is already on pad Q",
                        "3 other: port q is already on pad Q");
        // The first one left out does not use what it would have used.
        assertThat(((Ledger.Applied.Clashes) ledger(SECOND, OTHER).applyTo(DESIGN)).all())
                .extracting(Ledger.Clash::index)
                .containsExactly(0);
    }

    @Test
    void whatIsUndoneTakesWithItWhatDependsOnIt() {
        Ledger ledger = ledger(FIRST, SECOND);
        EntryRemoval first = EntryRemoval.of(ledger, DESIGN, 0);
        assertThat(first.entry().note()).isEqualTo("first");
        assertThat(first.isAlone()).isFalse();
        assertThat(first.dependents())
                .extracting(c -> c.index() + ": " + c.reasons().get(0))
                .containsExactly("1: the route does not start on net n");
        assertThat(first.rest().entries()).isEmpty();
        assertThat(first.rest().design()).isEqualTo("d.json");
        assertThat(first.rest().digest()).isEqualTo("00ff");
        EntryRemoval second = EntryRemoval.of(ledger, DESIGN, 1);
        assertThat(second.isAlone()).isTrue();
        assertThat(notes(second.rest())).containsExactly("first");
    }

    @Test
    void linesGetTheChannelAfterTheGreatest() {
        LedgerEntry own = FIRST.withLeads(List.of(new LedgerLead("p", 7)));
        Ledger ledger = ledger(own, SECOND);
        assertThat(ledger.entries().get(0).findLead("p").orElseThrow().channel()).isEqualTo(7);
        assertThat(ledger.entries().get(1).findLead("q").orElseThrow().channel()).isEqualTo(8);
        assertThat(ledger.entries().get(1).findLead("p")).isEmpty();
        LedgerEntry low = SECOND.withLeads(List.of(new LedgerLead("q", 2)));
        assertThat(LedgerLead.all(List.of(own, low, OTHER)))
                .extracting(leads -> leads.get(0).channel())
                .containsExactly(7, 2, 8);
        LedgerEntry cell = entry("cell", new Edit.SetCell("s", "a", "1"));
        assertThat(ledger(cell).entries().get(0).leads()).isEmpty();
    }

    @Test
    void leadsOfOneLengthAreKeptWithIt() {
        LedgerEntry with = LedgerLead.numbered(List.of(), FIRST, Optional.of(0.3));
        assertThat(with.leads()).extracting(LedgerLead::metres).containsExactly(Optional.of(0.3));
        LedgerEntry without = LedgerLead.numbered(List.of(FIRST), SECOND, Optional.empty());
        assertThat(without.leads()).containsExactly(new LedgerLead("q", 2));
    }

    @ParameterizedTest
    @CsvSource({
        "A, red, clip 3, 0.3, 'pod A, red, clip 3, 0.3 m'",
        "'', red, '', , red",
        "'', '', '', 2.0, 2 m",
        "'', '', '', , ''"
    })
    void aLeadIsToldByWhatIsKnownOfIt(
            String pod, String colour, String name, Double metres, String expected) {
        LedgerLead lead =
                new LedgerLead(
                        "p", 1, name, pod, colour, Optional.ofNullable(metres), Optional.empty());
        assertThat(lead.toText()).isEqualTo(expected);
    }

    @Test
    void aLeadKeepsTheRestWhenItsLengthOrItsDelayChanges() {
        LedgerLead lead =
                new LedgerLead("p", 4, "clip", "A", "red", Optional.of(0.3), Optional.empty());
        LedgerLead.Measured measured = new LedgerLead.Measured(120, 15);
        assertThat(lead.withMetres(Optional.of(1.5)).toText()).isEqualTo("pod A, red, clip, 1.5 m");
        assertThat(lead.withMeasured(Optional.of(measured)))
                .isEqualTo(
                        new LedgerLead(
                                "p",
                                4,
                                "clip",
                                "A",
                                "red",
                                Optional.of(0.3),
                                Optional.of(measured)));
    }

    @Test
    void anEntryKeepsTheRestWhenOnePartChanges() {
        LedgerEntry signed = FIRST.signed("b", "a");
        assertThat(signed.digests()).contains(new LedgerEntry.Digests("b", "a"));
        LedgerEntry accepted = signed.accepting(List.of("follows"));
        assertThat(accepted.accepted())
                .extracting(LedgerEntry.Acceptance::toText)
                .containsExactly("follows, by anna, 2026-11-27T10:00:00Z");
        assertThat(accepted.digests()).isPresent();
        LedgerEntry noted = accepted.withNote("why");
        assertThat(noted.note()).isEqualTo("why");
        assertThat(noted.accepted()).hasSize(1);
        assertThat(noted.unsigned().digests()).isEmpty();
        assertThat(noted.unsigned().accepted()).hasSize(1);
        assertThat(FIRST.what()).isEqualTo("n on P");
    }

    @Test
    void partsAreOrderedByKindAndThenByName() {
        Part netB = new Part(Part.Kind.NET, "b");
        Part cellA = new Part(Part.Kind.CELL, "a");
        Part netA = new Part(Part.Kind.NET, "a");
        assertThat(Stream.of(netB, cellA, netA).sorted()).containsExactly(netA, netB, cellA);
        assertThat(Part.Kind.PORT.label()).isEqualTo("port");
    }
}
