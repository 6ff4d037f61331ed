package padward.ui.filework;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import padward.base.BadInput;
import padward.base.Counts;
import padward.base.Listing;
import padward.base.Progress;
import padward.design.Design;
import padward.filework.NetlistFiles;
import padward.filework.NewFolder;
import padward.filework.SheetDeskew;
import padward.filework.SheetLines;
import padward.format.bsdl.BsdlReader;
import padward.format.bsdl.PackagePins;
import padward.format.design.ImportedFiles;
import padward.format.tables.TableImport;
import padward.place.PlaceRouteOptions;
import padward.place.PlaceRouteResult;
import padward.timing.Instrument;
import padward.ui.model.WindowModel;
import padward.ui.work.FaultText;
import padward.ui.work.JobSlot;

/**
 * Runs work on files in the background, with progress, and tells its result in the status line. The
 * open design is never changed by it.
 */
public final class FileWorkModel {
    static final String CAPTURE = "Capture";
    static final String SHEET = "Bench sheet";
    static final String CHANNELS = "Channels";
    static final String CLOCKS = "Clocks, MHz";
    static final String TABLES = "Folder of tables";
    static final String BSDL = "BSDL file";
    static final String NETLIST = "Netlist";
    static final String TOP = "Top module";
    static final String MAPPING = "Mapping";
    static final String FABRIC = "Fabric";
    static final String BOARD = "Board";
    static final String WRITE_TO = "Write to";

    private static final String DESKEWING = "Deskewing";
    private static final String PLACING = "Placing and routing";
    private static final int LOCAL_PERCENT = 5;
    private static final int MOST_LISTED = 5;
    private static final long SEED = 1;

    /** Each tool has a slot and notes of its own, so that none stops another. */
    private final Object aboutDeskew = new Object();

    private final Object aboutImport = new Object();
    private final Object aboutPlacing = new Object();

    private final WindowModel model;
    private final JobSlot deskewing;
    private final JobSlot importing;
    private final JobSlot placing;

    /** Tells the window what it did. */
    public FileWorkModel(WindowModel model) {
        this.model = model;
        this.deskewing = new JobSlot(model.jobs(), aboutDeskew);
        this.importing = new JobSlot(model.jobs(), aboutImport);
        this.placing = new JobSlot(model.jobs(), aboutPlacing);
    }

    /**
     * What to deskew, as the fields have it.
     *
     * @param channels lines of the sheet for channels with other names, as {@code D0 = J1.2}
     * @param clocks frequencies of clocks by whose cycles lines of watch circuits are late, as
     *     {@code clk12 = 12.5}
     * @param sampleMhz sample rate of the instrument, MS/s; 0 to ignore sampling
     */
    record DeskewFields(
            String capture,
            String sheet,
            String channels,
            String clocks,
            double sampleMhz,
            String output) {}

    /** What is deskewed, and where to. */
    private record ToDeskew(Path capture, SheetDeskew deskew, Path output, boolean replaces) {}

    void deskew(DeskewFields fields) {
        OpenFiles open = OpenFiles.of(model.design());
        deskewing.start(
                DESKEWING,
                progress -> toDeskew(fields, open),
                to -> model.afterReplacing(to.output(), to.replaces(), () -> deskew(to)));
    }

    private void deskew(ToDeskew to) {
        deskewing.start(
                DESKEWING, progress -> deskewed(to, progress), result -> deskewed(result, to));
    }

    private void deskewed(SheetDeskew.Result result, ToDeskew to) {
        Path output = to.output();
        if (result.found().isEmpty()) {
            model.notes()
                    .add(
                            aboutDeskew,
                            "No channel of the capture has a line on the bench sheet, so no time"
                                    + " stamp in "
                                    + output
                                    + " is changed. State the line of each channel under “"
                                    + CHANNELS
                                    + "”, such as D0 = J1.2.");
        } else {
            done("Saved the deskewed capture in " + output, onSheet(result));
            late(result, to.deskew()).ifPresent(missing -> model.notes().add(aboutDeskew, missing));
        }
    }

    /** What is to be stated about the clocks of watch circuits; empty when nothing is missing. */
    private static Optional<String> late(SheetDeskew.Result result, SheetDeskew deskew) {
        Map<String, SheetLines.Line> missing = new TreeMap<>(result.found());
        missing.values()
                .removeIf(
                        line ->
                                line.lateCycles() == 0
                                        || SheetDeskew.periodPs(line, deskew.clocksMhz()) > 0);
        return missing.entrySet().stream()
                .map(
                        late ->
                                late.getKey()
                                        + " is "
                                        + late.getValue().lateCycles()
                                        + (late.getValue().lateCycles() == 1
                                                ? " cycle of "
                                                : " cycles of ")
                                        + late.getValue().lateClock()
                                        + " late, which is not taken off its time stamps.")
                .reduce((one, other) -> one + " " + other)
                .map(
                        text ->
                                text
                                        + " State the clock's frequency under “"
                                        + CLOCKS
                                        + "”, such as "
                                        + missing.values().iterator().next().lateClock()
                                        + " = 12.5, and deskew again.");
    }

