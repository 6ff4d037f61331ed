package padward.format.tables;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.objects.Object2IntOpenHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
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
 * Sites with their pins and pass-throughs. Sites are read before the fabric is begun, as they may
 * introduce kinds of cell, and added to it afterwards, tile by tile.
 */
final class SiteTables {
    private static final String EXPECTED_SITE = "the full name of a site";

    private record Site(
            String name, int tile, String kind, List<String> accepts, List<SitePin> pins) {}

    private final TableFolder folder;
    private final InfoTables info;
    private final InfoTables.Words words = new InfoTables.Words();
    private final Map<List<String>, List<String>> sharedAccepts = new HashMap<>();
    private final Map<List<SitePin>, List<SitePin>> sharedPins = new HashMap<>();
    private final Object2IntOpenHashMap<String> numberByName = new Object2IntOpenHashMap<>();
    private final List<Site> sites = new ArrayList<>();
    private final IntArrayList rows = new IntArrayList();
    private final BitSet unusable = new BitSet();

    SiteTables(TableFolder folder, InfoTables info) {
        this.folder = folder;
        this.info = info;
        numberByName.defaultReturnValue(Fabric.NOTHING);
    }

    void read() {
        folder.read(Tables.SITES, this::readSites);
        folder.read(Tables.PINS, this::readPins);
    }

    private void readSites(CsvTable table) {
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column kindColumn = table.column("kind");
        CsvTable.Column accepts = table.column("accepts");
        CsvTable.Column unusableColumn = table.column("unusable");
        PlaceColumns place = new PlaceColumns(table, "");
        while (table.next()) {
            String name = table.name(nameColumn);
            String kind = words.share(table.name(kindColumn));
            int tile = place.tile(place.read(name), info.columns(), info.rows());
            List<String> kinds =
                    table.has(accepts) ? Listed.split(table.text(accepts)) : List.of(kind);
            kinds.forEach(k -> info.accept(table, table.has(accepts) ? accepts : kindColumn, k));
            if (numberByName.putIfAbsent(name, sites.size()) != Fabric.NOTHING) {
                table.fault(
                        nameColumn,
                        "a name that only one site has",
                        () -> Text.quote(name) + " again");
                continue;
            }
            unusable.set(sites.size(), table.flag(unusableColumn));
            kinds = sharedAccepts.computeIfAbsent(List.copyOf(kinds), k -> k);
            sites.add(new Site(name, tile, kind, kinds, new ArrayList<>(0)));
            rows.add((int) table.row());
        }
    }

    private void readPins(CsvTable table) {
        CsvTable.Column siteColumn = table.column("site");
        CsvTable.Column nameColumn = table.column("name");
        CsvTable.Column direction = table.column("direction");
        IntArrayList siteOfPin = new IntArrayList();
        IntArrayList rowOfPin = new IntArrayList();
        List<SitePin> pins = new ArrayList<>();
        Map<SitePin, SitePin> shared = new HashMap<>();
        while (table.next()) {
            int site = readSite(table, siteColumn);
            String name = words.share(table.name(nameColumn));
            if (!table.has(direction)) {
                table.fault(direction, "in or out", () -> "an empty field");
            }
            PinDirection route =
                    table.oneOf(direction, PinDirection.values(), EnumWords::of, PinDirection.IN);
            if (site != Fabric.NOTHING) {
                siteOfPin.add(site);
                rowOfPin.add((int) table.row());
                pins.add(shared.computeIfAbsent(new SitePin(name, route), p -> p));
            }
        }
        group(siteOfPin, pins);
        // most sites have the same pins as a site that was checked already
        if (sharedPins.keySet().stream().anyMatch(SiteTables::hasDoubled)) {
            tellDoubled(table, nameColumn, siteOfPin, rowOfPin, pins);
        }
    }

    private static boolean hasDoubled(List<SitePin> pins) {
        return pins.stream().map(SitePin::name).distinct().count() < pins.size();
    }

