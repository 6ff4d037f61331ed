package padward.format.tables;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.explicit.ExplicitBuilder;
import padward.format.form.DelayColumns;
import padward.format.json.EnumWords;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.Faults;
import padward.format.tables.csv.Listed;
import padward.format.tables.csv.PlaceColumns;
import padward.format.tables.csv.TableFolder;

/**
 * Sites with their parts, pins and pass-throughs. Sites are read before the fabric is begun, as
 * they may introduce kinds of cell, and added to it afterwards, tile by tile.
 */
final class SiteTables {
    private static final String EXPECTED_SITE = "the full name of a site";

    /** A pin, whichever part of its site it belongs to. Texts of both could be ambiguous. */
    private record PinOfSite(String site, String pin) {}

    /** A part that is stated, and the row that states it. */
    private record Part(String name, List<String> accepts, int row) {}

    /** What takes a cell: a part of a site, or a site without parts. */
    private record Slot(
            String site,
            String part,
            List<Integer> tiles,
            String kind,
            List<String> accepts,
            List<SitePin> pins,
            int row) {
        Slot with(List<SitePin> others) {
            return new Slot(site, part, tiles, kind, accepts, others, row);
        }

        String described() {
            return (part.isEmpty() ? "" : "part " + part + " of ") + "site " + site;
        }

        boolean has(String pin, PinDirection direction) {
            return pins.stream().anyMatch(p -> p.name().equals(pin) && p.direction() == direction);
        }
    }

    private final TableFolder folder;
    private final InfoTables info;
    private final InfoTables.Words words = new InfoTables.Words();
    private final Map<List<String>, List<String>> sharedAccepts = new HashMap<>();
    private final Map<List<SitePin>, List<SitePin>> sharedPins = new HashMap<>();
    private final Map<String, List<Part>> partsOfSite = new LinkedHashMap<>();
    private final Object2IntOpenHashMap<String> numberByName = new Object2IntOpenHashMap<>();

    /** For each site its first slot, and at the end the number of slots. */
    private final IntArrayList firstSlots = new IntArrayList(new int[] {0});

    private final List<Slot> slots = new ArrayList<>();

    /** Names of sites that are not to be used. */
    private final Set<String> unusable = new HashSet<>();

    SiteTables(TableFolder folder, InfoTables info) {
        this.folder = folder;
        this.info = info;
        numberByName.defaultReturnValue(Fabric.NOTHING);
    }

    void read(Faults faults) {
        folder.read(Tables.PARTS, this::readParts);
        folder.read(Tables.SITES, this::readSites);
        partsOfSite.forEach((site, parts) -> reportWithoutSite(faults, site, parts.get(0)));
        folder.read(Tables.PINS, this::readPins);
    }

    private void readParts(CsvTable table) {
        CsvTable.Column siteColumn = table.column("site");
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column acceptsColumn = table.column("accepts");
        while (table.next()) {
            String site = table.name(siteColumn);
            String name = words.share(table.name(nameColumn));
            List<String> accepts = readAccepts(table, acceptsColumn, nameColumn, name);
            List<Part> parts = partsOfSite.computeIfAbsent(site, s -> new ArrayList<>(2));
            if (parts.stream().anyMatch(p -> p.name().equals(name))) {
                table.fault(
                        nameColumn,
                        "each part of a site once",
                        () -> Text.quote(name) + " of " + Text.quote(site) + " again");
            } else {
                parts.add(new Part(name, accepts, (int) table.row()));
            }
        }
    }

    private void reportWithoutSite(Faults faults, String site, Part part) {
        faults.add(
                folder.label(Tables.PARTS),
                CsvTable.place(part.row(), "site"),
                EXPECTED_SITE,
                () -> Nearest.describe(site, names()));
    }

