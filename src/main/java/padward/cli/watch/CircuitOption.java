package padward.cli.watch;

import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.Fabric;
import padward.watch.request.CircuitRequest;
import padward.watch.request.CircuitSort;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The options that state a watch circuit. */
public final class CircuitOption {
    @Parameters(
            index = "0",
            paramLabel = "CIRCUIT",
            description = {
                "trigger: high while --when is true",
                "select: one of --nets, chosen by levels at --by",
                "count: each of --nets in turn for --cycles; a second pad marks the first",
                "divide: the clock, or the cycles in which --when is true, divided --by a number",
                "toggle: changes its level each time --when becomes true",
                "stretch: high for --cycles after --when",
                "sticky: high from the first --when on, until --reset",
                "sync: a net of another clock, through two registers",
                "register: a net, through one register",
                "any: high for a cycle after any of --nets has changed",
                "parity: high while an odd number of --nets is high",
                "signature: a checksum of --nets over many cycles, from --reset on",
                "own: what your own --netlist makes of nets of the design"
            })
    private CircuitSort sort;

    @Option(
            names = {"-n", "--nets"},
            split = ",",
            paramLabel = "NETS",
            description =
                    "Nets, vectors (level/sample), bits of one (sample[3:0]), or patterns with * and "
                            + "?, separated by commas; may be repeated. The last parts of names are "
                            + "enough. The bits of a vector are taken in ascending order.")
    private List<String> nets = List.of();

    @Option(
            names = "--when",
            paramLabel = "CONDITION",
            description =
                    "A condition over nets and vectors, such as 'count[7:0] == 8h3F && !beep'; "
                            + "see docs/watch-library.md.")
    private String when;

    @Option(
            names = "--reset",
            paramLabel = "CONDITION",
            description = "The condition under which sticky or signature begins again.")
    private String reset;

    @Option(
            names = "--by",
            split = ",",
            paramLabel = "BY",
            description =
                    "select: what chooses, the lowest bit first: nets, or pads that are read, "
                            + "separated by commas. divide: a number from 2 to 65536.")
    private List<String> by = List.of();

    @Option(
            names = "--cycles",
            paramLabel = "N",
            description = "stretch, count: how many cycles of the clock.")
    private Integer cycles;

    @Option(
            names = {"-c", "--clock"},
            paramLabel = "NET",
            description =
                    "The clock of the circuit's registers. Otherwise that of the registers that "
                            + "drive the nets, or the only one of the design.")
    private String clock;

    @Option(
            names = "--combinational",
            description =
                    "trigger, select, parity: no register before the pad; shows glitches, and needs "
                            + "no clock.")
    private boolean combinational;

    @Mixin private OwnOption own;

    /** The circuit as the options state it, on a fabric. */
    CircuitRequest request(Fabric fabric) throws BadInput {
        boolean divided = sort.has(CircuitSort.Part.DIVISOR);
        return new CircuitRequest(
                sort,
                nets,
                Optional.ofNullable(when),
                Optional.ofNullable(reset),
                divided ? List.of() : by,
                divided ? Optional.of(divisor()) : Optional.ofNullable(cycles),
                Optional.ofNullable(clock),
                !combinational,
                sort == CircuitSort.OWN ? Optional.of(own.read(fabric)) : Optional.empty());
    }

    private int divisor() throws BadInput {
        try {
            return Integer.parseInt(String.join(",", by));
        } catch (NumberFormatException e) {
            throw new BadInput(
                    "--by",
                    "",
                    "a number from 2 to 65536",
                    by.isEmpty() ? "none" : "“" + String.join(",", by) + "”");
        }
    }
}
