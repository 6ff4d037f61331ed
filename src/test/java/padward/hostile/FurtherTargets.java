package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.bareboard.BareBoardReader;
import padward.format.bareboard.BoardNetListCheck;
import padward.format.bareboard.BoardNets;
import padward.format.bareboard.PartsTable;
import padward.format.bsdl.BsdlReader;
import padward.format.bsdl.PackagePins;
import padward.format.bsdl.PinCheck;
import padward.format.compact.CopyRoundTrip;
import padward.format.design.BoardWriter;
import padward.format.question.OtherNames;
import padward.format.question.QuestionLines;
import padward.format.question.WantedTable;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.TextSource;
import padward.format.tables.TableImport;
import padward.lesson.LearnerRecord;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.file.Course;
import padward.lesson.file.LearnerFile;
import padward.lesson.file.LearnerFolder;
import padward.lesson.file.LearnerSummary;

/**
 * Files that stand beside designs: questions, wanted nets, board nets, packages, traces, courses.
 */
final class FurtherTargets {
    private static final int MOST_CHARACTERS = 1 << 12;
    private static final int TABLE_FAULTS = 4;

    private final Targets targets;
    private final World world;
    private final Course course;

    FurtherTargets(Targets targets, World world) throws BadInput {
        this.targets = targets;
        this.world = world;
        this.course = Course.builtIn();
    }

    void add() throws IOException, BadInput {
        addQuestions();
        addBoards();
        addCourses();
        targets.add("packed", "in.packed.gz", List.of(), this::unpack);
        CopyRoundTrip copies = new CopyRoundTrip(world.file("listed.fabric.json"));
        targets.add(
                "copy", "in.fabric", List.of(), copies::check, copies.sound(world.file("a.copy")));
    }

    private void unpack(Path file) throws Exception {
        Source source = Source.of(file);
        char[] part = new char[MOST_CHARACTERS];
        try (Reader in = TextSource.open(source, Progress.NONE)) {
            while (in.read(part) >= 0) {
                // only what is wrong in it matters
            }
        } catch (IOException damaged) {
            throw IoFaults.describe(source, damaged);
        }
    }

    private void addQuestions() throws IOException {
        targets.add(
                "batch",
                "in.batch",
                List.of(
                        "net",
                        "pad",
                        "id",
                        "corner",
                        "what-if",
                        "\"whatIf\"",
                        "fast",
                        "slow",
                        "header J1",
                        "bank A",
                        "any",
                        "*",
                        "|",
                        ";",
                        "\t",
                        "{",
                        "}",
                        "[",
                        "]"),
                this::batch,
                "questions.csv");
        targets.add(
                "wanted",
                "in.wanted.csv",
                List.of("net", "pads", "need", "must", "may", "|", "J1.1"),
                WantedTable::read,
                "wanted.csv");
        targets.add("names", "in.names.csv", List.of("name", "net"), OtherNames::read);
    }

    private void batch(Path file) throws Exception {
        String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
        QuestionLines lines = new QuestionLines("in", new StringReader(text));
        Optional<BadInput> fault = Optional.empty();
        long before = 0;
        Optional<QuestionLines.Line> line = lines.next();
        for (; line.isPresent(); line = lines.next()) {
            assertThat(line.get().number()).isGreaterThan(before);
            before = line.get().number();
            if (line.get() instanceof QuestionLines.Line.Faulty faulty) {
                fault = Optional.of(faulty.fault());
            }
        }
        if (fault.isPresent()) {
            throw fault.get();
        }
    }

