package padward.watch.place;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.watch.circuit.CircuitElement;

/**
 * Where elements of a circuit can be placed, as far as each connection alone is concerned. What is
 * left out here cannot be used in any layout: each net alone finds no route there, over all that is
 * free, through any site. One object serves one question.
 */
final class CandidateSites {
    private final Connections connections;
    private final Progress progress;
    private final UnusedResources unused;
    private final Fabric fabric;
    private final List<IntSet> freedAtPads;
    private final int[] pads;
    private final List<List<FreeSite>> freeSites = new ArrayList<>();

    /** By source, what it reaches; empty as long as that is not known. */
    private final List<BitSet> reached = new ArrayList<>();

    /**
     * Why there is no layout.
     *
     * @param reason which of the reasons
     * @param text in words, as a sentence
     * @param output the output whose pad it is about, or {@link Fabric#NOTHING}
     */
    record Fault(WatchResult.Reason reason, String text, int output) {
        Fault(WatchResult.Reason reason, String text) {
            this(reason, text, Fabric.NOTHING);
        }
    }

    /**
     * @param freedAtPads by output, what becomes free when its pad's port is disconnected
     * @param pads by output, the index of its pad
     * @param progress asked now and then whether to stop
     */
    CandidateSites(
            Connections connections,
            UnusedResources unused,
            List<IntSet> freedAtPads,
            int[] pads,
            Progress progress) {
        this.progress = progress;
        this.connections = connections;
        this.unused = unused;
        this.fabric = unused.design().fabric();
        this.freedAtPads = freedAtPads;
        this.pads = pads;
        connections.circuit().elements().forEach(e -> freeSites.add(unused.sitesFor(e)));
        connections.sources().forEach(s -> reached.add(new BitSet()));
    }

    /** Leaves the register that the first output shows one place alone. */
    void setLast(WatchQuestion.PadRegister wanted) {
        if (connections.sources().get(connections.outputs()[0]) instanceof Source.OfElement of) {
            freeSites.set(of.element(), unused.siteOf(wanted).stream().toList());
        }
    }

    /** By element, where it can be placed as far as has been looked at. */
    List<List<FreeSite>> freeSites() {
        return List.copyOf(freeSites);
    }

    /** Looks at free sites, clocks and pads; what stands against every layout, if anything does. */
    Optional<Fault> ofClocksAndPads() {
        return kinds().or(this::enough).or(this::clocks).or(this::routes).or(this::enough);
    }

    /** The same without the pads. */
    Optional<Fault> ofClocks() {
        return kinds().or(this::enough).or(this::clocks).or(this::enough);
    }

    private Optional<Fault> kinds() {
        for (int e = 0; e < connections.elements(); e++) {
            CircuitElement element = connections.circuit().elements().get(e);
            if (!unused.isKnown(element)) {
                return Optional.of(
                        new Fault(
                                WatchResult.Reason.NO_KINDS,
                                "The fabric states no kind of cell that is "
                                        + wanted(element)
                                        + "."));
            }
        }
        return Optional.empty();
    }

    private static String wanted(CircuitElement element) {
        if (element instanceof CircuitElement.Register register) {
            return "a register"
                    + (register.initial().isEmpty() ? "" : " whose value at the start can be set");
        }
        int inputs = element.inputs().size();
        return "a lookup table with " + inputs + (inputs == 1 ? " input" : " inputs or more");
    }

    private Optional<Fault> enough() {
        int count = new FreeSiteMatching(freeSites).matched();
        if (count == freeSites.size()) {
            return Optional.empty();
        }
        String text =
                String.format(
                        Locale.ROOT,
                        "The circuit has %d cells, and the free sites that they could use are"
                                + " enough for %d.",
                        freeSites.size(),
                        count);
        return Optional.of(new Fault(WatchResult.Reason.NO_FREE_SITES, text));
    }

    private Optional<Fault> clocks() {
        for (int e = 0; e < connections.elements(); e++) {
            int clock = connections.clock(e);
            if (clock == Fabric.NOTHING) {
                continue;
            }
            BitSet there = reachedBy(clock);
            freeSites.set(
                    e, freeSites.get(e).stream().filter(s -> there.get(s.clockVertex())).toList());
            if (freeSites.get(e).isEmpty()) {
                return Optional.of(
                        new Fault(
                                WatchResult.Reason.CLOCK_CANNOT_REACH,
                                "Clock "
                                        + textOf(clock)
                                        + " reaches no free site of a register over free wires."));
            }
        }
        return Optional.empty();
    }

