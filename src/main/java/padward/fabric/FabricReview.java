package padward.fabric;

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
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadUse;

/**
 * Reviews a fabric for what is valid but rarely intended: pads that nothing leads to, unconnected
 * wires, delays that are the same at both corners. The gaps of a fabric that was described by hand
 * or dumped by a script show up here. O(vertices + edges).
 */
public final class FabricReview {
    /** Names listed for each finding. */
    private static final int LISTED = 3;

    /** How many vertices are looked at between two questions whether to stop, less one. */
    private static final int OFTEN = 0xfff;

    /** A span that fewer than one in so many wires of a kind have is suspicious. */
    private static final int SUSPICIOUS_ONE_IN = 50;

    private final Fabric fabric;
    private final Progress progress;
    private final BitSet entered;
    private final BitSet left;
    private final List<String> findings = new ArrayList<>();
    private final Map<EdgeKind, Integer> edgeCounts = new TreeMap<>();
    private boolean cornersDiffer;
    private int noDelay;

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
     * @param findings what is suspicious, in words; may be empty
     */
    public record Result(List<String> counts, List<String> findings) {
        /** Copies the lists. */
        public Result {
            counts = List.copyOf(counts);
            findings = List.copyOf(findings);
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
                edgeCounts.merge(edges.kind(), 1, Integer::sum);
                int fast = edges.delayPs(Corner.FAST);
                int slow = edges.delayPs(Corner.SLOW);
                cornersDiffer |= fast != slow;
                noDelay += slow == 0 ? 1 : 0;
            }
        }
        find(named(againstSource), "out pins that something leads to");
        find(named(againstSink), "in pins that lead to something");
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
        find(single, "switch groups of one switch, which exclude nothing");
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
                                all + " wires" + listed(wires),
                                siteCount
                                        + " sites with "
                                        + pins
                                        + " pins"
                                        + listed(sites)
                                        + (parts == 0 ? "" : ", " + parts + " parts of sites"),
                                edgeCounts.getOrDefault(EdgeKind.SWITCH, 0)
                                        + " switches, "
                                        + edgeCounts.getOrDefault(EdgeKind.CONNECTION, 0)
                                        + " fixed connections, "
                                        + edgeCounts.getOrDefault(EdgeKind.PASS_THROUGH, 0)
                                        + " pass-throughs"
                                        + (fabric.switchGroups().isEmpty()
                                                ? ""
                                                : ", "
                                                        + fabric.switchGroups().count()
                                                        + " switch groups")));
        Unusable unusable = fabric.unusable();
        if (!unusable.isEmpty()) {
            long closed =
                    unusable.vertices().stream()
                            .filter(v -> fabric.kind(v) == VertexKind.WIRE)
                            .count();
            counts.add("unusable: " + closed + " wires, " + unusable.siteCount() + " sites");
        }
        return counts;
    }

    private static String listed(Map<String, Integer> counts) {
        if (counts.isEmpty() || counts.size() > 40) {
            return counts.isEmpty() ? "" : " of " + counts.size() + " kinds";
        }
        List<String> parts = new ArrayList<>();
        counts.forEach((kind, count) -> parts.add(count + " " + (kind.isEmpty() ? "?" : kind)));
        return ": " + String.join(", ", parts);
    }

    private void lookAtPads() {
        BitSet reached = reachedFromSites();
        List<String> unfed = new ArrayList<>();
        List<String> apart = new ArrayList<>();
        List<String> blind = new ArrayList<>();
        List<String> shared = new ArrayList<>();
        Map<Integer, Pad> byRegister = new HashMap<>();
        int unnamed = 0;
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
            unnamed += bonded && pad.packagePin().isEmpty() ? 1 : 0;
        }
        find(unfed, "pads that can drive, but nothing leads to them");
        find(apart, "pads that no signal of a cell reaches, even on the empty fabric");
        find(blind, "input pads that lead nowhere");
        find(shared, "pads with the same IO register site before their drivers");
        if (unnamed > 0) {
            findings.add("pads without a package pin: " + unnamed);
        }
    }

    /** All that can be reached from out pins of sites that are not a pad's own registers. */
    private BitSet reachedFromSites() {
        Set<Integer> atPads = new HashSet<>();
        for (Pad pad : fabric.pads()) {
            atPads.add(pad.dataSite());
            atPads.add(pad.enableSite());
        }
        BitSet seen = new BitSet(fabric.vertexCount());
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            for (int i = 0; i < site.pins().size() && !atPads.contains(s); i++) {
                boolean out = site.pins().get(i).direction() == PinDirection.OUT;
                if (out && !seen.get(site.firstPin() + i)) {
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
                if (!seen.get(edges.other())) {
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
        find(undriven, "wires that nothing drives");
        find(dead, "wires that lead nowhere");
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
        find(odd, "wires that span other tiles than nearly all of their kind");
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
        for (int s = 0; s < fabric.siteCount(); s++) {
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
        find(useless, "sites that accept no kind of cell");
        find(cutOff, "sites whose pins are joined to nothing");
        find(unfit, "sites without a pin that a lookup table or register which they accept has");
        find(alone, "pins that are alike with no other pin of their site or part");
        find(unlike, "alike pins that a cell which their site accepts uses differently");
        if (fabric.info().cellKinds().stream().noneMatch(CellKind::holdsState)) {
            findings.add("no kind of cell holds state, so no endpoint can be named");
        }
        if (fabric.info().settings().isEmpty()) {
            findings.add("no driver settings, so the delay of pads is not known");
        }
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
        int all = edgeCounts.values().stream().mapToInt(Integer::intValue).sum();
        if (all > 0 && !cornersDiffer) {
            findings.add("fast and slow delays are the same everywhere");
        }
        if (noDelay > 0) {
            findings.add("connections that take no time: " + noDelay + " of " + all);
        }
    }

    private void find(List<String> names, String what) {
        if (!names.isEmpty()) {
            String first = String.join(", ", names.subList(0, Math.min(LISTED, names.size())));
            String more = names.size() > LISTED ? ", …" : "";
            findings.add(what + ": " + names.size() + " (" + first + more + ")");
        }
    }
}
