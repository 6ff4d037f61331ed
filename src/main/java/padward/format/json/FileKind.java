package padward.format.json;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.format.source.Source;

/** What kind of file of Padward's this is. */
public enum FileKind {
    /** A fabric. */
    FABRIC(FileHeader.FABRIC, "a fabric"),
    /** A design. */
    DESIGN(FileHeader.DESIGN, "a design"),
    /** A board. */
    BOARD(FileHeader.BOARD, "a board"),
    /** A ledger of kept changes. */
    LEDGER(FileHeader.LEDGER, "a ledger"),
    /** A lesson. */
    LESSON(FileHeader.LESSON, "a lesson"),
    /** A learner's progress. */
    LEARNER(FileHeader.LEARNER, "a learner's progress"),
    /** How a netlist's cells become a fabric's. */
    MAPPING(FileHeader.MAPPING, "a mapping of a netlist's cells");

    private final String format;
    private final String label;

    FileKind(String format, String label) {
        this.format = format;
        this.label = label;
    }

    /** Its name in a sentence, with the article. */
    public String label() {
        return label;
    }

    /**
     * The kind that a file states. Reads only its beginning.
     *
     * @throws BadInput when it cannot be read or states no kind
     */
    public static FileKind of(Path file) throws BadInput {
        // A head of another format cannot be read.
        return find(FileHeader.read(Source.of(file)).format()).orElseThrow();
    }

    /** The kind of a format. */
    static Optional<FileKind> find(String format) {
        for (FileKind kind : values()) {
            if (kind.format.equals(format)) {
                return Optional.of(kind);
            }
        }
        return Optional.empty();
    }

    /** All formats. */
    static List<String> formats() {
        return Arrays.stream(values()).map(k -> k.format).toList();
    }
}
