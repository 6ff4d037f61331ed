package padward.format;

import java.nio.file.Path;
import java.util.Arrays;
import padward.base.BadInput;

/** What a file of ours holds. */
public enum FileKind {
    /** A fabric. */
    FABRIC(Head.FABRIC, "a fabric"),
    /** A design. */
    DESIGN(Head.DESIGN, "a design"),
    /** A board. */
    BOARD(Head.BOARD, "a board"),
    /** A ledger of kept changes. */
    LEDGER(Head.LEDGER, "a ledger"),
    /** A lesson. */
    LESSON(Head.LESSON, "a lesson"),
    /** What one learner has done. */
    LEARNER(Head.LEARNER, "what a learner has done"),
    /** How a netlist's cells become a fabric's. */
    MAPPING(Head.MAPPING, "a mapping of a netlist's cells");

    private final String format;
    private final String label;

    FileKind(String format, String label) {
        this.format = format;
        this.label = label;
    }

    /** What it is called within a sentence, with its article. */
    public String label() {
        return label;
    }

    /**
     * What a file says that it holds. Reads its beginning.
     *
     * @throws BadInput when it cannot be read or says nothing of the kind
     */
    public static FileKind of(Path file) throws BadInput {
        String format = Head.read(Source.of(file)).format();
        return Arrays.stream(values())
                .filter(k -> k.format.equals(format))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("no kind for " + format));
    }
}
