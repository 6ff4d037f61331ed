package padward.ui.watch;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.watch.own.OwnNetlist;
import padward.watch.request.OwnPart;

/**
 * A circuit of the user's own as the panel states it.
 *
 * @param netlist name of the netlist's file
 * @param mapping name of the mapping's file
 * @param bindings what the netlist's inputs are, each as {@code input=net}
 */
record OwnFiles(String netlist, String mapping, List<String> bindings) {
    /** Copies the list. */
    OwnFiles {
        bindings = List.copyOf(bindings);
    }

    /** Reads the files. Away from the UI thread. */
    OwnPart read(Fabric fabric, Progress progress) throws BadInput {
        Path file = path(netlist, "--netlist");
        Path types = path(mapping, "--mapping");
        NetlistReader.Mapped read =
                NetlistReader.read(
                        file, "", CellMappingReader.read(types, progress), fabric, progress);
        return new OwnPart(
                new OwnNetlist(
                        file.getFileName().toString(),
                        read.netlist(),
                        fabric.info().cellKinds(),
                        read.notes()),
                bindings);
    }

    private static Path path(String name, String field) throws BadInput {
        if (name.isEmpty()) {
            throw new BadInput(field, "", "a file", "none");
        }
        try {
            return Path.of(name);
        } catch (InvalidPathException e) {
            throw new BadInput(field, "", "the name of a file", "“" + name + "”");
        }
    }
}
