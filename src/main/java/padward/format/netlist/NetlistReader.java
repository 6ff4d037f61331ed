package padward.format.netlist;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Netlist;
import padward.fabric.Fabric;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * Reads netlists: structural Verilog, or EDIF 2 0 0 where the name ends in {@code .edf} or similar.
 */
public final class NetlistReader {
    private static final List<String> EDIF = List.of(".edf", ".edif", ".edn");

    private NetlistReader() {}

    /**
     * What was read.
     *
     * @param netlist the netlist on the fabric's kinds of cell
     * @param notes what was left out or changed, in words
     */
    public record Mapped(Netlist netlist, List<String> notes) {
        /** Copies the notes. */
        public Mapped {
            notes = List.copyOf(notes);
        }
    }

    /**
     * Reads a netlist, flattens it, and turns it into cells of the fabric's kinds.
     *
     * @param top name of the top module, or {@code ""} for the only possible one
     * @throws BadInput when the file is at fault, or does not fit the mapping or the fabric
     */
    public static Mapped read(
            Path file, String top, CellMapping mapping, Fabric fabric, Progress progress)
            throws BadInput {
        Source source = Source.of(file);
        String plain = source.label().replaceAll("\\.gz$", "");
        Library library =
                EDIF.stream().anyMatch(plain::endsWith)
                        ? EdifReader.read(source, progress)
                        : VerilogReader.read(source, progress);
        FlatNetlist flat = Flattener.flatten(library, top, mapping.types().keySet());
        Mapped mapped = new NetlistMapper(flat, mapping, new KindPins(fabric)).run();
        checkNames(source, mapped.netlist());
        return mapped;
    }

    /** Verilog ends an escaped name at white space only, a design's file allows no controls. */
    private static void checkNames(Source source, Netlist netlist) throws BadInput {
        List<String> names = new ArrayList<>();
        netlist.cells().forEach(c -> names.add(c.name()));
        netlist.ports().forEach(p -> names.add(p.name()));
        netlist.nets().forEach(n -> names.add(n.name()));
        for (String name : names) {
            if (!Text.isPrintable(name)) {
                throw new BadInput(
                        source.label(), "", "names of printable characters", Text.quote(name));
            }
        }
    }
}