    private static String onSheet(SheetDeskew.Result result) {
        return result.counts() + " shifted by the delay of a line on the sheet";
    }

    private static ToDeskew toDeskew(DeskewFields fields, OpenFiles open) throws BadInput {
        Path capture = FileWorkFields.path(CAPTURE, fields.capture());
        Path sheet = FileWorkFields.path(SHEET, fields.sheet());
        Map<String, String> named = FileWorkFields.pairs(CHANNELS, fields.channels());
        Map<String, Double> clocks = FileWorkFields.frequencies(CLOCKS, fields.clocks());
        Path output =
                FileWorkFields.output(WRITE_TO, fields.output(), List.of(capture, sheet), open);
        int samplePs = Instrument.samplePs(fields.sampleMhz());
        return new ToDeskew(
                capture,
                new SheetDeskew(sheet, named, samplePs, clocks, false, LOCAL_PERCENT, 0),
                output,
                Files.isRegularFile(output));
    }

    private static SheetDeskew.Result deskewed(ToDeskew to, Progress progress) throws BadInput {
        try {
            return to.deskew().write(to.capture(), to.output(), progress);
        } catch (BadInput fault) {
            throw inWindow(fault);
        }
    }

    /** Options of the command are fields here. */
    private static BadInput inWindow(BadInput fault) {
        return switch (fault.source()) {
            case "--channel" ->
                    new BadInput(CHANNELS, fault.place(), fault.expected(), fault.found());
            case "--clock-mhz" ->
                    new BadInput(CLOCKS, fault.place(), fault.expected(), fault.found());
            case "-o" -> new BadInput(WRITE_TO, fault.place(), fault.expected(), fault.found());
            default -> fault.orBy("the line of each channel under “" + CHANNELS + "”");
        };
    }

    /**
     * What to import, as the fields have it.
     *
     * @param bsdl a BSDL file for the package pins; empty for none
     * @param folder where to write
     * @param opens whether the design is opened afterwards
     */
    record ImportFields(String tables, String bsdl, String folder, boolean opens) {}

    /** What was read, and where it was written. */
    private record Imported(TableImport.Result read, Path folder) {}

    void importTables(ImportFields fields) {
        importing.start(
                "Importing", progress -> imported(fields, progress), i -> imported(i, fields));
    }

    private static Imported imported(ImportFields fields, Progress progress) throws BadInput {
        Path tables = FileWorkFields.path(TABLES, fields.tables());
        Optional<Path> bsdl = FileWorkFields.optional(BSDL, fields.bsdl());
        Path folder = FileWorkFields.path(WRITE_TO, fields.folder());
        NewFolder.check(folder, "a new or empty folder");
        Optional<PackagePins> pins =
                bsdl.isPresent()
                        ? Optional.of(BsdlReader.read(bsdl.get(), "", progress))
                        : Optional.empty();
        TableImport.Result read = TableImport.read(tables, pins, 1, progress);
        if (read instanceof TableImport.Sound sound) {
            progress.check();
            progress.report(-1, "writing " + folder.getFileName());
            ImportedFiles.write(sound.fabric(), sound.board(), sound.design(), folder);
        }
        return new Imported(read, folder);
    }

    private void imported(Imported imported, ImportFields fields) {
        if (imported.read() instanceof TableImport.Faulty faulty) {
            model.notes().add(aboutImport, faults(faulty));
            return;
        }
        TableImport.Sound sound = (TableImport.Sound) imported.read();
        String what =
                sound.design()
                        .map(d -> "design " + d.name() + " with " + nets(d))
                        .orElse(
                                "fabric "
                                        + sound.fabric().info().name()
                                        + "; no table of a design");
        done("Imported the tables into " + imported.folder(), what);
        if (fields.opens() && sound.design().isPresent()) {
            model.open(imported.folder().resolve("design.json.gz"));
        }
    }

    private static String faults(TableImport.Faulty faulty) {
        long more = faulty.total() - 1;
        String others =
                switch ((int) Math.min(more, 2)) {
                    case 0 -> "";
                    case 1 -> " There is 1 more fault.";
                    default -> " There are " + Counts.text(more) + " more faults.";
                };
        return "Nothing was imported. "
                + FaultText.what(faulty.shown().get(0))
                + others
                + " Correct the tables and import them again.";
    }

