package padward.format.design;

import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.design.Design;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.fabric.FabricWriter;
import padward.format.source.FolderSwap;

/** Writes a fabric, its design and its board as the files of one folder. */
public final class ImportedFiles {
    private static final String FABRIC = "fabric.json.gz";
    private static final String DESIGN = "design.json.gz";
    private static final String BOARD = "board.json";

    private ImportedFiles() {}

    /**
     * Writes them all, or nothing.
     *
     * @param board {@link Board#UNKNOWN} for none
     * @throws BadInput when the folder cannot be written or has other files in it
     */
    public static void write(Fabric fabric, Board board, Optional<Design> design, Path folder)
            throws BadInput {
        boolean onBoard = board.isKnown();
        FolderSwap.write(
                folder,
                Set.of(FABRIC, DESIGN, BOARD)::contains,
                into -> {
                    FabricWriter.write(fabric, into.resolve(FABRIC));
                    if (onBoard) {
                        BoardWriter.write(board, fabric, into.resolve(BOARD));
                    }
                    if (design.isPresent()) {
                        DesignWriter.write(
                                design.get(), into.resolve(DESIGN), FABRIC, onBoard ? BOARD : "");
                    }
                });
    }
}