    /** The routes to the pads, backwards. */
    private Optional<Fault> routes() {
        for (int o = 0; o < pads.length; o++) {
            Pad pad = fabric.pads().get(pads[o]);
            if (!(connections.sources().get(connections.outputs()[o])
                    instanceof Source.OfElement of)) {
                continue;
            }
            BitSet closed = (BitSet) unused.used().clone();
            freedAtPads.get(o).forEach(closed::clear);
            BitSet from =
                    Reachable.of(new int[] {pad.vertex()}, fabric.edgesIn(), closed, progress);
            boolean shut =
                    !pad.directions().canDrive()
                            || closed.get(pad.vertex())
                            || isSwitched(pad, closed);
            int element = of.element();
            freeSites.set(
                    element,
                    freeSites.get(element).stream()
                            .filter(s -> !shut && from.get(s.outVertex()))
                            .toList());
            if (freeSites.get(element).isEmpty()) {
                String text =
                        pad.directions().canDrive()
                                ? "Pad "
                                        + pad.name()
                                        + " cannot be reached from any free site over free wires."
                                : "Pad " + pad.name() + " is input-only.";
                return Optional.of(new Fault(WatchResult.Reason.PAD_BLOCKED, text, o));
            }
        }
        return Optional.empty();
    }

    /** Whether something of the design switches the pad's driver, and goes on doing so. */
    private boolean isSwitched(Pad pad, BitSet closed) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return false;
        }
        SiteView site = fabric.site(pad.enableSite());
        int used = closed.nextSetBit(site.firstPin());
        boolean pins = used >= 0 && used < site.firstPin() + site.pins().size();
        return pins || unused.design().occupancy().findCellOn(site.id()).isPresent();
    }

    /** Looks at all nets, again and again while that leaves sites out. */
    Optional<Fault> ofAllNets() {
        boolean again = true;
        while (again) {
            again = false;
            for (int e = 0; e < connections.elements(); e++) {
                List<FreeSite> left = new ArrayList<>();
                for (FreeSite freeSite : freeSites.get(e)) {
                    if (inputsFit(e, freeSite)) {
                        left.add(freeSite);
                    }
                }
                if (left.isEmpty()) {
                    return Optional.of(unreached(e));
                }
                if (left.size() < freeSites.get(e).size()) {
                    freeSites.set(e, left);
                    int source = connections.sourceOf(e);
                    if (source >= 0) {
                        reached.get(source).clear();
                    }
                    again = true;
                }
            }
        }
        return enough();
    }

    /** Whether each input can be reached by its source, at a pin of its own. */
    private boolean inputsFit(int element, FreeSite freeSite) {
        int[] sources = connections.inputs(element);
        int[] vertices = freeSite.inputVertices();
        int[] inputAt = new int[vertices.length];
        Arrays.fill(inputAt, Fabric.NOTHING);
        for (int i = 0; i < sources.length; i++) {
            if (!placed(i, sources, vertices, inputAt, new IntOpenHashSet())) {
                return false;
            }
        }
        return true;
    }

    private boolean placed(int input, int[] sources, int[] vertices, int[] inputAt, IntSet tried) {
        for (int pin = 0; pin < vertices.length; pin++) {
            if (reachedBy(sources[input]).get(vertices[pin]) && tried.add(pin)) {
                if (inputAt[pin] < 0 || placed(inputAt[pin], sources, vertices, inputAt, tried)) {
                    inputAt[pin] = input;
                    return true;
                }
            }
        }
        return false;
    }

    private Fault unreached(int element) {
        CircuitElement what = connections.circuit().elements().get(element);
        for (int source : connections.inputs(element)) {
            BitSet there = reachedBy(source);
            boolean any =
                    freeSites.get(element).stream()
                            .anyMatch(s -> Arrays.stream(s.inputVertices()).anyMatch(there::get));
            if (!any) {
                return new Fault(
                        WatchResult.Reason.NET_CANNOT_REACH,
                        "There is no free site for cell "
                                + what.name()
                                + " that "
                                + textOf(source)
                                + " reaches over free wires.");
            }
        }
        return new Fault(
                WatchResult.Reason.NET_CANNOT_REACH,
                "There is no free site for cell "
                        + what.name()
                        + " that all its nets reach over free wires.");
    }

    private String textOf(int source) {
        Source from = connections.sources().get(source);
        if (from instanceof Source.OfNet of) {
            return "net " + of.net().name();
        }
        if (from instanceof Source.OfElement of) {
            return "the output of cell "
                    + connections.circuit().elements().get(of.element()).name();
        }
        return "pad " + fabric.pads().get(((Source.OfPad) from).pad()).name();
    }

    private BitSet reachedBy(int source) {
        if (reached.get(source).isEmpty()) {
            BitSet all = Reachable.of(starts(source), fabric.edgesOut(), unused.used(), progress);
            reached.set(source, all);
        }
        return reached.get(source);
    }

    private int[] starts(int source) {
        Source from = connections.sources().get(source);
        if (from instanceof Source.OfNet of) {
            return of.net().route().toVertices();
        }
        if (from instanceof Source.OfElement of) {
            IntArrayList outs = new IntArrayList();
            freeSites.get(of.element()).forEach(s -> outs.add(s.outVertex()));
            return outs.toIntArray();
        }
        return new int[] {fabric.pads().get(((Source.OfPad) from).pad()).vertex()};
    }
}