    private List<String> readAccepts(
            CsvTable table, CsvTable.Column column, CsvTable.Column own, String otherwise) {
        List<String> kinds =
                table.has(column) ? Listed.split(table.text(column)) : List.of(otherwise);
        kinds.forEach(k -> info.accept(table, table.has(column) ? column : own, k));
        return sharedAccepts.computeIfAbsent(List.copyOf(kinds), k -> k);
    }

    private void readSites(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column kindColumn = table.column("kind");
        CsvTable.Column acceptsColumn = table.column("accepts");
        CsvTable.Column moreColumn = table.column("more_tiles");
        CsvTable.Column unusableColumn = table.column("unusable");
        PlaceColumns place = new PlaceColumns(table, "");
        while (table.next()) {
            String name = table.name(nameColumn);
            String kind = words.share(table.name(kindColumn));
            List<Integer> tiles = readTiles(table, place, name, moreColumn);
            if (numberByName.putIfAbsent(name, firstSlots.size() - 1) != Fabric.NOTHING) {
                table.fault(
                        nameColumn,
                        "a name that only one site has",
                        () -> Text.quote(name) + " again");
                continue;
            }
            List<Part> parts = partsOfSite.remove(name);
            int row = (int) table.row();
            if (parts == null) {
                List<String> kinds = readAccepts(table, acceptsColumn, kindColumn, kind);
                slots.add(new Slot(name, "", tiles, kind, kinds, List.of(), row));
            } else {
                if (table.has(acceptsColumn)) {
                    table.fault(
                            acceptsColumn,
                            "nothing, as the parts of the site accept cells",
                            () -> Text.quote(table.text(acceptsColumn)));
                }
                for (Part part : parts) {
                    slots.add(
                            new Slot(
                                    name,
                                    part.name(),
                                    tiles,
                                    kind,
                                    part.accepts(),
                                    List.of(),
                                    row));
                }
            }
            firstSlots.add(slots.size());
            if (table.flag(unusableColumn)) {
                unusable.add(name);
            }
        }
    }

    private List<Integer> readTiles(
            CsvTable table, PlaceColumns place, String name, CsvTable.Column more) {
        int first = place.tile(place.read(name), info.columns(), info.rows());
        if (!table.has(more)) {
            return List.of(first);
        }
        List<Integer> tiles = new ArrayList<>(List.of(first));
        for (long other : PlaceColumns.listed(table, more)) {
            int tile = place.tile(other, info.columns(), info.rows());
            if (tiles.contains(tile)) {
                String again = "x" + tile % info.columns() + "y" + tile / info.columns();
                table.fault(more, "each tile of the site once", () -> again + " again");
            } else {
                tiles.add(tile);
            }
        }
        return tiles;
    }

    private void readPins(CsvTable table) {
        CsvTable.Column siteColumn = table.column("site");
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column direction = table.column("direction");
        CsvTable.Column partColumn = table.column("part");
        CsvTable.Column alikeColumn = table.column("alike");
        IntArrayList slotOfPin = new IntArrayList();
        IntArrayList rowOfPin = new IntArrayList();
        List<SitePin> pins = new ArrayList<>();
        Map<SitePin, SitePin> shared = new HashMap<>();
        while (table.next()) {
            int slot = readSlot(table, siteColumn, partColumn);
            String name = words.share(table.name(nameColumn));
            if (!table.has(direction)) {
                table.fault(direction, "in or out", () -> "an empty field");
            }
            PinDirection route =
                    table.oneOf(direction, PinDirection.values(), EnumWords::of, PinDirection.IN);
            String alike = words.share(table.word(alikeColumn));
            if (!alike.isEmpty() && route == PinDirection.OUT) {
                table.fault(alikeColumn, "nothing, as this is no in pin", () -> Text.quote(alike));
            }
            if (slot != Fabric.NOTHING) {
                slotOfPin.add(slot);
                rowOfPin.add((int) table.row());
                pins.add(shared.computeIfAbsent(new SitePin(name, route, alike), p -> p));
            }
        }
        group(slotOfPin, pins);
        // most sites have the same pins as a site that was checked already
        if (sharedPins.keySet().stream().anyMatch(SiteTables::hasDoubled) || partsShareAName()) {
            tellDoubled(table, nameColumn, slotOfPin, rowOfPin, pins);
        }
    }

