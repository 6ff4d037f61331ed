package padward.cli.output;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Ledger;
import padward.design.Design;
import padward.design.DesignOddity;
import padward.design.DesignReview;
import padward.fabric.Fabric;
import padward.fabric.review.FabricOddity;
import padward.fabric.review.FabricReview;
import padward.fabric.review.Finding;
import padward.fabric.review.Oddity;
import padward.format.bareboard.BoardNetListCheck;
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
     * What a file contains.
     *
     * @param lines what is in it and what is suspicious about it, for people
     * @param odd what is suspicious about it, with all names
     */
    public record Found(List<String> lines, List<Finding> odd) {
        /** Copies the lists. */
        public Found {
            lines = List.copyOf(lines);
            odd = List.copyOf(odd);
        }

        private static Found of(List<String> lines) {
            return new Found(lines, List.of());
        }

        /** All things of a kind, by its word; where these are no single ones, what is found. */
        public List<String> all(String kind) {
            return odd.stream()
                    .filter(f -> f.kind().word().equals(kind))
                    .flatMap(f -> f.names().isEmpty() ? Stream.of(f.text()) : f.names().stream())
                    .toList();
        }
    }

    /** The words of all kinds of suspicious things. */
    public static List<String> kinds() {
        return Stream.<Oddity>concat(
                        Stream.of(DesignOddity.values()), Stream.of(FabricOddity.values()))
                .map(Oddity::word)
                .toList();
    }

    /**
     * Reads a file, and not a compact copy of it, and counts what is in it.
     *
     * @throws BadInput when the file has a fault
     */
    public static Found check(Path file, Progress progress) throws BadInput {
        if (BoardNetListCheck.isFor(file)) {
            return Found.of(BoardNetListCheck.check(file, progress));
        }
        Source source = Source.of(file);
        FileHeader head = FileHeader.read(source);
        return switch (head.format()) {
            case FileHeader.FABRIC -> find(FabricReader.readAnew(source, progress), progress);
            case FileHeader.DESIGN -> find(DesignReader.readAnew(source, progress), progress);
            case FileHeader.MAPPING -> {
                int types = CellMappingReader.read(source, progress).types().size();
                yield Found.of(
                        List.of(
                                "mapping of " + types + " types of cell",
                                "its kinds and pins are checked against a fabric by place-route"));
            }
            case FileHeader.LEDGER -> Found.of(describe(LedgerReader.readAlone(source, progress)));
            case FileHeader.LESSON -> Found.of(describe(LessonReader.check(source, progress)));
            case FileHeader.LEARNER -> Found.of(describe(LearnerFile.read(source)));
            default -> {
                int entries = BoardReader.count(source, progress);
                yield Found.of(
                        List.of(
                                "board, " + entries + " pads described",
                                "its pads are checked against a fabric when a design names both"));
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
        return find(fabric, progress).lines();
    }

    private static Found find(Fabric fabric, Progress progress) {
        List<String> lines = new ArrayList<>(counts(fabric));
        FabricReview.Result review = FabricReview.of(fabric, progress);
        lines.addAll(review.counts());
        review.findings().forEach(f -> lines.add(SUSPICIOUS + f));
        return new Found(lines, review.odd());
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
        return find(design, progress).lines();
    }

    private static Found find(Design design, Progress progress) {
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
        List<Finding> odd = new ArrayList<>(DesignReview.findings(design));
        odd.forEach(f -> lines.add(SUSPICIOUS + f.text()));
        Found fabric = find(design.fabric(), progress);
        lines.addAll(fabric.lines());
        odd.addAll(fabric.odd());
        return new Found(lines, odd);
    }
}
