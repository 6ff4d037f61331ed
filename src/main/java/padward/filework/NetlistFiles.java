package padward.filework;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Netlist;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.format.design.BoardReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricReader;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.place.PlaceAndRoute;
import padward.place.PlaceRouteOptions;
import padward.place.PlaceRouteResult;

/**
 * The files that a netlist needs to be placed and routed.
 *
 * @param netlist the netlist
 * @param top its top module; empty where the file has only one candidate
 * @param mapping states the kind of cell of each type in it
 * @param fabric the fabric
 * @param board the board around, if it is known
 */
public record NetlistFiles(
        Path netlist, String top, Path mapping, Path fabric, Optional<Path> board) {
    /** Chooses the options once fabric and netlist are read. */
    public interface Options {
        /**
         * The options; their board is taken from the files.
         *
         * @throws BadInput when a port or a pad is not there
         */
        PlaceRouteOptions of(Fabric fabric, Netlist circuit) throws BadInput;
    }

    /**
     * The result.
     *
     * @param result the design, or why it does not fit
     * @param notes remarks of reading the netlist
     */
    public record Placed(PlaceRouteResult result, List<String> notes) {
        /** Copies the notes. */
        public Placed {
            notes = List.copyOf(notes);
        }
    }

    /** All of them. */
    public List<Path> all() {
        List<Path> all = new ArrayList<>(List.of(netlist, mapping, fabric));
        board.ifPresent(all::add);
        return all;
    }

    /**
     * Places and routes the netlist, and writes the design if it fits.
     *
     * @param output where to write it
     * @throws BadInput when a file cannot be read or written
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public Placed placeAndRoute(Path output, Options options, Progress progress) throws BadInput {
        Fabric read = FabricReader.read(fabric, progress);
        Board around =
                board.isPresent() ? BoardReader.read(board.get(), read, progress) : Board.UNKNOWN;
        NetlistReader.Mapped mapped =
                NetlistReader.read(
                        netlist, top, CellMappingReader.read(mapping, progress), read, progress);
        PlaceRouteOptions given = options.of(read, mapped.netlist());
        PlaceRouteResult result =
                PlaceAndRoute.placeAndRoute(
                        read,
                        mapped.netlist(),
                        new PlaceRouteOptions(
                                given.seed(),
                                given.effort(),
                                given.timingWeight(),
                                given.rounds(),
                                given.padOfPort(),
                                around),
                        progress);
        if (result instanceof PlaceRouteResult.OnFabric placed) {
            write(placed.design(), output);
        }
        return new Placed(result, mapped.notes());
    }

    private void write(Design design, Path output) throws BadInput {
        Path folder = output.toAbsolutePath().normalize().getParent();
        DesignWriter.write(
                design,
                output,
                relative(folder, fabric),
                board.map(b -> relative(folder, b)).orElse(""));
    }

    private static String relative(Path folder, Path file) {
        Path whole = file.toAbsolutePath().normalize();
        return folder.relativize(whole).toString().replace('\\', '/');
    }
}
