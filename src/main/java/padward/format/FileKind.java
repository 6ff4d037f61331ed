package padward.format;

import java.nio.file.Path;
import padward.base.BadInput;

/** What a file of ours holds. */
public enum FileKind {
    /** A fabric. */
    FABRIC,
    /** A design. */
    DESIGN,
    /** A board. */
    BOARD,
    /** A ledger of kept changes. */
    LEDGER;

    /**
     * What a file says that it holds. Reads its beginning.
     *
     * @throws BadInput when it cannot be read or says nothing of the kind
     */
    public static FileKind of(Path file) throws BadInput {
        return switch (Head.read(Source.of(file)).format()) {
            case Head.FABRIC -> FABRIC;
            case Head.BOARD -> BOARD;
            case Head.LEDGER -> LEDGER;
            default -> DESIGN;
        };
    }
}
