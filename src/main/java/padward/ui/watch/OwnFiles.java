package padward.ui.watch;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.format.netlist.CellMapping;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.watch.own.OwnNetlist;
import padward.watch.request.OwnPart;

/**
 * A circuit of the user's own as the panel states it.
 *
 * @param netlist name of the netlist's file
 * @param mapping name of the mapping's file
 * @param top its top module; empty where it has only one candidate
 * @param bindings what the netlist's inputs are, each as {@code input=net}
 */
record OwnFiles(String netlist, String mapping, String top, List<String> bindings) {
    /** What the field of the top module is called. */
    static final String TOP = "Top module";

    /** Copies the list. */
    OwnFiles {
        bindings = List.copyOf(bindings);
    }

    /** Reads the files. Away from the UI thread. */
    OwnPart read(Fabric fabric, Progress progress) throws BadInput {
        Path file = path(netlist, "--netlist");
        Path types = path(mapping, "--mapping");
        NetlistReader.Mapped read = read(file, types, fabric, progress);
        return new OwnPart(
                new OwnNetlist(
                        file.getFileName().toString(),
                        read.netlist(),
                        fabric.info().cellKinds(),
                        read.notes()),
                bindings);
    }

    private NetlistReader.Mapped read(Path file, Path types, Fabric fabric, Progress progress)
            throws BadInput {
        CellMapping known = CellMappingReader.read(types, progress);
        try {
            return NetlistReader.read(file, top, known, fabric, progress);
        } catch (BadInput fault) {
            throw fault.orBy("a name under “" + TOP + "”");
        }
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
