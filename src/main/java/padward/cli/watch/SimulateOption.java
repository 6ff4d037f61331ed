package padward.cli.watch;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.capture.Trace;
import padward.cli.option.Outputs;
import padward.design.Design;
import padward.watch.place.WatchResult;
import padward.watch.simulate.SimulatedRun;
import picocli.CommandLine.Option;

/** The options that simulate a placed circuit. */
public final class SimulateOption {
    private static final int USUAL_CYCLES = 1_000;
    private static final int MOST_CYCLES = 1_000_000;
    private static final int MOST_LISTED = 6;

    @Option(
            names = "--simulate",
            paramLabel = "FILE",
            description =
                    "Simulates the design with the circuit, as it is written, cycle by cycle, and "
                            + "writes the observed nets and the pads to this .vcd file.")
    private Path trace;

    @Option(
            names = "--inputs",
            paramLabel = "INPUTS",
            defaultValue = "random",
            description =
                    "Where the simulation gets levels from that the design does not say: random, "
                            + "zero, or a .vcd file (${DEFAULT-VALUE}). Variables of the file are "
                            + "nets by their names, or by the last parts of those. A cycle ends at "
                            + "each rising edge of the circuit's clock if the file has it, else at "
                            + "each time.")
    private String inputs = "random";

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "The random inputs are the same for the same number (${DEFAULT-VALUE}).")
    private long seed;

    @Option(
            names = "--run",
            paramLabel = "N",
            description =
                    "How many cycles are simulated; otherwise 1000, or as many as the .vcd file has.")
    private Integer run;

    /**
     * What was simulated.
     *
     * @param file where it is, or would be
     * @param written whether it is there
     * @param cycles how many cycles
     * @param given the nets whose levels came from outside
     * @param how where these came from
     */
    public record Done(Path file, boolean written, int cycles, Set<String> given, String how) {
        /** As a sentence or two. */
        String text() {
            List<String> names = List.copyOf(given);
            String listed =
                    String.join(", ", names.subList(0, Math.min(MOST_LISTED, names.size())));
            int more = names.size() - MOST_LISTED;
            return "Simulated "
                    + cycles
                    + (written ? " cycles; written: " : " cycles; not written (--dry-run): ")
                    + file
                    + "."
                    + (names.isEmpty()
                            ? ""
                            : " Levels "
                                    + how
                                    + ": "
                                    + listed
                                    + (more > 0 ? " and " + more + " more" : "")
                                    + ".");
        }
    }

    /** Refuses to write over what is read. */
    void check(Path design, Optional<Path> ledger) throws BadInput {
        if (trace == null) {
            return;
        }
        if (!trace.toString().toLowerCase(Locale.ROOT).endsWith(".vcd")) {
            throw new BadInput("--simulate", "", "a name that ends in .vcd", trace.toString());
        }
        if (run != null && (run < 1 || run > MOST_CYCLES)) {
            throw new BadInput("--run", "", "a number from 1 to " + MOST_CYCLES, "" + run);
        }
        Outputs.checkWithDesign(trace, design, ledger.orElse(design));
        if (isFile()) {
            Outputs.check(trace, Path.of(inputs));
        }
    }

    private boolean isFile() {
        return !inputs.equals("random") && !inputs.equals("zero");
    }

    /**
     * Simulates a circuit, if that was asked for.
     *
     * @param write whether the file is written
     */
    Optional<Done> simulate(WatchResult.Placed placed, boolean write, Progress progress)
            throws BadInput {
        if (trace == null) {
            return Optional.empty();
        }
        Design design = placed.design();
        List<String> clocks = List.copyOf(placed.question().circuit().clocks());
        Levels levels = isFile() ? read(design, clocks) : free();
        List<String> nets = List.copyOf(placed.question().circuit().observedNets());
        int cycles = levels.cycles() < 0 ? cycles(USUAL_CYCLES) : cycles(levels.cycles());
        SimulatedRun recorded =
                SimulatedRun.of(
                        design,
                        nets,
                        placed.question().pads(),
                        cycles,
                        levels.stimulus(),
                        progress);
        List<String> names = new ArrayList<>(nets);
        placed.legs().forEach(l -> names.add("pad:" + l.pad()));
        if (write) {
            new Trace(names, recorded.moments())
                    .write(
                            trace,
                            clocks,
                            "Simulated by Padward; a clock cycle is drawn as 10 ns, whatever it is");
        }
        return Optional.of(new Done(trace, write, cycles, recorded.given(), levels.how()));
    }

    private int cycles(int usual) {
        return run == null ? usual : run;
    }

    /**
     * Where levels come from.
     *
     * @param cycles for how many cycles there are some; -1 for any number
     */
    private record Levels(SimulatedRun.Stimulus stimulus, int cycles, String how) {}

    private Levels free() {
        boolean random = inputs.equals("random");
        SimulatedRun.Stimulus stimulus =
                new SimulatedRun.Stimulus() {
                    @Override
                    public boolean says(String net) {
                        return false;
                    }

                    @Override
                    public boolean level(String net, int cycle) {
                        return random && drawn(net, cycle);
                    }
                };
        return new Levels(stimulus, -1, random ? "drawn with seed " + seed : "taken as low");
    }

    /** The same for the same net, cycle and seed, whatever else is asked for. */
    private boolean drawn(String net, int cycle) {
        // The finalizer of SplitMix64 (Steele, Lea and Flood, OOPSLA 2014).
        long mixed = seed * 0x9E3779B97F4A7C15L + net.hashCode() * 0xBF58476D1CE4E5B9L + cycle;
        mixed = (mixed ^ mixed >>> 30) * 0xBF58476D1CE4E5B9L;
        mixed = (mixed ^ mixed >>> 27) * 0x94D049BB133111EBL;
        return ((mixed ^ mixed >>> 31) & 1) != 0;
    }

    private Levels read(Design design, List<String> clocks) throws BadInput {
        Path file = Path.of(inputs);
        Trace read = Trace.read(file, new VariableNets(design));
        if (read.signals().isEmpty()) {
            throw new BadInput(
                    file.toString(), "", "variables that are nets of the design", "none");
        }
        int clock = clocks.stream().mapToInt(read.signals()::indexOf).max().orElse(-1);
        List<BitSet> cycles = clock < 0 ? read.moments() : beforeEdges(read.moments(), clock);
        if (cycles.isEmpty()) {
            throw new BadInput(
                    file.toString(),
                    "",
                    clock < 0 ? "at least one time" : "a rising edge of the clock",
                    "none");
        }
        Map<String, Integer> places = new HashMap<>();
        for (int i = 0; i < read.signals().size(); i++) {
            places.put(read.signals().get(i), i);
        }
        clocks.forEach(places::remove);
        SimulatedRun.Stimulus stimulus =
                new SimulatedRun.Stimulus() {
                    @Override
                    public boolean says(String net) {
                        return places.containsKey(net);
                    }

                    @Override
                    public boolean level(String net, int cycle) {
                        // After its end, the last levels stay.
                        BitSet now = cycles.get(Math.min(cycle, cycles.size() - 1));
                        return places.containsKey(net) && now.get(places.get(net));
                    }
                };
        return new Levels(stimulus, cycles.size(), "from " + inputs + ", low where it has none");
    }

    private static List<BitSet> beforeEdges(List<BitSet> moments, int clock) {
        List<BitSet> result = new ArrayList<>();
        for (int i = 1; i < moments.size(); i++) {
            if (moments.get(i).get(clock) && !moments.get(i - 1).get(clock)) {
                result.add(moments.get(i - 1));
            }
        }
        return result;
    }
}
