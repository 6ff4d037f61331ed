package padward.format;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.design.BoardReader;
import padward.format.source.Source;

/** Opens the board reader to tests of other packages. */
public final class BoardFiles {
    private BoardFiles() {}

    /** Reads a board. */
    public static Board read(Path file, Fabric fabric) throws BadInput {
        return BoardReader.read(Source.of(file), fabric, Progress.NONE);
    }
}