    private static String nets(Design design) {
        int nets = design.nets().size();
        return Counts.text(nets) + (nets == 1 ? " net" : " nets");
    }

    /**
     * What to place and route, as the fields have it.
     *
     * @param top the top module; empty where the file has only one candidate
     * @param board the board's file; empty for none
     * @param opens whether the design is opened afterwards
     */
    record NetlistFields(
            String netlist,
            String top,
            String mapping,
            String fabric,
            String board,
            String output,
            boolean opens) {}

    /** What is placed and routed, and where to. */
    private record ToPlace(NetlistFiles files, Path output, boolean replaces) {}

    void placeAndRoute(NetlistFields fields) {
        OpenFiles open = OpenFiles.of(model.design());
        placing.start(
                PLACING,
                progress -> toPlace(fields, open),
                to ->
                        model.afterReplacing(
                                to.output(), to.replaces(), () -> place(to, fields.opens())));
    }

    private void place(ToPlace to, boolean opens) {
        placing.start(
                PLACING,
                progress -> placed(to, progress),
                placed -> placed(placed, to.output(), opens));
    }

    private static NetlistFiles.Placed placed(ToPlace to, Progress progress) throws BadInput {
        try {
            return to.files()
                    .placeAndRoute(to.output(), (f, c) -> PlaceRouteOptions.usual(SEED), progress);
        } catch (BadInput fault) {
            throw fault.orBy("its name under “" + TOP + "”");
        }
    }

    private static ToPlace toPlace(NetlistFields fields, OpenFiles open) throws BadInput {
        NetlistFiles files =
                new NetlistFiles(
                        FileWorkFields.path(NETLIST, fields.netlist()),
                        fields.top().strip(),
                        FileWorkFields.path(MAPPING, fields.mapping()),
                        FileWorkFields.path(FABRIC, fields.fabric()),
                        FileWorkFields.optional(BOARD, fields.board()));
        Path output = FileWorkFields.output(WRITE_TO, fields.output(), files.all(), open);
        return new ToPlace(files, output, Files.isRegularFile(output));
    }

    private void placed(NetlistFiles.Placed result, Path output, boolean opens) {
        if (result.result() instanceof PlaceRouteResult.NoRoom none) {
            model.notes()
                    .add(
                            aboutPlacing,
                            "The netlist does not fit on the fabric, so nothing was written: "
                                    + Listing.first(none.reasons(), MOST_LISTED)
                                    + ". Choose a larger fabric or a smaller netlist.");
            return;
        }
        PlaceRouteResult.OnFabric placed = (PlaceRouteResult.OnFabric) result.result();
        done("Saved the routed design in " + output, report(placed));
        tell(result.notes(), placed.report().notes());
        unrouted(placed.report().unrouted());
        if (opens) {
            model.open(output);
        }
    }

    private static String report(PlaceRouteResult.OnFabric placed) {
        int cells = placed.design().cells().size();
        List<String> parts =
                new ArrayList<>(
                        List.of(
                                Counts.text(cells) + (cells == 1 ? " cell" : " cells"),
                                nets(placed.design())));
        if (placed.report().worstPs() > 0) {
            parts.add(
                    String.format(
                            Locale.ROOT,
                            "worst delay %.3f ns at the slow corner, without pad drivers",
                            placed.report().worstPs() / 1000.0));
        }
        return String.join(", ", parts);
    }

    /** What reading the netlist and placing it have remarked, in one note. */
    private void tell(List<String> ofReading, List<String> ofPlacing) {
        List<String> all = new ArrayList<>(ofReading);
        all.addAll(ofPlacing);
        if (!all.isEmpty()) {
            String more =
                    all.size() > MOST_LISTED ? "; and " + (all.size() - MOST_LISTED) + " more" : "";
            model.notes()
                    .add(
                            aboutPlacing,
                            "About the netlist: "
                                    + String.join("; ", all.stream().limit(MOST_LISTED).toList())
                                    + more
                                    + ".");
        }
    }

    private void unrouted(List<PlaceRouteResult.Unrouted> nets) {
        if (nets.isEmpty()) {
            return;
        }
        List<String> names = nets.stream().map(PlaceRouteResult.Unrouted::net).toList();
        model.notes()
                .add(
                        aboutPlacing,
                        (names.size() == 1 ? "A net has" : Counts.text(names.size()) + " nets have")
                                + " no route and "
                                + (names.size() == 1 ? "is" : "are")
                                + " not in the design: "
                                + Listing.first(names, MOST_LISTED)
                                + ".");
    }

    private void done(String what, String more) {
        model.notes().done(what + ": " + more + ".");
    }
}
