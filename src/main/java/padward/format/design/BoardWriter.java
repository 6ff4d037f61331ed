package padward.format.design;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;

/** Writes boards. */
public final class BoardWriter {
    private BoardWriter() {}

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @param fabric the fabric whose pads the board's wirings count
     * @throws BadInput when it cannot be written
     */
    public static void write(Board board, Fabric fabric, Path file) throws BadInput {
        PadLookup pads = new PadLookup(fabric);
        BoardForm.of(pads.byName(), pads.byPackagePin()).write(file, board);
    }
}
