package padward.fabric.pattern;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SitePin;
import padward.fabric.delay.Delay;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadEnable;

/** A tile type with its names resolved: flat lists of sites, pins and pads, rules with numbers. */
final class TileModel {
    /** A site of the type, or a part of one; the name has that of the part in it. */
    record LocalSite(
            String name,
            String part,
            String kind,
            List<String> accepts,
            int firstPin,
            List<SitePin> pins) {}

    /** A pad of the type; site numbers are local, {@link Fabric#NOTHING} for none. */
    record LocalPad(
            String name,
            PadDirections directions,
            int dataSite,
            int enableSite,
            String setting,
            PadEnable enable) {}

    /** A pass-through of a site, between pin offsets. */
    record LocalThrough(int fromPin, int toPin, Delay delay) {}

    /** One end of a rule: a kind of wire, or fixed vertices counted from the end of the wires. */
    record RuleEnd(int wireKind, int[] fixed) {
        boolean isWire() {
            return wireKind != Fabric.NOTHING;
        }
    }

    /** A rule with its ends resolved. */
    record LocalRule(RuleEnd from, RuleEnd to, IndexMap map, EdgeKind kind, Delay delay) {}

    final String typeName;
    final int[] wireKinds;
    final List<LocalSite> sites = new ArrayList<>();
    final List<LocalPad> pads = new ArrayList<>();
    final List<LocalThrough> throughs = new ArrayList<>();
    final List<LocalRule> rules = new ArrayList<>();

    /** Local site number of each pin offset. */
    int[] siteOfPin;

    int pinCount;

    /** Names of pins and pads, by offset from the end of the wires. */
    final List<String> fixedNames = new ArrayList<>();

    /** Their offsets by name. */
    NameTable fixed;

    final Map<String, Integer> siteByName = new HashMap<>();

    /**
     * Offsets of the pins and pads from which something leads on; calculated when first asked for.
     */
    private BitSet leadingOn;

    TileModel(String typeName, int[] wireKinds) {
        this.typeName = typeName;
        this.wireKinds = wireKinds;
    }

    /** Whether any edge can begin at the pin or pad with that offset. */
    boolean leadsOn(int offset) {
        if (leadingOn == null) {
            leadingOn = new BitSet();
            throughs.forEach(t -> leadingOn.set(t.fromPin()));
            for (LocalRule rule : rules) {
                if (!rule.from().isWire()) {
                    Arrays.stream(rule.from().fixed()).forEach(leadingOn::set);
                }
            }
        }
        return leadingOn.get(offset);
    }
}
