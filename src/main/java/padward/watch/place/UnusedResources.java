package padward.watch.place;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.design.Design;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.place.ClosedPins;
import padward.watch.circuit.CircuitElement;

/** What a design leaves unused: sites on which cells can be placed, and vertices for routes. */
final class UnusedResources {
    private final Design design;
    private final Fabric fabric;

    /** What something uses. */
    private final BitSet used;

    /** What routes may enter only at their ends: the above, all pads, pins of unused sites. */
    private final BitSet closed;

    private final List<FreeSite> tables = new ArrayList<>();
    private final List<FreeSite> registers = new ArrayList<>();

    /** Wires of nets that may be moved; routes may use them, though they had better not. */
    private final BitSet movable;

    /**
     * @param movable wires of nets that may be moved, which count as unused
     */
    UnusedResources(Design design, BitSet movable) {
        this.design = design;
        this.fabric = design.fabric();
        this.movable = movable;
        this.used = design.occupancy().toBits();
        used.andNot(movable);
        design.tiedPins().forEach(used::set);
        this.closed = (BitSet) ClosedPins.closed(fabric).clone();
        closed.or(used);
        collect();
    }

    private void collect() {
        Set<Integer> atPads = new HashSet<>();
        for (Pad pad : fabric.pads()) {
            atPads.add(pad.dataSite());
            atPads.add(pad.enableSite());
        }
        Map<String, CellFunction> functions = new HashMap<>();
        for (CellKind kind : fabric.info().cellKinds()) {
            kind.function().ifPresent(f -> functions.put(kind.name(), f));
        }
        if (functions.isEmpty()) {
            return;
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            boolean taken = design.occupancy().findCellOn(s).isPresent() || atPads.contains(s);
            if (taken || fabric.unusable().isSite(s)) {
                continue;
            }
            SiteView site = fabric.site(s);
            int first = used.nextSetBit(site.firstPin());
            if (first >= 0 && first < site.firstPin() + site.pins().size()) {
                continue;
            }
            for (String kind : site.accepts()) {
                Optional.ofNullable(functions.get(kind))
                        .filter(f -> f.fits(site))
                        .ifPresent(f -> add(new FreeSite(site, kind, f)));
            }
        }
    }

    private void add(FreeSite freeSite) {
        (freeSite.function() instanceof CellFunction.LookupTable ? tables : registers)
                .add(freeSite);
    }

    Design design() {
        return design;
    }

    BitSet used() {
        return used;
    }

    BitSet closed() {
        return closed;
    }

    /** Wires of nets that may be moved. */
    BitSet movable() {
        return movable;
    }

    /** Where an element could be placed as far as it alone is concerned. */
    List<FreeSite> sitesFor(CircuitElement element) {
        return (element instanceof CircuitElement.Register ? registers : tables)
                .stream().filter(s -> fits(s.function(), element)).toList();
    }

    /** The register of a pad's IO register site as a site; empty when something uses it. */
    Optional<FreeSite> siteOf(WatchQuestion.PadRegister wanted) {
        SiteView site = fabric.site(wanted.site());
        int first = used.nextSetBit(site.firstPin());
        boolean free =
                design.occupancy().findCellOn(site.id()).isEmpty()
                        && !fabric.unusable().isSite(site.id())
                        && (first < 0 || first >= site.firstPin() + site.pins().size());
        return free
                ? Optional.of(new FreeSite(site, wanted.kind(), wanted.function()))
                : Optional.empty();
    }

    /** Whether the fabric has a kind of cell that could be the element. */
    boolean isKnown(CircuitElement element) {
        return fabric.info().cellKinds().stream()
                .flatMap(k -> k.function().stream())
                .anyMatch(f -> fits(f, element));
    }

    private static boolean fits(CellFunction function, CircuitElement element) {
        if (element instanceof CircuitElement.Register register) {
            return function instanceof CellFunction.Register kind && starts(kind, register);
        }
        return function instanceof CellFunction.LookupTable table
                && table.inputs().size() >= element.inputs().size();
    }

    /** Whether a kind of register can have the value at the start that an element needs. */
    private static boolean starts(CellFunction.Register kind, CircuitElement.Register element) {
        if (element.initial().isEmpty() || kind.initialSetting().isPresent()) {
            return true;
        }
        CellFunction.Initial wanted =
                element.initial().get() ? CellFunction.Initial.HIGH : CellFunction.Initial.LOW;
        return kind.initial() == wanted;
    }
}