    /** Reports pins that a site has twice, and removes them. */
    private void tellDoubled(
            CsvTable table,
            CsvTable.Column column,
            IntArrayList siteOfPin,
            IntArrayList rowOfPin,
            List<SitePin> pins) {
        Set<String> seen = new HashSet<>();
        for (int p = 0; p < pins.size(); p++) {
            Site site = sites.get(siteOfPin.getInt(p));
            String pin = pins.get(p).name();
            if (!seen.add(site.name + "." + pin)) {
                table.fault(
                        rowOfPin.getInt(p),
                        column.name(),
                        "each pin of a site once",
                        () -> Text.quote(pin) + " of " + Text.quote(site.name) + " again");
            }
        }
        for (int s = 0; s < sites.size(); s++) {
            Site site = sites.get(s);
            Set<String> own = new HashSet<>();
            List<SitePin> once = site.pins.stream().filter(p -> own.add(p.name())).toList();
            sites.set(s, new Site(site.name, site.tile, site.kind, site.accepts, once));
        }
    }

    /** Gives each site its pins, in the order of their rows. */
    private void group(IntArrayList siteOfPin, List<SitePin> pins) {
        int[] start = new int[sites.size() + 1];
        siteOfPin.forEach(s -> start[s + 1]++);
        for (int s = 0; s < sites.size(); s++) {
            start[s + 1] += start[s];
        }
        int[] next = start.clone();
        SitePin[] sorted = new SitePin[pins.size()];
        for (int p = 0; p < sorted.length; p++) {
            sorted[next[siteOfPin.getInt(p)]++] = pins.get(p);
        }
        for (int s = 0; s < sites.size(); s++) {
            Site site = sites.get(s);
            List<SitePin> own = Arrays.asList(sorted).subList(start[s], start[s + 1]);
            own = sharedPins.computeIfAbsent(List.copyOf(own), k -> k);
            sites.set(s, new Site(site.name, site.tile, site.kind, site.accepts, own));
        }
    }

    private int readSite(CsvTable table, CsvTable.Column column) {
        String name = table.text(column);
        int site = numberByName.getInt(name);
        if (site == Fabric.NOTHING) {
            table.fault(
                    column,
                    EXPECTED_SITE,
                    () -> Nearest.describe(name, sites.stream().map(Site::name)));
        }
        return site;
    }

    int pinCount() {
        return sites.stream().mapToInt(s -> s.pins.size()).sum();
    }

    /** Adds the sites to a fabric. */
    void addTo(ExplicitBuilder fabric, Faults faults) {
        IntStream.range(0, sites.size())
                .boxed()
                .sorted(Comparator.comparingInt(s -> sites.get(s).tile))
                .forEach(s -> add(fabric, faults, s));
    }

    private void add(ExplicitBuilder fabric, Faults faults, int number) {
        Site site = sites.get(number);
        int added = fabric.addSite(site.name, site.tile, site.kind, site.accepts, site.pins);
        if (added == Fabric.NOTHING) {
            faults.add(
                    folder.label(Tables.SITES),
                    CsvTable.place(rows.getInt(number), "name"),
                    "pins whose full names no other wire or pin has",
                    () -> "a pin of " + Text.quote(site.name) + " whose name is there already");
        } else if (unusable.get(number)) {
            fabric.setSiteUnusable(added);
        }
    }

    /** Adds the pass-throughs of sites. */
    void readThrough(ExplicitBuilder fabric) {
        folder.read(Tables.PASS_THROUGH, t -> readThrough(t, fabric));
    }

    private void readThrough(CsvTable table, ExplicitBuilder fabric) {
        CsvTable.Column siteColumn = table.column("site");
        CsvTable.Column from = table.column("from");
        CsvTable.Column to = table.column("to");
        DelayColumns delay = new DelayColumns(table);
        while (table.next()) {
            int number = readSite(table, siteColumn);
            var route = delay.readRequired();
            if (number != Fabric.NOTHING) {
                Site site = sites.get(number);
                int start = readPin(table, from, site, PinDirection.IN, fabric);
                int end = readPin(table, to, site, PinDirection.OUT, fabric);
                boolean known = start != Fabric.NOTHING && end != Fabric.NOTHING;
                if (known) {
                    fabric.addEdge(start, end, EdgeKind.PASS_THROUGH, route);
                }
            }
        }
    }

    private static int readPin(
            CsvTable table,
            CsvTable.Column column,
            Site site,
            PinDirection direction,
            ExplicitBuilder fabric) {
        String name = table.text(column);
        if (site.pins.stream().anyMatch(p -> p.name().equals(name) && p.direction() == direction)) {
            return fabric.findVertex(site.name + "." + name);
        }
        table.fault(
                column,
                "the name of an " + EnumWords.of(direction) + " pin of site " + site.name,
                () -> Nearest.describe(name, site.pins.stream().map(SitePin::name)));
        return Fabric.NOTHING;
    }
}