    /** The slot that a row of pins names. */
    private int readSlot(CsvTable table, CsvTable.Column siteColumn, CsvTable.Column partColumn) {
        int site = readSite(table, siteColumn);
        if (site == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        List<Slot> own = slotsOf(site);
        String part = table.word(partColumn);
        for (int s = 0; s < own.size(); s++) {
            if (own.get(s).part().equals(part)) {
                return firstSlots.getInt(site) + s;
            }
        }
        List<String> known = own.stream().map(Slot::part).filter(p -> !p.isEmpty()).toList();
        table.fault(
                partColumn,
                known.isEmpty()
                        ? "nothing, as the site has no parts"
                        : "a part of the site: " + String.join(", ", known),
                () -> part.isEmpty() ? "an empty field" : Nearest.describe(part, known.stream()));
        return Fabric.NOTHING;
    }

    private static boolean hasDoubled(List<SitePin> pins) {
        return pins.stream().map(SitePin::name).distinct().count() < pins.size();
    }

    /** Whether a site has pins of one name in several of its parts: they would be the same pin. */
    private boolean partsShareAName() {
        Set<List<List<SitePin>>> checked = new HashSet<>();
        for (int site = 0; site < firstSlots.size() - 1; site++) {
            List<Slot> parts = slotsOf(site);
            if (parts.size() > 1 && checked.add(parts.stream().map(Slot::pins).toList())) {
                if (hasDoubled(parts.stream().flatMap(p -> p.pins().stream()).toList())) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Reports pins that a site has twice, and removes them. */
    private void tellDoubled(
            CsvTable table,
            CsvTable.Column column,
            IntArrayList slotOfPin,
            IntArrayList rowOfPin,
            List<SitePin> pins) {
        Set<PinOfSite> seen = new HashSet<>();
        for (int p = 0; p < pins.size(); p++) {
            Slot slot = slots.get(slotOfPin.getInt(p));
            String pin = pins.get(p).name();
            if (!seen.add(new PinOfSite(slot.site(), pin))) {
                table.fault(
                        rowOfPin.getInt(p),
                        column.name(),
                        "each pin of a site once"
                                + (slot.part().isEmpty() ? "" : ", whatever its part"),
                        () -> Text.quote(pin) + " of " + Text.quote(slot.site()) + " again");
            }
        }
        Set<PinOfSite> kept = new HashSet<>();
        for (int s = 0; s < slots.size(); s++) {
            Slot slot = slots.get(s);
            slots.set(
                    s,
                    slot.with(
                            slot.pins().stream()
                                    .filter(p -> kept.add(new PinOfSite(slot.site(), p.name())))
                                    .toList()));
        }
    }

    /** Gives each slot its pins, in the order of their rows. */
    private void group(IntArrayList slotOfPin, List<SitePin> pins) {
        int[] start = new int[slots.size() + 1];
        slotOfPin.forEach(s -> start[s + 1]++);
        for (int s = 0; s < slots.size(); s++) {
            start[s + 1] += start[s];
        }
        int[] next = start.clone();
        SitePin[] sorted = new SitePin[pins.size()];
        for (int p = 0; p < sorted.length; p++) {
            sorted[next[slotOfPin.getInt(p)]++] = pins.get(p);
        }
        for (int s = 0; s < slots.size(); s++) {
            List<SitePin> own = Arrays.asList(sorted).subList(start[s], start[s + 1]);
            own = sharedPins.computeIfAbsent(List.copyOf(own), k -> k);
            slots.set(s, slots.get(s).with(own));
        }
    }

    private int readSite(CsvTable table, CsvTable.Column column) {
        String name = table.text(column);
        int site = numberByName.getInt(name);
        if (site == Fabric.NOTHING) {
            table.fault(column, EXPECTED_SITE, () -> Nearest.describe(name, names()));
        }
        return site;
    }

    private Stream<String> names() {
        return numberByName.keySet().stream();
    }

    private List<Slot> slotsOf(int site) {
        return slots.subList(firstSlots.getInt(site), firstSlots.getInt(site + 1));
    }

    int pinCount() {
        return slots.stream().mapToInt(s -> s.pins().size()).sum();
    }

    /** Adds the sites to a fabric. */
    void addTo(ExplicitBuilder fabric, Faults faults) {
        slots.stream()
                .sorted(Comparator.comparingInt(s -> s.tiles().get(0)))
                .forEach(s -> add(fabric, faults, s));
    }

    private void add(ExplicitBuilder fabric, Faults faults, Slot slot) {
        int added =
                slot.part().isEmpty()
                        ? fabric.addSite(
                                slot.site(), slot.tiles(), slot.kind(), slot.accepts(), slot.pins())
                        : fabric.addPart(
                                slot.site(),
                                slot.part(),
                                slot.tiles(),
                                slot.kind(),
                                slot.accepts(),
                                slot.pins());
        if (added == Fabric.NOTHING) {
            faults.add(
                    folder.label(Tables.SITES),
                    CsvTable.place(slot.row(), "name"),
                    "pins whose full names no other wire or pin has",
                    () -> "a pin of " + Text.quote(slot.site()) + " whose name is there already");
        } else if (unusable.contains(slot.site())) {
            fabric.setSiteUnusable(added);
        }
    }

    /** Adds the pass-throughs of sites. */
    void readThrough(ExplicitBuilder fabric) {
        folder.read(Tables.PASS_THROUGH, t -> readThrough(t, fabric));
    }

    private void readThrough(CsvTable table, ExplicitBuilder fabric) {
        CsvTable.Column siteColumn = table.column("site");
        CsvTable.Column fromColumn = table.column("from");
        CsvTable.Column toColumn = table.column("to");
        DelayColumns delay = new DelayColumns(table);
        while (table.next()) {
            int site = readSite(table, siteColumn);
            var route = delay.readRequired();
            if (site == Fabric.NOTHING) {
                continue;
            }
            String from = table.text(fromColumn);
            Optional<Slot> slot =
                    slotsOf(site).stream().filter(s -> s.has(from, PinDirection.IN)).findFirst();
            if (slot.isEmpty()) {
                String whole = "site " + slotsOf(site).get(0).site();
                reportNoPin(table, fromColumn, PinDirection.IN, whole, slotsOf(site));
                continue;
            }
            String to = table.text(toColumn);
            if (slot.get().has(to, PinDirection.OUT)) {
                String prefix = slot.get().site() + ".";
                int start = fabric.findVertex(prefix + from);
                int end = fabric.findVertex(prefix + to);
                // A site that could not be added is reported there; its pins are not in the fabric.
                if (start != Fabric.NOTHING && end != Fabric.NOTHING) {
                    fabric.addEdge(start, end, EdgeKind.PASS_THROUGH, route);
                }
            } else {
                List<Slot> own = List.of(slot.get());
                reportNoPin(table, toColumn, PinDirection.OUT, slot.get().described(), own);
            }
        }
    }

    private static void reportNoPin(
            CsvTable table,
            CsvTable.Column column,
            PinDirection direction,
            String owner,
            List<Slot> slots) {
        String name = table.text(column);
        table.fault(
                column,
                "the name of an " + EnumWords.of(direction) + " pin of " + owner,
                () ->
                        Nearest.describe(
                                name,
                                slots.stream().flatMap(s -> s.pins().stream()).map(SitePin::name)));
    }
}
