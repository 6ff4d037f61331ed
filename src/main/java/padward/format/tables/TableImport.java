package padward.format.tables;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.bsdl.PackagePins;
import padward.format.tables.csv.Faults;
import padward.format.tables.csv.TableFolder;

/**
 * Reads a folder of tables ({@link Tables}) as a fabric and, where there are tables of it, a design
 * on it and a board. Tables are read as streams, so memory depends on the fabric, not on the files.
 */
public final class TableImport {
    private TableImport() {}

    /** The result. */
    public sealed interface Result {}

    /**
     * The tables are sound.
     *
     * @param fabric the fabric
     * @param board the board, {@link Board#UNKNOWN} when there is no table of it
     * @param design the design, if there are tables of it
     */
    public record Sound(Fabric fabric, Board board, Optional<Design> design) implements Result {}

    /**
     * The tables have faults; nothing was built from them.
     *
     * @param shown the first faults, in the order of the tables
     * @param countByTable how many each table has, those not shown included
     */
    public record Faulty(List<BadInput> shown, Map<String, Long> countByTable) implements Result {
        /** Copies the list. */
        public Faulty {
            shown = List.copyOf(shown);
        }

        /** How many there are in all. */
        public long total() {
            return countByTable.values().stream().mapToLong(Long::longValue).sum();
        }
    }

    /**
     * Reads the tables. Everything is checked in one run, unless it would only repeat faults that
     * were reported.
     *
     * @param folder where they are
     * @param mostFaults how many faults to report
     * @throws BadInput when the folder cannot be read
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static Result read(Path folder, int mostFaults, Progress progress) throws BadInput {
        return read(folder, Optional.empty(), mostFaults, progress);
    }

    /**
     * As {@link #read(Path, int, Progress)}, with package pins and directions of pads filled and
     * checked from a BSDL file.
     */
    public static Result read(
            Path folder, Optional<PackagePins> pins, int mostFaults, Progress progress)
            throws BadInput {
        Faults faults = new Faults(mostFaults);
        TableFolder tables = new TableFolder(folder, Tables.ALL, faults, progress);
        InfoTables info = new InfoTables(tables);
        info.read();
        Fabric fabric = new FabricTables(tables, faults, info, pins).read();
        boolean fabricIsSound = !faults.any();
        BoardTable wirings = new BoardTable(fabric);
        tables.read(Tables.BOARD, wirings::read);
        tables.read(Tables.HEADERS, wirings::readHeaders);
        DesignTables design = new DesignTables(tables, fabric, info);
        design.read();
        List<Net> nets = new RouteTable(tables, faults, fabric, fabricIsSound, design).read();
        if (faults.any()) {
            return new Faulty(faults.first(), faults.countBySource());
        }
        Board board =
                tables.has(Tables.BOARD)
                        ? new Board(
                                info.boardName(),
                                info.boardNote(),
                                wirings.wirings(),
                                wirings.headers())
                        : Board.UNKNOWN;
        if (Tables.OF_DESIGN.stream().noneMatch(tables::has)) {
            return new Sound(fabric, board, Optional.empty());
        }
        return new Sound(
                fabric,
                board,
                Optional.of(
                        new Design(
                                info.designName(),
                                info.designNote(),
                                fabric,
                                board,
                                design.cells(),
                                nets,
                                design.ports())));
    }
}