    private void addBoards() throws IOException {
        targets.add(
                "parts",
                "in.parts.csv",
                List.of("header", "resistor", "series", "pull", "load", "driver", "1.5", "U1"),
                f -> {
                    PartsTable parts = PartsTable.read(f, Progress.NONE);
                    board(world.file("heron-2.nets.csv"), parts);
                },
                "heron-2.parts.csv");
        targets.add(
                "nets",
                "in.nets.csv",
                List.of("net", "part", "pin", "U1", "J1"),
                this::netList,
                "heron-2.nets.csv");
        targets.add(
                "bareboard",
                "in.ipc",
                List.of("NNAME", "317", "327", "999", "N/C", "VIA", "P  ", "C  ", "U1", "U99"),
                f -> {
                    BareBoardReader.read(f, Progress.NONE);
                    netList(f);
                },
                "heron-2.ipc");
        targets.add(
                "bsdl",
                "in.bsdl",
                List.of(
                        "entity",
                        "end",
                        "generic",
                        "port",
                        "in",
                        "out",
                        "inout",
                        "bit",
                        "bit_vector",
                        "to",
                        "downto",
                        "constant",
                        "attribute",
                        "&",
                        "linkage",
                        "PIN_MAP_STRING",
                        "--"),
                this::packagePins,
                "larch-8.bsdl");
    }

    private void netList(Path file) throws Exception {
        if (BoardNetListCheck.isFor(file)) {
            BoardNetListCheck.check(file, Progress.NONE);
        }
        board(file, PartsTable.read(world.file("heron-2.parts.csv"), Progress.NONE));
    }

    private void board(Path nets, PartsTable parts) throws BadInput {
        BoardNets.Imported made =
                BoardNets.read(nets, Progress.NONE).board("b", "U1", world.fabric(), parts);
        BoardWriter.write(made.board(), world.fabric(), world.file("again.board.json"));
    }

    private void packagePins(Path file) throws Exception {
        PackagePins pins = BsdlReader.read(file, "", Progress.NONE);
        PinCheck.differences(world.fabric(), pins);
        PinCheck.withoutPad(world.fabric(), pins);
        for (String folder : List.of("tables", "irregular")) {
            TableImport.read(world.file(folder), Optional.of(pins), TABLE_FAULTS, Progress.NONE);
        }
    }

    private void addCourses() throws IOException {
        Path folder = world.file("course");
        Files.createDirectories(folder);
        for (String name :
                List.of(
                        "narrows.design.json",
                        "narrows.fabric.json",
                        "gated.design.json",
                        "gated.fabric.json",
                        "plover.board.json")) {
            Files.copy(world.file(name), folder.resolve(name));
        }
        targets.add(
                "course",
                "course/in.lesson.json",
                List.of("ask", "keep", "open", "number", "name", "steps"),
                f -> {
                    for (Course.Place place : Course.in(folder).places()) {
                        place.design(Progress.NONE);
                    }
                },
                "01-boxes.json",
                "05-enable.json",
                "09-trigger.json");
        Files.createDirectories(world.file("learners"));
        targets.add(
                "learners",
                "learners/ada.json",
                List.of("Ada", "Öz/..", "solved", "answered"),
                this::learner,
                "learner.json");
        targets.add(
                "learner-name",
                "in.learner-name",
                List.of("ä", "_", "%", "A", ".", "/", "con"),
                f -> {
                    String name = Files.readString(f, StandardCharsets.ISO_8859_1);
                    LearnerFolder all = LearnerFolder.at(world.file("learners"));
                    Path own = all.file(name);
                    assertThat(own.getParent()).isEqualTo(world.file("learners"));
                    Files.deleteIfExists(own);
                    LearnerRecord first =
                            all.change(name, r -> r.with(ExerciseKind.values()[0], true));
                    assertThat(all.read(name)).isEqualTo(first);
                    Files.delete(own);
                });
    }

    private void learner(Path file) throws Exception {
        LearnerRecord record = LearnerFile.read(Source.of(file));
        LearnerFolder all = LearnerFolder.at(world.file("learners"));
        Files.deleteIfExists(all.file(record.learner()));
        LearnerSummary.write(world.file("summary.csv"), record, course.lessons());
        Path own = all.file(record.learner());
        LearnerFile.write(record, own);
        assertThat(all.read(record.learner())).isEqualTo(record);
        Files.delete(own);
    }
}
