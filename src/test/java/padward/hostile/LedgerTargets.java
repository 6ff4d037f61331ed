package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.Digest;
import padward.format.ledger.ComparedDesigns;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.Journal;
import padward.format.ledger.Journals;
import padward.format.ledger.LeadChange;
import padward.format.ledger.LeadField;
import padward.format.ledger.LedgerReader;
import padward.format.ledger.LedgerReplay;
import padward.format.ledger.LedgerWriter;
import padward.format.source.Source;
import padward.handover.ChangeList;
import padward.handover.ChangeListText;

/** Ledgers, journals, and what a user states about leads. */
final class LedgerTargets {
    private final Targets targets;
    private final World world;

    LedgerTargets(Targets targets, World world) {
        this.targets = targets;
        this.world = world;
    }

    void add() throws IOException {
        List<String> names =
                List.of(
                        "clk12",
                        "motor",
                        "alarm/beep",
                        "pump/run/motor_out",
                        "disconnect-port",
                        "remove-net",
                        "remove-cell",
                        "set-cell",
                        "route-net",
                        "relocate-cell",
                        "break-out",
                        "set-driver",
                        "tie-enable",
                        "add-cell",
                        "add-net",
                        "add-sink",
                        "add-input",
                        "buzzer",
                        "x0y0");
        targets.add("ledger", "in.ledger.json", names, this::ledger, "kept.json", "odd.json");
        targets.add("journal", "in.journal", names, this::journal, "kept.journal");
        Files.createDirectories(world.file("journals"));
        targets.add("journals", "journals/d.journal", names, this::journals, "kept.journal");
        targets.add(
                "lead",
                "in.lead",
                Stream.of(LeadField.values()).map(LeadField::word).toList(),
                this::lead);
        targets.add(
                "compared",
                "in.compared.json",
                List.of("remove-net", "motor", "alarm/beep", "only.design.json"),
                f -> {
                    for (Optional<Path> base :
                            List.of(
                                    Optional.<Path>empty(),
                                    Optional.of(world.file("only.design.json")))) {
                        ComparedDesigns.read(
                                world.file("only.design.json"), f, base, Progress.NONE);
                        ComparedDesigns.read(f, world.file("kept.json"), base, Progress.NONE);
                    }
                },
                "kept.json",
                "only.design.json",
                "narrows.design.json");
    }

    private void ledger(Path file) throws Exception {
        LedgerReader.readAlone(Source.of(file), Progress.NONE);
        Ledger ledger = LedgerReader.read(file, world.fabric(), Progress.NONE);
        Path again = world.file("again.ledger.json");
        LedgerWriter.write(ledger, world.fabric(), again);
        assertThat(LedgerReader.read(again, world.fabric(), Progress.NONE)).isEqualTo(ledger);
        if (ledger.applyTo(world.design()) instanceof Ledger.Applied.Fits fits) {
            PlainRules.check(fits.design());
            ChangeList list = ChangeList.of(world.design(), ledger);
            ChangeListText.json(list);
            ChangeListText.csv(list);
            ChangeListText.csv(ChangeList.back(world.design(), ledger));
            Path changed = world.file("changed.design.json");
            DesignWriter.write(fits.design(), changed, "only.fabric.json", "board.json");
            Design read = DesignReader.read(changed, Progress.NONE);
            assertThat(Digest.of(read)).isEqualTo(Digest.of(fits.design()));
        }
        replay(ledger, file);
    }

    /** Both roads lead to one design, or to none. */
    private void replay(Ledger ledger, Path file) throws Exception {
        Path design = world.file("only.design.json");
        if (LedgerReplay.isOf(ledger, design)) {
            LedgerReplay.checkFile(ledger, file, design);
        }
        Optional<Design> each = Optional.empty();
        Optional<BadInput> fault = Optional.empty();
        try {
            each = Optional.of(LedgerReplay.eachApplied(ledger, file, world.design()));
        } catch (BadInput wrong) {
            fault = Optional.of(wrong);
        }
        try {
            Design whole = LedgerReplay.applied(ledger, file, world.design());
            each.ifPresent(d -> assertThat(Digest.of(d)).isEqualTo(Digest.of(whole)));
        } catch (BadInput wrong) {
            assertThat(each).isEmpty();
        }
        if (each.isPresent()) {
            Ledger signed = EntrySigning.again(ledger, world.design());
            assertThat(signed.entries()).hasSameSizeAs(ledger.entries());
        }
        if (fault.isPresent()) {
            throw fault.get();
        }
        LedgerReplay.checkFile(ledger, file, design);
    }

    private void journal(Path file) throws Exception {
        try (Journal journal = Journal.open(file, "d", world.fabric()).orElseThrow()) {
            journal.record(journal.found());
        }
        try (Journal again = Journal.open(file, "d", world.fabric()).orElseThrow()) {
            assertThat(again.damage()).isEmpty();
        }
        deleteAside(file);
    }

    private static void deleteAside(Path file) throws IOException {
        String name = file.getFileName() + ".*";
        try (var all = Files.newDirectoryStream(file.getParent(), name)) {
            for (Path aside : all) {
                Files.delete(aside);
            }
        }
    }

    /** A journal that is found when its design is opened; what cannot be used is put aside. */
    private void journals(Path file) throws Exception {
        byte[] before = Files.readAllBytes(file);
        Journals all = new Journals(file.getParent());
        Journals.Begun begun = all.open("d", "d", world.fabric());
        try (Journal journal = begun.journal()) {
            Journals.Begun other = all.open("d", "d", world.fabric());
            try (Journal second = other.journal()) {
                assertThat(second.found()).isEmpty();
            }
            journal.record(journal.found());
        }
        if (begun.fault().isPresent()) {
            assertThat(asideOf(file)).anySatisfy(a -> assertThat(a).isEqualTo(before));
        }
        deleteAside(file);
        Files.deleteIfExists(file.resolveSibling("d-2.journal"));
        if (begun.fault().isPresent()) {
            throw begun.fault().get();
        }
    }

    private static List<byte[]> asideOf(Path file) throws IOException {
        List<byte[]> all = new ArrayList<>();
        try (var found = Files.newDirectoryStream(file.getParent(), file.getFileName() + ".*")) {
            for (Path each : found) {
                all.add(Files.readAllBytes(each));
            }
        }
        return all;
    }

    /**
     * Lines {@code port VALUE} or {@code FIELD VALUE}: one change of a lead, as options state it.
     */
    private void lead(Path file) throws Exception {
        Ledger ledger = LedgerReader.read(world.file("kept.json"), world.fabric(), Progress.NONE);
        String port = "";
        Map<LeadField, String> values = new EnumMap<>(LeadField.class);
        for (String line : Files.readString(file, StandardCharsets.ISO_8859_1).split("\n", -1)) {
            int blank = line.indexOf(' ');
            String word = line.substring(0, Math.max(0, blank));
            port = word.equals("port") ? line.substring(blank + 1) : port;
            for (LeadField field : LeadField.values()) {
                if (field.word().equals(word)) {
                    values.put(field, line.substring(blank + 1));
                }
            }
        }
        List<LedgerEntry> entries = new LeadChange(port, values).to(ledger.entries(), "--");
        Ledger changed = new Ledger(ledger.design(), ledger.digest(), entries);
        Path again = world.file("again.ledger.json");
        LedgerWriter.write(changed, world.fabric(), again);
        assertThat(LedgerReader.read(again, world.fabric(), Progress.NONE)).isEqualTo(changed);
    }
}
