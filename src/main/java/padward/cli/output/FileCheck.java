package padward.cli.output;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.design.Design;
import padward.design.DesignReview;
import padward.fabric.Fabric;
import padward.fabric.FabricReview;
import padward.format.bareboard.NetListCheck;
import padward.format.design.BoardReader;
import padward.format.design.DesignReader;
import padward.format.fabric.FabricReader;
import padward.format.json.FileHeader;
import padward.format.ledger.LedgerReader;
import padward.format.netlist.CellMappingReader;
import padward.format.source.Source;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.file.LearnerFile;
import padward.lesson.file.LessonReader;

/**
 * Checks a file of any of Padward's formats, or a board's net list, and describes what is in it.
 */
public final class FileCheck {
    /** How a line about something suspicious begins. */
    public static final String SUSPICIOUS = "suspicious: ";

    private FileCheck() {}

    /**
     * Reads a file and counts what is in it.
     *
     * @return lines for people
     * @throws BadInput when the file has a fault
     */
    public static List<String> check(Path file, Progress progress) throws BadInput {
        if (NetListCheck.isFor(file)) {
            return NetListCheck.check(file, progress);
        }
        Source source = Source.of(file);
        FileHeader head = FileHeader.read(source);
        return switch (head.format()) {
            case FileHeader.FABRIC -> describe(FabricReader.read(source, progress), progress);
            case FileHeader.DESIGN -> describe(DesignReader.read(source, progress), progress);
            case FileHeader.MAPPING -> {
                int types = CellMappingReader.read(source, progress).types().size();
                yield List.of(
                        "mapping of " + types + " types of cell",
                        "its kinds and pins are checked against a fabric by place-route");
            }
            case FileHeader.LEDGER -> describe(LedgerReader.readAlone(source, progress));
            case FileHeader.LESSON -> describe(LessonReader.check(source, progress));
            case FileHeader.LEARNER -> describe(LearnerFile.read(source));
            default -> {
                int entries = BoardReader.count(source, progress);
                yield List.of(
                        "board, " + entries + " pads described",
                        "its pads are checked against a fabric when a design names both");
            }
        };
    }

    private static List<String> describe(Lesson lesson) {
        return List.of(
                "lesson " + lesson.number() + ", " + lesson.name() + ": " + lesson.title(),
                lesson.steps().size()
                        + " steps; its solution was played on its design and solves it");
    }

    private static List<String> describe(Ledger ledger) {
        int count = ledger.entries().size();
        return List.of(
                "ledger of "
                        + ledger.design()
                        + ", "
                        + count
                        + (count == 1 ? " kept change" : " kept changes"),
                "whether they fit a design is checked by apply and undo");
    }

    private static List<String> describe(LearnerRecord learner) {
        long solved = learner.lessons().values().stream().filter(l -> l.isSolved()).count();
        return List.of(
                "progress of learner " + learner.learner() + ": " + solved + " lessons solved");
    }

    /** What is in a fabric and what is suspicious about it, as lines for people. O(connections). */
    public static List<String> describe(Fabric fabric, Progress progress) {
        List<String> lines = new ArrayList<>(counts(fabric));
        FabricReview.Result review = FabricReview.of(fabric, progress);
        lines.addAll(review.counts());
        review.findings().forEach(f -> lines.add(SUSPICIOUS + f));
        return lines;
    }

    private static List<String> counts(Fabric fabric) {
        long driven = fabric.pads().stream().filter(p -> p.directions().canDrive()).count();
        return List.of(
                "fabric "
                        + fabric.info().name()
                        + ": "
                        + fabric.columns()
                        + " × "
                        + fabric.rows()
                        + " tiles, "
                        + fabric.vertexCount()
                        + (fabric.vertexCount() == 1 ? " vertex" : " vertices"),
                fabric.pads().size() + " pads, " + driven + " of which can be driven");
    }

    /**
     * What is in a design and its fabric and what is suspicious about them, as lines for people.
     */
    public static List<String> describe(Design design, Progress progress) {
        List<String> lines = new ArrayList<>();
        lines.add("design " + design.name());
        lines.add(
                design.cells().size()
                        + " cells, "
                        + design.nets().size()
                        + " nets, "
                        + design.ports().size()
                        + " ports; "
                        + design.occupancy().usedCount()
                        + " vertices occupied");
        DesignReview.of(design).forEach(f -> lines.add(SUSPICIOUS + f));
        lines.addAll(describe(design.fabric(), progress));
        return lines;
    }
}
