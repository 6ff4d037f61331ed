package padward.fabric.pattern;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.fabric.Fabric;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.pattern.PatternSpec.PadGroup;
import padward.fabric.pattern.PatternSpec.PartGroup;
import padward.fabric.pattern.PatternSpec.PinGroup;
import padward.fabric.pattern.PatternSpec.Rule;
import padward.fabric.pattern.PatternSpec.SiteGroup;
import padward.fabric.pattern.PatternSpec.Through;
import padward.fabric.pattern.PatternSpec.TileType;
import padward.fabric.pattern.PatternSpec.WireKind;

/** Resolves the names of one tile type, and says which are wrong. */
final class TileModelBuilder {
    private final TileType type;
    private final String place;
    private final List<WireKind> wires;
    private final Map<String, Integer> kindByName = new HashMap<>();

    /** Offsets of pins and pads, as in {@link TileModel#fixed}. */
    private final Map<String, Integer> fixedByName = new HashMap<>();

    private final Map<String, IntArrayList> groups = new HashMap<>();
    private final Map<String, int[]> sitesByGroup = new HashMap<>();

    /** Names of sites, without those of their parts. */
    private final Set<String> siteNames = new HashSet<>();

    private final TileSizes sizes;
    private final TileModel model;

    TileModelBuilder(TileType type, String place, List<WireKind> wires, TileSizes sizes)
            throws PatternFault {
        this.type = type;
        this.place = place;
        this.wires = wires;
        this.sizes = sizes;
        sizes.nextType();
        for (int i = 0; i < wires.size(); i++) {
            kindByName.put(wires.get(i).name(), i);
        }
        this.model = new TileModel(type.name(), wireKinds());
    }

    private int[] wireKinds() throws PatternFault {
        IntArrayList kinds = new IntArrayList();
        for (int i = 0; i < type.wires().size(); i++) {
            Integer kind = kindByName.get(type.wires().get(i));
            if (kind == null) {
                throw unknown(
                        ".wires[" + i + "]", "the name of a kind of wire", type.wires().get(i));
            }
            if (kinds.contains((int) kind)) {
                throw fault(
                        ".wires[" + i + "]",
                        "each kind of wire once",
                        type.wires().get(i) + " again");
            }
            kinds.add((int) kind);
        }
        return kinds.toIntArray();
    }

    TileModel build() throws PatternFault {
        IntArrayList siteOfPin = new IntArrayList();
        for (int i = 0; i < type.sites().size(); i++) {
            addSites(type.sites().get(i), ".sites[" + i + "]", siteOfPin);
        }
        model.siteOfPin = siteOfPin.toIntArray();
        model.pinCount = siteOfPin.size();
        for (int i = 0; i < type.pads().size(); i++) {
            addPads(type.pads().get(i), ".pads[" + i + "]");
        }
        checkWireNames();
        model.fixed = new NameTable(fixedByName);
        for (int i = 0; i < type.rules().size(); i++) {
            addRule(type.rules().get(i));
        }
        return model;
    }

    /** No wire has the name of another one, of a site, pin or pad, or of a group of these. */
    private void checkWireNames() throws PatternFault {
        Set<String> names = new HashSet<>();
        for (int i = 0; i < model.wireKinds.length; i++) {
            WireKind wire = wires.get(model.wireKinds[i]);
            String at = ".wires[" + i + "]";
            sizes.addVertices(wire.count(), place + at);
            if (groups.containsKey(wire.name())) {
                throw repeated(at, wire.name());
            }
            for (int k = 0; k < wire.count(); k++) {
                String name = member(wire.name(), k, wire.count());
                boolean taken =
                        fixedByName.containsKey(name)
                                || model.siteByName.containsKey(name)
                                || siteNames.contains(name);
                if (taken || !names.add(name)) {
                    throw repeated(at, name);
                }
            }
        }
    }

    private PatternFault repeated(String at, String name) {
        return fault(at, "names used once in the tile type", "“" + name + "” again");
    }

