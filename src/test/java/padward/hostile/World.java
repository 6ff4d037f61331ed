package padward.hostile;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.cli.Padward;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.format.design.ImportedFiles;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.ledger.Journal;
import padward.format.ledger.JournalTest;
import padward.format.ledger.LedgerReader;
import padward.format.ledger.LedgerWriter;
import padward.format.netlist.CellMapping;
import padward.format.netlist.CellMappingReader;
import padward.format.tables.TableImport;
import padward.handover.ChangeList;
import padward.lesson.LearnerRecord;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.file.LearnerFile;

/** A folder with the examples, in which hostile files stand among sound ones. */
final class World {
    private final Path folder;
    private final Fabric fabric;
    private final Design design;
    private final ChangeList changes;
    private final CellMapping mapping;

    World(Path folder) throws IOException, BadInput {
        this.folder = folder;
        copy(Path.of("fixtures/small"), folder);
        copy(Path.of("fixtures/lessons"), folder);
        copy(Path.of("fixtures/package"), folder);
        copy(Path.of("fixtures/netlists"), folder);
        for (String tables : List.of("tables", "irregular")) {
            copy(Path.of("fixtures", tables), Files.createDirectory(folder.resolve(tables)));
        }
        TableImport.Sound irregular =
                (TableImport.Sound)
                        TableImport.read(
                                folder.resolve("irregular"), Optional.empty(), 1, Progress.NONE);
        Path listed = folder.resolve("listed");
        ImportedFiles.write(irregular.fabric(), irregular.board(), irregular.design(), listed);
        unpack(listed);
        this.fabric = FabricReader.read(file("only.fabric.json"), Progress.NONE);
        this.design = DesignReader.read(file("only.design.json"), Progress.NONE);
        this.mapping = CellMappingReader.read(file("larch.mapping.json"), Progress.NONE);
        FabricWriter.write(
                FabricReader.read(file("narrows.fabric.json"), Progress.NONE),
                file("listed.fabric.json"));
        writeLedgers();
        this.changes =
                ChangeList.of(design, LedgerReader.read(file("kept.json"), fabric, Progress.NONE));
        writeJournal();
        LearnerFile.write(
                LearnerRecord.of("Ada")
                        .with(ExerciseKind.values()[0], true)
                        .with(ExerciseKind.values()[1], false),
                file("learner.json"));
    }

    /** A new folder, in memory where there is one: every file is flushed to it. */
    static Path newFolder() throws IOException {
        Path memory = Path.of("/dev/shm");
        return Files.isWritable(memory)
                ? Files.createTempDirectory(memory, "hostile")
                : Files.createTempDirectory("hostile");
    }

    static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(each);
            }
        }
    }

    private void unpack(Path listed) throws IOException, BadInput {
        for (String name : List.of("fabric.json", "design.json")) {
            Path packed = listed.resolve(name + ".gz");
            String text;
            try (var in = new java.util.zip.GZIPInputStream(Files.newInputStream(packed))) {
                text = new String(in.readAllBytes(), java.nio.charset.StandardCharsets.UTF_8);
            }
            Files.writeString(
                    folder.resolve("irregular." + name),
                    text.replace("fabric.json.gz", "irregular.fabric.json")
                            .replace("\"board.json\"", "\"irregular.board.json\""));
        }
        Files.copy(listed.resolve("board.json"), folder.resolve("irregular.board.json"));
    }

    /** What two commands keep; and a ledger that fits nothing, with edits of many kinds. */
    private void writeLedgers() throws BadInput {
        for (String[] question :
                List.of(
                        new String[] {"pump/level/sample[1]", "J2.1"},
                        new String[] {"clk12", "J2.2"})) {
            int code =
                    Padward.execute(
                            CommandLines.quiet(),
                            "keep",
                            "--design",
                            file("only.design.json").toString(),
                            "--ledger",
                            file("kept.json").toString(),
                            "--net",
                            question[0],
                            "--pad",
                            question[1]);
            if (code != 0) {
                throw new IllegalStateException("keep: " + code);
            }
        }
        Ledger odd = new Ledger("only.design.json", "-", List.of());
        for (int i = 1; i < 4; i++) {
            odd = odd.with(JournalTest.signed(i).accepting(List.of("drives")));
        }
        LedgerWriter.write(odd, fabric, file("odd.json"));
    }

    private void writeJournal() throws BadInput {
        try (Journal journal = Journal.open(file("kept.journal"), "d", fabric).orElseThrow()) {
            List<LedgerEntry> kept = new ArrayList<>();
            for (int i = 1; i < 5; i++) {
                kept.add(JournalTest.entry(i));
                journal.record(List.copyOf(kept));
            }
            journal.record(kept.subList(1, 3));
        }
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.list(from)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                Files.copy(
                        file, to.resolve(file.getFileName()), StandardCopyOption.REPLACE_EXISTING);
            }
        }
    }

    Path file(String name) {
        return folder.resolve(name);
    }

    Fabric fabric() {
        return fabric;
    }

    Design design() {
        return design;
    }

    ChangeList changes() {
        return changes;
    }

    CellMapping mapping() {
        return mapping;
    }
}
