package padward.handover;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.breakout.ask.Cautions;
import padward.breakout.verify.DesignDiff;
import padward.breakout.verify.Difference;
import padward.breakout.verify.NetDiff;
import padward.breakout.verify.PartDiff;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Port;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.timing.EdgeFinder;

/**
 * The changes of a ledger as elementary changes, in the order in which they can be carried out:
 * entry by entry, and in each entry removals before additions. Derived from the designs before and
 * after each entry, not from the texts of the edits.
 *
 * @param ledger the ledger
 * @param fabric name of the fabric
 * @param entries its entries with their changes
 */
public record ChangeList(Ledger ledger, String fabric, List<Entry> entries) {
    /** Names of the facts, in the order of the table's columns. */
    public static final List<String> COLUMNS =
            List.of(
                    "name",
                    "end",
                    "pad",
                    "packagePin",
                    "site",
                    "from",
                    "to",
                    "edge",
                    "tile",
                    "fromThere",
                    "toThere",
                    "setting",
                    "value",
                    "before");

    /** Copies the entries. */
    public ChangeList {
        entries = List.copyOf(entries);
    }

    /** How many connections state no tile, as the fabric's description leaves it open. */
    public long withoutTile() {
        return entries.stream()
                .flatMap(e -> e.changes().stream())
                .filter(c -> c.what() == Change.What.ON || c.what() == Change.What.OFF)
                .filter(c -> c.get("tile").isEmpty())
                .count();
    }

    /**
     * An entry with its changes.
     *
     * @param number its number in the ledger, from 1
     * @param entry the entry
     * @param changes what it changes
     * @param cautions about the pads that it drives
     */
    public record Entry(
            int number, LedgerEntry entry, List<Change> changes, List<Cautions.Shared> cautions) {
        /** Copies the lists. */
        public Entry {
            cautions = List.copyOf(cautions);
            changes = List.copyOf(changes);
        }
    }

    /**
     * The changes of a ledger. O(entries × size of the design).
     *
     * @param base the design without the ledger
     * @throws IllegalArgumentException when an entry does not fit
     */
    public static ChangeList of(Design base, Ledger ledger) {
        EntryReplay replay = new EntryReplay(base);
        List<Entry> entries = new ArrayList<>();
        for (LedgerEntry entry : ledger.entries()) {
            Design before = replay.design();
            List<String> reasons = replay.add(entry.edits());
            if (!reasons.isEmpty()) {
                throw new IllegalArgumentException(String.join("; ", reasons));
            }
            List<Change> changes = new Between(before, replay.design()).changes();
            entries.add(
                    new Entry(
                            entries.size() + 1,
                            entry,
                            changes,
                            Cautions.ofEdits(before, entry.edits())));
        }
        return new ChangeList(ledger, base.fabric().info().name(), entries);
    }

    /** The changes between two states. */
    private static final class Between {
        private final Design before;
        private final Design after;
        private final Fabric fabric;
        private final EdgeFinder edges;
        private final List<Change> all = new ArrayList<>();

        Between(Design before, Design after) {
            this.before = before;
            this.after = after;
            this.fabric = before.fabric();
            this.edges = new EdgeFinder(fabric);
        }

        List<Change> changes() {
            DesignDiff diff = DesignDiff.between(before, after);
            diff.nets().forEach(this::net);
            diff.cells().forEach(this::cell);
            diff.ports().forEach(this::port);
            all.sort(Comparator.comparing(Change::what));
            return all;
        }

        private void add(Change.What what, String name, String... facts) {
            Map<String, String> result = new LinkedHashMap<>();
            result.put("name", name);
            for (int i = 0; i < facts.length; i += 2) {
                if (!facts[i + 1].isEmpty()) {
                    result.put(facts[i], facts[i + 1]);
                }
            }
            all.add(new Change(what, result));
        }

        private void net(NetDiff net) {
            net.stepsGone().forEach(s -> step(Change.What.OFF, net.name(), s));
            net.stepsNew().forEach(s -> step(Change.What.ON, net.name(), s));
            List<String> endsBefore = ends(before, net.name());
            List<String> endsAfter = ends(after, net.name());
            endsBefore.stream()
                    .filter(e -> !endsAfter.contains(e))
                    .forEach(e -> add(Change.What.END_GONE, net.name(), "end", e));
            endsAfter.stream()
                    .filter(e -> !endsBefore.contains(e))
                    .forEach(e -> add(Change.What.END_NEW, net.name(), "end", e));
            if (net.how() == Difference.GONE) {
                add(Change.What.NET_GONE, net.name());
            }
        }

        private static List<String> ends(Design design, String net) {
            return design.findNet(net).stream()
                    .flatMap(n -> n.sinks().stream().map(design::textOf))
                    .toList();
        }

        private void step(Change.What what, String net, NetDiff.Step step) {
            int tile = fabric.switchTile(step.from(), step.to());
            add(
                    what,
                    net,
                    "from",
                    fabric.vertexName(step.from()),
                    "to",
                    fabric.vertexName(step.to()),
                    "edge",
                    edges.get(step.from(), step.to()).kind().label(),
                    "tile",
                    tile == Fabric.NOTHING ? "" : fabric.tileName(tile),
                    "fromThere",
                    otherNameIn(tile, step.from()),
                    "toThere",
                    otherNameIn(tile, step.to()));
        }

        private String otherNameIn(int tile, int vertex) {
            String there = tile == Fabric.NOTHING ? "" : fabric.nameIn(vertex, tile);
            return there.equals(fabric.vertexName(vertex)) ? "" : there;
        }

        private void cell(PartDiff cell) {
            if (cell.how() == Difference.GONE) {
                add(Change.What.CELL_GONE, cell.name(), "site", fact(cell, "site").before());
                return;
            }
            for (NetDiff.Fact fact : cell.facts()) {
                if (fact.what().equals("site")) {
                    add(
                            Change.What.CELL_MOVED,
                            cell.name(),
                            "site",
                            fact.after(),
                            "before",
                            fact.before());
                } else if (fact.what().startsWith("setting ")) {
                    add(
                            Change.What.CELL_SET,
                            cell.name(),
                            "setting",
                            fact.what().substring("setting ".length()),
                            "value",
                            fact.after(),
                            "before",
                            fact.before());
                }
            }
        }

        private static NetDiff.Fact fact(PartDiff part, String what) {
            return part.facts().stream()
                    .filter(f -> f.what().equals(what))
                    .findFirst()
                    .orElseThrow();
        }

        /** A changed port is a removed and an added one. */
        private void port(PartDiff port) {
            port(before, port.name()).ifPresent(p -> port(Change.What.PORT_GONE, p));
            port(after, port.name()).ifPresent(p -> port(Change.What.PORT_NEW, p));
        }

        private static Optional<Port> port(Design design, String name) {
            return design.ports().stream().filter(p -> p.name().equals(name)).findFirst();
        }

        private void port(Change.What what, Port port) {
            Pad pad = fabric.pads().get(port.pad());
            add(
                    what,
                    port.name(),
                    "pad",
                    pad.name(),
                    "packagePin",
                    pad.packagePin(),
                    "setting",
                    port.setting());
        }
    }
}