    private void addSites(SiteGroup group, String at, IntArrayList siteOfPin) throws PatternFault {
        long pinsOfOne =
                group.slots().stream()
                        .flatMap(s -> s.pins().stream())
                        .mapToLong(PinGroup::count)
                        .sum();
        sizes.addVertices(group.count() * pinsOfOne, place + at + ".pins");
        int[][] members = new int[group.slots().size()][group.count()];
        for (int i = 0; i < group.count(); i++) {
            String name = member(group.name(), i, group.count());
            if (!siteNames.add(name)) {
                throw fault(
                        at + ".name", "a name used once in the tile type", "“" + name + "” again");
            }
            for (int p = 0; p < members.length; p++) {
                String where = group.parts().isEmpty() ? at : at + ".parts[" + p + "]";
                members[p][i] = addSlot(group, i, group.slots().get(p), where, siteOfPin);
            }
        }
        for (int p = 0; p < members.length; p++) {
            String part = group.slots().get(p).name();
            sitesByGroup.put(withPart(group.name(), part), members[p]);
        }
    }

    private static String withPart(String site, String part) {
        return part.isEmpty() ? site : site + SiteView.BEFORE_PART + part;
    }

    /** Adds one member of a group of sites, or one part of it; its number. */
    private int addSlot(
            SiteGroup group, int member, PartGroup slot, String at, IntArrayList siteOfPin)
            throws PatternFault {
        String whole = member(group.name(), member, group.count());
        String name = withPart(whole, slot.name());
        int site = model.sites.size();
        if (model.siteByName.put(name, site) != null) {
            throw fault(at + ".name", "each part of a site once", "“" + slot.name() + "” again");
        }
        int firstPin = siteOfPin.size();
        List<SitePin> pins = new ArrayList<>();
        Map<String, IntArrayList> pinsByName = new HashMap<>();
        for (PinGroup pin : slot.pins()) {
            for (int k = 0; k < pin.count(); k++) {
                String pinName = member(pin.name(), k, pin.count());
                int offset = siteOfPin.size();
                siteOfPin.add(site);
                pins.add(new SitePin(pinName, pin.direction(), pin.alike()));
                nameFixed(whole + "." + pinName, offset, at + ".pins");
                addToGroup(whole + "." + pin.name(), offset);
                addToGroup(group.name() + "." + pinName, offset);
                addToGroup(group.name() + "." + pin.name(), offset);
                pinsByName.computeIfAbsent(pinName, x -> new IntArrayList()).add(offset);
                if (!pinName.equals(pin.name())) {
                    pinsByName.computeIfAbsent(pin.name(), x -> new IntArrayList()).add(offset);
                }
            }
        }
        model.sites.add(
                new TileModel.LocalSite(
                        name, slot.name(), group.kind(), slot.accepts(), firstPin, pins));
        addThroughs(slot, at, pinsByName);
        return site;
    }

    private void addThroughs(PartGroup slot, String at, Map<String, IntArrayList> pinsByName)
            throws PatternFault {
        for (int i = 0; i < slot.through().size(); i++) {
            Through route = slot.through().get(i);
            String where = at + ".through[" + i + "]";
            IntArrayList from = pinsByName.get(route.from());
            IntArrayList to = pinsByName.get(route.to());
            if (from == null) {
                throw unknown(where + ".from", "a pin of the site", route.from());
            }
            if (to == null) {
                throw unknown(where + ".to", "a pin of the site", route.to());
            }
            sizes.addConnections((long) from.size() * to.size(), place + where);
            for (int f : from) {
                for (int t : to) {
                    model.throughs.add(new TileModel.LocalThrough(f, t, route.delay()));
                }
            }
        }
    }

    private void addPads(PadGroup group, String at) throws PatternFault {
        sizes.addVertices(group.count(), place + at + ".count");
        int[] data = companions(group.dataSite(), group.count(), at + ".data");
        int[] enable = companions(group.enableSite(), group.count(), at + ".enable");
        for (int i = 0; i < group.count(); i++) {
            String name = member(group.name(), i, group.count());
            int offset = model.pinCount + model.pads.size();
            nameFixed(name, offset, at + ".name");
            addToGroup(group.name(), offset);
            model.pads.add(
                    new TileModel.LocalPad(
                            name,
                            group.directions(),
                            data[i],
                            enable[i],
                            group.setting(),
                            group.enable()));
        }
    }

