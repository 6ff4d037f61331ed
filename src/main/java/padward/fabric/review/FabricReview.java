package padward.fabric.review;

import it.unimi.dsi.fastutil.ints.IntArrayFIFOQueue;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import padward.base.Counts;
import padward.base.Progress;
import padward.fabric.AlikePins;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.DoubleRateRegister;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.SwitchGroups;
import padward.fabric.Unusable;
import padward.fabric.VertexKind;
import padward.fabric.WholeSite;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadUse;

/**
 * Reviews a fabric for what is valid but rarely intended: pads that nothing leads to, unconnected
 * wires, delays that are the same at both corners. The gaps of a fabric that was described by hand
 * or dumped by a script show up here. O(vertices + edges).
 */
public final class FabricReview {
    /** How many vertices are looked at between two questions whether to stop, less one. */
    private static final int OFTEN = 0xfff;

    /** As often, for sites: each has some pins with their edges. */
    private static final int FEW = 0x3f;

    /** A span that fewer than one in so many wires of a kind have is suspicious. */
    private static final int SUSPICIOUS_ONE_IN = 50;

    private final Fabric fabric;
    private final Progress progress;
    private final BitSet entered;
    private final BitSet left;
    private final List<Finding> findings = new ArrayList<>();
    private final Map<EdgeKind, Long> edgeCounts = new TreeMap<>();
    private boolean cornersDiffer;
    private long noDelay;

    private FabricReview(Fabric fabric, Progress progress) {
        this.fabric = fabric;
        this.progress = progress;
        this.entered = new BitSet(fabric.vertexCount());
        this.left = new BitSet(fabric.vertexCount());
    }

    /**
     * What the review found.
     *
     * @param counts what is in the fabric, in words
     * @param odd what is suspicious; may be empty
     */
    public record Result(List<String> counts, List<Finding> odd) {
        /** Copies the lists. */
        public Result {
            counts = List.copyOf(counts);
            odd = List.copyOf(odd);
        }

        /** What is suspicious, in words. */
        public List<String> findings() {
            return odd.stream().map(Finding::text).toList();
        }
    }

