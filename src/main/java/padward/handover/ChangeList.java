package padward.handover;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.breakout.ask.Cautions;
import padward.breakout.verify.DesignDiff;
import padward.breakout.verify.DesignPartDiff;
import padward.breakout.verify.Difference;
import padward.breakout.verify.NetDiff;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
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
 * @param back whether the list takes the ledger's changes back, the last entry first
 * @param entries its entries with their changes
 */
public record ChangeList(Ledger ledger, String fabric, boolean back, List<Entry> entries) {
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
                    "before",
                    "kind",
                    "direction");

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
        return new ChangeList(ledger, base.fabric().info().name(), false, all(base, ledger, false));
    }

    /**
     * The changes that take a ledger's changes back: carried out after those, they restore the
     * design without the ledger, for a tool that still has the changed one open. O(entries × size
     * of the design).
     *
     * @param base the design without the ledger
     * @throws IllegalArgumentException when an entry does not fit
     */
    public static ChangeList back(Design base, Ledger ledger) {
        List<Entry> entries = new ArrayList<>(all(base, ledger, true));
        Collections.reverse(entries);
        return new ChangeList(ledger, base.fabric().info().name(), true, entries);
    }

    private static List<Entry> all(Design base, Ledger ledger, boolean back) {
        EntryReplay replay = new EntryReplay(base);
        List<Entry> entries = new ArrayList<>();
        for (LedgerEntry entry : ledger.entries()) {
            Design before = replay.design();
            List<String> reasons = replay.add(entry.edits());
            if (!reasons.isEmpty()) {
                throw new IllegalArgumentException(String.join("; ", reasons));
            }
            Design after = replay.design();
            Between between = back ? new Between(after, before) : new Between(before, after);
            List<Cautions.Shared> cautions =
                    back
                            ? Cautions.ofGoingBack(before, entry.edits())
                            : Cautions.ofLoading(before, entry.edits());
            entries.add(new Entry(entries.size() + 1, entry, between.changes(), cautions));
        }
        return entries;
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
                    .forEach(e -> endNew(net.name(), e));
            if (net.how() == Difference.GONE) {
                add(Change.What.NET_GONE, net.name());
            }
            if (net.how() == Difference.NEW) {
                Net added = after.findNet(net.name()).orElseThrow();
                add(
                        Change.What.NET_NEW,
                        net.name(),
                        "end",
                        after.textOf(added.driver()),
                        "value",
                        added.clock() ? "clock" : "");
            }
        }

        private static List<String> ends(Design design, String net) {
            return design.findNet(net).stream()
                    .flatMap(n -> n.sinks().stream().map(design::textOf))
                    .toList();
        }

        /** A new end; where it took the place of an alike one of its cell, with that. */
        private void endNew(String net, String end) {
            Optional<SwappedEnd> swapped = SwappedEnd.find(before, after, net, end);
            add(
                    Change.What.END_NEW,
                    net,
                    "end",
                    end,
                    "setting",
                    swapped.map(SwappedEnd::setting).orElse(""),
                    "before",
                    swapped.map(SwappedEnd::before).orElse(""));
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

        private void cell(DesignPartDiff cell) {
            if (cell.how() == Difference.GONE) {
                add(Change.What.CELL_GONE, cell.name(), "site", fact(cell, "site").before());
                return;
            }
            boolean added = cell.how() == Difference.NEW;
            if (added) {
                add(
                        Change.What.CELL_NEW,
                        cell.name(),
                        "site",
                        fact(cell, "site").after(),
                        "kind",
                        fact(cell, "kind").after());
            }
            for (NetDiff.Fact fact : cell.facts()) {
                if (fact.what().equals("site") && !added) {
                    add(
                            Change.What.CELL_MOVED,
                            cell.name(),
                            "site",
                            fact.after(),
                            "before",
                            fact.before());
                } else if (fact.what().startsWith("setting ")) {
                    String setting = fact.what().substring("setting ".length());
                    add(
                            Change.What.CELL_SET,
                            cell.name(),
                            "site",
                            passedSite(cell.name(), setting, fact),
                            "setting",
                            setting,
                            "value",
                            fact.after(),
                            "before",
                            fact.before());
                }
            }
        }

        /** The site that signals may pass from now on, or no longer; otherwise empty. */
        private String passedSite(String cell, String setting, NetDiff.Fact fact) {
            boolean passage =
                    Cell.letsThrough(setting, fact.after())
                            || Cell.letsThrough(setting, fact.before());
            return passage
                    ? after.findCell(cell).map(c -> fabric.site(c.site()).name()).orElse("")
                    : "";
        }

        private static NetDiff.Fact fact(DesignPartDiff part, String what) {
            return part.facts().stream()
                    .filter(f -> f.what().equals(what))
                    .findFirst()
                    .orElseThrow();
        }

        /** A port on another pad, or in another direction, is a removed and an added one. */
        private void port(DesignPartDiff diff) {
            Optional<Port> old = before.findPort(diff.name());
            Optional<Port> now = after.findPort(diff.name());
            boolean same =
                    old.isPresent()
                            && now.isPresent()
                            && old.get().pad() == now.get().pad()
                            && old.get().direction() == now.get().direction();
            if (!same) {
                old.ifPresent(p -> port(Change.What.PORT_GONE, p));
                now.ifPresent(p -> port(Change.What.PORT_NEW, p));
            } else if (!old.get().setting().equals(now.get().setting())) {
                driver(old.get(), now.get());
            }
            boolean wasTied = old.isPresent() && old.get().enableTied();
            boolean isTied = now.isPresent() && now.get().enableTied();
            if (wasTied && !(same && isTied)) {
                enable(Change.What.ENABLE_UNTIED, old.get());
            }
            if (isTied && !(same && wasTied)) {
                enable(Change.What.ENABLE_TIED, now.get());
            }
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
                    port.setting(),
                    "direction",
                    port.direction().label());
        }

        private void driver(Port old, Port now) {
            Pad pad = fabric.pads().get(now.pad());
            add(
                    Change.What.DRIVER_SET,
                    now.name(),
                    "pad",
                    pad.name(),
                    "packagePin",
                    pad.packagePin(),
                    "setting",
                    now.setting(),
                    "before",
                    old.setting());
        }

        /** The level is left out where the fabric does not say which one switches the driver on. */
        private void enable(Change.What what, Port port) {
            Pad pad = fabric.pads().get(port.pad());
            String level =
                    switch (pad.enable().active()) {
                        case HIGH -> "1";
                        case LOW -> "0";
                        case UNKNOWN -> "";
                    };
            add(
                    what,
                    port.name(),
                    "pad",
                    pad.name(),
                    "packagePin",
                    pad.packagePin(),
                    "site",
                    pad.enableSite() == Fabric.NOTHING ? "" : fabric.site(pad.enableSite()).name(),
                    "value",
                    level);
        }
    }
}