    /** The sites of a group, one for each pad. */
    private int[] companions(String siteGroup, int count, String at) throws PatternFault {
        if (siteGroup.isEmpty()) {
            int[] none = new int[count];
            Arrays.fill(none, Fabric.NOTHING);
            return none;
        }
        int[] sites = sitesByGroup.get(siteGroup);
        if (sites == null) {
            throw unknown(at, "the name of a group of sites in this tile type", siteGroup);
        }
        if (sites.length != count) {
            throw fault(
                    at,
                    "a group of " + count + " sites, one for each pad",
                    sites.length + " sites");
        }
        return sites;
    }

    private void nameFixed(String name, int offset, String at) throws PatternFault {
        if (fixedByName.put(name, offset) != null) {
            throw repeated(at, name);
        }
        model.fixedNames.add(name);
    }

    private void addToGroup(String name, int offset) {
        IntArrayList group = groups.computeIfAbsent(name, x -> new IntArrayList());
        if (group.isEmpty() || group.getInt(group.size() - 1) != offset) {
            group.add(offset);
        }
    }

    private void addRule(Rule rule) throws PatternFault {
        String at = ", rule from “" + rule.from() + "” to “" + rule.to() + "”";
        TileModel.RuleEnd from = end(rule.from(), at);
        TileModel.RuleEnd to = end(rule.to(), at);
        if (to.isWire()
                && !contains(model.wireKinds, to.wireKind())
                && !wires.get(to.wireKind()).twoWay()) {
            throw fault(
                    at, "a wire that starts in this tile type as target", "“" + rule.to() + "”");
        }
        if (rule.map() instanceof IndexMap.ByTopology) {
            checkTopology(from, to, at);
        }
        if (rule.map() instanceof IndexMap.Pairs pairs) {
            for (IndexPair pair : pairs.pairs()) {
                checkIndex(pair.from(), from, at);
                checkIndex(pair.to(), to, at);
            }
        }
        sizes.addRule(rule.map(), size(from), size(to), place + at);
        model.rules.add(new TileModel.LocalRule(from, to, rule.map(), rule.kind(), rule.delay()));
    }

    private void checkTopology(TileModel.RuleEnd from, TileModel.RuleEnd to, String at)
            throws PatternFault {
        if (!from.isWire() || !to.isWire()) {
            throw fault(
                    at, "wires at both ends of a rule with a switch-box topology", "pins or pads");
        }
        WireKind a = wires.get(from.wireKind());
        WireKind b = wires.get(to.wireKind());
        if (a.count() != b.count()) {
            throw fault(
                    at, "equal counts for a switch-box topology", a.count() + " and " + b.count());
        }
        for (WireKind kind : List.of(a, b)) {
            if (!kind.isAxial()) {
                throw fault(
                        at,
                        "wires along one axis for a switch-box topology",
                        "step " + kind.dx() + "," + kind.dy());
            }
        }
    }

    private void checkIndex(int index, TileModel.RuleEnd end, String at) throws PatternFault {
        int size = size(end);
        if (index < 0 || index >= size) {
            throw fault(
                    at, "an index from 0 to " + (size - 1) + " in pairs", String.valueOf(index));
        }
    }

    private int size(TileModel.RuleEnd end) {
        return end.isWire() ? wires.get(end.wireKind()).count() : end.fixed().length;
    }

    private TileModel.RuleEnd end(String name, String at) throws PatternFault {
        IntArrayList fixed = groups.get(name);
        if (fixed != null) {
            return new TileModel.RuleEnd(Fabric.NOTHING, fixed.toIntArray());
        }
        Integer single = fixedByName.get(name);
        if (single != null) {
            return new TileModel.RuleEnd(Fabric.NOTHING, new int[] {single});
        }
        Integer kind = kindByName.get(name);
        if (kind != null) {
            return new TileModel.RuleEnd(kind, new int[0]);
        }
        throw unknown(at, "a kind of wire, pins as site.pin, or pads of this tile type", name);
    }

    private static boolean contains(int[] values, int value) {
        for (int v : values) {
            if (v == value) {
                return true;
            }
        }
        return false;
    }

    /** The name of a member of a group: plain when the group has only one. */
    static String member(String name, int index, int count) {
        return count == 1 ? name : name + "[" + index + "]";
    }

    private PatternFault unknown(String at, String expected, String found) {
        return fault(at, expected, "“" + found + "”");
    }

    private PatternFault fault(String at, String expected, String found) {
        return new PatternFault(place + at, expected, found);
    }
}