    /**
     * Reviews a fabric.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static Result of(Fabric fabric, Progress progress) {
        return new FabricReview(fabric, progress).run();
    }

    private void checkStop() {
        if (progress.cancelled()) {
            throw new CancellationException("checking the fabric");
        }
    }

    private Result run() {
        EdgeCursor edges = fabric.edgesOut();
        BitSet sources = new BitSet();
        BitSet sinks = new BitSet();
        addDirected(sources, sinks);
        BitSet againstSource = new BitSet();
        BitSet againstSink = new BitSet();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if ((v & OFTEN) == 0) {
                progress.report((double) v / fabric.vertexCount(), "checking the fabric");
                checkStop();
            }
            edges.reset(v);
            while (edges.next()) {
                left.set(v);
                entered.set(edges.other());
                if (edges.kind() != EdgeKind.PASS_THROUGH) {
                    if (sources.get(edges.other())) {
                        againstSource.set(edges.other());
                    }
                    if (sinks.get(v)) {
                        againstSink.set(v);
                    }
                }
                edgeCounts.merge(edges.kind(), 1L, Long::sum);
                int fast = edges.delayPs(Corner.FAST);
                int slow = edges.delayPs(Corner.SLOW);
                cornersDiffer |= fast != slow;
                noDelay += slow == 0 ? 1 : 0;
            }
        }
        find(FabricOddity.ENTERED_OUT_PINS, named(againstSource));
        find(FabricOddity.LEAVING_IN_PINS, named(againstSink));
        lookAtPads();
        lookAtWires();
        lookAtSites();
        lookAtDelays();
        lookAtSwitchGroups();
        return new Result(counts(), findings);
    }

    private List<String> named(BitSet vertices) {
        return vertices.stream().mapToObj(fabric::vertexName).toList();
    }

    /** Adds the pins at which signals only start, and those at which they only end. */
    private void addDirected(BitSet sources, BitSet sinks) {
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (int i = 0; i < site.pins().size(); i++) {
                boolean out = site.pins().get(i).direction() == PinDirection.OUT;
                (out ? sources : sinks).set(site.firstPin() + i);
            }
        }
    }

    private void lookAtSwitchGroups() {
        SwitchGroups groups = fabric.switchGroups();
        List<String> single = new ArrayList<>();
        for (int group = 0; group < groups.count(); group++) {
            if (groups.switches(group).size() == 1) {
                single.add(groups.name(group));
            }
        }
        find(FabricOddity.SINGLE_SWITCH_GROUPS, single);
    }

    private List<String> counts() {
        Map<String, Integer> wires = new TreeMap<>();
        int pins = 0;
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                wires.merge(fabric.wireKind(v), 1, Integer::sum);
            } else if (fabric.kind(v) == VertexKind.PIN) {
                pins++;
            }
        }
        Map<String, Integer> sites = new TreeMap<>();
        int siteCount = 0;
        int parts = 0;
        for (WholeSite site : WholeSite.allOf(fabric)) {
            sites.merge(site.first().kind(), 1, Integer::sum);
            siteCount++;
            parts += site.hasParts() ? site.parts().size() : 0;
        }
        int all = wires.values().stream().mapToInt(Integer::intValue).sum();
        List<String> counts =
                new ArrayList<>(
                        List.of(
                                Counts.text(all, "wire") + listed(wires),
                                Counts.text(siteCount, "site")
                                        + " with "
                                        + Counts.text(pins, "pin")
                                        + listed(sites)
                                        + (parts == 0
                                                ? ""
                                                : ", " + Counts.text(parts, "part") + " of sites"),
                                Counts.text(edges(EdgeKind.SWITCH), "switch", "switches")
                                        + ", "
                                        + Counts.text(
                                                edges(EdgeKind.CONNECTION), "fixed connection")
                                        + ", "
                                        + Counts.text(edges(EdgeKind.PASS_THROUGH), "pass-through")
                                        + (fabric.switchGroups().isEmpty()
                                                ? ""
                                                : ", "
                                                        + Counts.text(
                                                                fabric.switchGroups().count(),
                                                                "switch group"))));
        Unusable unusable = fabric.unusable();
        if (!unusable.isEmpty()) {
            long closed =
                    unusable.vertices().stream()
                            .filter(v -> fabric.kind(v) == VertexKind.WIRE)
                            .count();
            counts.add(
                    "unusable: "
                            + Counts.text(closed, "wire")
                            + ", "
                            + Counts.text(unusable.siteCount(), "site"));
        }
        return counts;
    }

    private long edges(EdgeKind kind) {
        return edgeCounts.getOrDefault(kind, 0L);
    }

    private static String listed(Map<String, Integer> counts) {
        if (counts.isEmpty() || counts.size() > 40) {
            return counts.isEmpty() ? "" : " of " + counts.size() + " kinds";
        }
        List<String> parts = new ArrayList<>();
        counts.forEach(
                (kind, count) ->
                        parts.add(Counts.text(count) + " " + (kind.isEmpty() ? "?" : kind)));
        return ": " + String.join(", ", parts);
    }

    private void lookAtPads() {
        BitSet reached = reachedFromSites(new BitSet());
        BitSet generally = reachedFromSites(notGeneral());
        List<String> unfed = new ArrayList<>();
        List<String> apart = new ArrayList<>();
        List<String> blind = new ArrayList<>();
        List<String> shared = new ArrayList<>();
        Map<Integer, Pad> byRegister = new HashMap<>();
        List<String> unnamed = new ArrayList<>();
        List<String> byClockOnly = new ArrayList<>();
        for (Pad pad : fabric.pads()) {
            Pad other =
                    pad.dataSite() == Fabric.NOTHING
                            ? pad
                            : byRegister.merge(pad.dataSite(), pad, (first, more) -> first);
            if (other != pad) {
                shared.add(other.name() + " and " + pad.name());
            }
            boolean drives = pad.directions().canDrive();
            if (drives && !entered.get(pad.vertex())) {
                unfed.add(pad.name());
            } else if (drives && !reached.get(pad.vertex())) {
                apart.add(pad.name());
            }
            if (pad.directions().canRead() && !drives && !left.get(pad.vertex())) {
                blind.add(pad.name());
            }
            boolean bonded = pad.use().bonding() != PadUse.Bonding.UNBONDED;
            if (bonded && pad.packagePin().isEmpty()) {
                unnamed.add(pad.name());
            }
            if (drives
                    && pad.use().isOffered()
                    && reached.get(pad.vertex())
                    && !generally.get(pad.vertex())) {
                byClockOnly.add(pad.name());
            }
        }
        find(FabricOddity.UNFED_PADS, unfed);
        find(FabricOddity.PADS_APART, apart);
        find(FabricOddity.PADS_BY_CLOCK_ONLY, byClockOnly);
        find(FabricOddity.BLIND_PADS, blind);
        find(FabricOddity.SHARED_REGISTERS, shared);
        find(FabricOddity.UNNAMED_PINS, unnamed);
    }

    /** The wires of kinds that pads for clocks alone lead to, and all that is unusable. */
    private BitSet notGeneral() {
        BitSet result = new BitSet();
        result.or(fabric.unusable().vertices());
        Set<String> clockKinds = ClockWires.kinds(fabric);
        for (int v = 0; v < fabric.vertexCount() && !clockKinds.isEmpty(); v++) {
            if ((v & OFTEN) == 0) {
                checkStop();
            }
            if (clockKinds.contains(fabric.wireKind(v))) {
                result.set(v);
            }
        }
        return result;
    }

    /**
     * All that can be reached from out pins of sites that are not a pad's own registers.
     *
     * @param without what may not be passed
     */
    private BitSet reachedFromSites(BitSet without) {
        Set<Integer> atPads = new HashSet<>();
        for (Pad pad : fabric.pads()) {
            atPads.add(pad.dataSite());
            atPads.add(pad.enableSite());
        }
        BitSet seen = new BitSet(fabric.vertexCount());
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        for (int s = 0; s < fabric.siteCount(); s++) {
            if ((s & OFTEN) == 0) {
                checkStop();
            }
            SiteView site = fabric.site(s);
            for (int i = 0; i < site.pins().size() && !atPads.contains(s); i++) {
                boolean out = site.pins().get(i).direction() == PinDirection.OUT;
                if (out && !seen.get(site.firstPin() + i) && !without.get(site.firstPin() + i)) {
                    seen.set(site.firstPin() + i);
                    queue.enqueue(site.firstPin() + i);
                }
            }
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int looked = 0; !queue.isEmpty(); looked++) {
            if ((looked & OFTEN) == 0) {
                checkStop();
            }
            edges.reset(queue.dequeueInt());
            while (edges.next()) {
                if (!seen.get(edges.other()) && !without.get(edges.other())) {
                    seen.set(edges.other());
                    queue.enqueue(edges.other());
                }
            }
        }
        return seen;
    }

    private void lookAtWires() {
        List<String> undriven = new ArrayList<>();
        List<String> dead = new ArrayList<>();
        Map<String, Map<Long, Integer>> spans = new HashMap<>();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) != VertexKind.WIRE) {
                continue;
            }
            if (!entered.get(v)) {
                undriven.add(fabric.vertexName(v));
            }
            if (!left.get(v)) {
                dead.add(fabric.vertexName(v));
            }
            spans.computeIfAbsent(fabric.wireKind(v), k -> new HashMap<>())
                    .merge(span(v), 1, Integer::sum);
        }
        find(FabricOddity.UNDRIVEN_WIRES, undriven);
        find(FabricOddity.DEAD_WIRES, dead);
        List<String> odd = new ArrayList<>();
        for (int v = 0; v < fabric.vertexCount() && odd.size() < 1000; v++) {
            if (fabric.kind(v) == VertexKind.WIRE) {
                Map<Long, Integer> own = spans.get(fabric.wireKind(v));
                int all = own.values().stream().mapToInt(Integer::intValue).sum();
                if (own.get(span(v)) * SUSPICIOUS_ONE_IN < all) {
                    odd.add(fabric.vertexName(v));
                }
            }
        }
        find(FabricOddity.ODD_SPANS, odd);
    }

    private long span(int wire) {
        long dx = fabric.column(fabric.headTile(wire)) - fabric.column(fabric.tile(wire));
        long dy = fabric.row(fabric.headTile(wire)) - fabric.row(fabric.tile(wire));
        return dx << Integer.SIZE ^ dy & 0xffffffffL;
    }

    private void lookAtSites() {
        List<String> useless = new ArrayList<>();
        List<String> cutOff = new ArrayList<>();
        List<String> unfit = new ArrayList<>();
        List<String> alone = new ArrayList<>();
        List<String> unlike = new ArrayList<>();
        List<String> sharing = new ArrayList<>();
        EdgeCursor into = fabric.edgesIn();
        EdgeCursor onto = fabric.edgesOut();
        for (int s = 0; s < fabric.siteCount(); s++) {
            if ((s & FEW) == 0) {
                checkStop();
            }
            SiteView site = fabric.site(s);
            if (site.accepts().isEmpty()) {
                useless.add(site.name());
            }
            if (accepted(site).anyMatch(function -> !function.fits(site))
                    || doubleRates(site).anyMatch(register -> !register.fits(site))) {
                unfit.add(site.name());
            }
            alone.addAll(AlikePins.alone(site));
            unlike.addAll(AlikePins.usedDifferently(fabric, site));
            sharing.addAll(sharing(site, into, onto));
            boolean in = false;
            boolean out = false;
            boolean joined = false;
            for (int i = 0; i < site.pins().size(); i++) {
                boolean drives = site.pins().get(i).direction() == PinDirection.OUT;
                in |= !drives;
                out |= drives;
                joined |= (drives ? left : entered).get(site.firstPin() + i);
            }
            if ((in || out) && !joined) {
                cutOff.add(site.name());
            }
        }
        find(FabricOddity.SITES_WITHOUT_CELLS, useless);
        find(FabricOddity.SITES_CUT_OFF, cutOff);
        find(FabricOddity.SITES_WITHOUT_PINS, unfit);
        find(FabricOddity.LONE_ALIKE_PINS, alone);
        find(FabricOddity.UNLIKE_ALIKE_PINS, unlike);
        find(FabricOddity.PINS_SHARING_A_WIRE, sharing);
        if (fabric.info().cellKinds().stream().noneMatch(CellKind::holdsState)) {
            findings.add(Finding.of(FabricOddity.NO_STATE, ""));
        }
        if (fabric.info().settings().isEmpty()) {
            findings.add(Finding.of(FabricOddity.NO_SETTINGS, ""));
        }
    }

    /** Pins, of one direction each, at which only one wire ends or begins, the same for several. */
    private List<String> sharing(SiteView site, EdgeCursor into, EdgeCursor onto) {
        Map<Integer, List<String>> entering = new TreeMap<>();
        Map<Integer, List<String>> leaving = new TreeMap<>();
        for (int i = 0; i < site.pins().size(); i++) {
            SitePin pin = site.pins().get(i);
            boolean drives = pin.direction() == PinDirection.OUT;
            int wire = onlyWire(drives ? onto : into, site.firstPin() + i);
            if (wire != Fabric.NOTHING) {
                (drives ? leaving : entering)
                        .computeIfAbsent(wire, w -> new ArrayList<>())
                        .add(pin.name());
            }
        }
        List<String> result = new ArrayList<>();
        for (Map<Integer, List<String>> byWire : List.of(entering, leaving)) {
            byWire.forEach(
                    (wire, pins) -> {
                        if (pins.size() > 1) {
                            result.add(
                                    site.name()
                                            + ": "
                                            + String.join(" and ", pins)
                                            + " at "
                                            + fabric.vertexName(wire));
                        }
                    });
        }
        return result;
    }

    /** The wire that alone is joined to a pin from outside its site, or nothing. */
    private int onlyWire(EdgeCursor edges, int pin) {
        int found = Fabric.NOTHING;
        edges.reset(pin);
        while (edges.next()) {
            if (edges.kind() != EdgeKind.PASS_THROUGH) {
                if (found != Fabric.NOTHING || fabric.kind(edges.other()) != VertexKind.WIRE) {
                    return Fabric.NOTHING;
                }
                found = edges.other();
            }
        }
        return found;
    }

    private Stream<CellFunction> accepted(SiteView site) {
        return site.accepts().stream()
                .flatMap(kind -> fabric.info().findCellKind(kind).stream())
                .flatMap(kind -> kind.function().stream());
    }

    private Stream<DoubleRateRegister> doubleRates(SiteView site) {
        return site.accepts().stream()
                .flatMap(kind -> fabric.info().findCellKind(kind).stream())
                .flatMap(kind -> kind.doubleRate().stream());
    }

    private void lookAtDelays() {
        long all = edgeCounts.values().stream().mapToLong(Long::longValue).sum();
        if (all > 0 && !cornersDiffer) {
            findings.add(Finding.of(FabricOddity.EQUAL_CORNERS, ""));
        }
        if (noDelay > 0) {
            findings.add(Finding.of(FabricOddity.NO_DELAY, ": " + noDelay + " of " + all));
        }
    }

    private void find(Oddity kind, List<String> names) {
        if (!names.isEmpty()) {
            findings.add(Finding.of(kind, names));
        }
    }
}
