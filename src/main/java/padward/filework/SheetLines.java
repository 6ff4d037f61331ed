package padward.filework;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;
import padward.base.BadInput;
import padward.base.Decimals;
import padward.base.Formulas;
import padward.base.Listing;
import padward.base.Progress;
import padward.capture.CaptureChannelDelay;
import padward.change.LedgerLead;
import padward.fabric.delay.Delay;
import padward.fabric.pad.EdgeDelays;
import padward.format.source.FileLimits;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.TextSource;
import padward.format.tables.csv.Separator;
import padward.handover.Calibration;
import padward.timing.TimeStampCorrections;

/** The lines of a bench sheet as CSV, by all names that a channel of a capture can have. */
public final class SheetLines {
    private static final List<String> NAMES =
            List.of("channel", "place", "net", "port", "pad", "packagePin", "lead");

    private static final List<String> CALLED =
            List.of("place", "port", "pad", "packagePin", "net", "lead", "channel");

    private static final String BOARD_NET = "boardNet";
    private static final int MOST_LISTED = 12;

    private static final String FAST = "instrumentFast_ps";
    private static final String SLOW = "instrumentSlow_ps";
    private static final String MEASURED = "measured_ps";
    private static final String MEASURED_TOLERANCE = "measuredTolerance_ps";

    private final Path file;
    private final List<Line> lines = new ArrayList<>();
    private final Map<String, Set<Integer>> linesByName = new HashMap<>();
    private final Map<String, Set<Integer>> linesByBoardNet = new HashMap<>();

    /** For each line the first of its names, in the order of {@link #CALLED}. */
    private final Set<String> called = new LinkedHashSet<>();

    /**
     * One line.
     *
     * @param pad its pad; empty when the table has no such column
     * @param range its delay to the instrument
     * @param toDriver the part up to the pad's driver, which another net on this pad does not share
     * @param delay how late its changes reach the instrument, measured where that is known
     * @param lateCycles by how many cycles of a clock a watch circuit is late; 0 without one
     * @param lateClock that clock; empty without one
     */
    public record Line(
            String pad,
            Delay range,
            Delay toDriver,
            CaptureChannelDelay delay,
            int lateCycles,
            String lateClock) {
        private Line with(CaptureChannelDelay other) {
            return new Line(pad, range, toDriver, other, lateCycles, lateClock);
        }

        /**
         * Its delay with the cycles by which it is late. A measured one does not contain them: it
         * comes from a calibration, of another net through the same pad.
         *
         * @param periodPs period of its clock, ps
         */
        public CaptureChannelDelay delayWith(int periodPs) {
            return delay.later(lateCycles * periodPs);
        }
    }

    private SheetLines(Path file) {
        this.file = file;
    }

    /**
     * Reads a sheet, with commas, semicolons or tabs between its fields.
     *
     * @throws BadInput when it cannot be read, or lacks the columns with the delays
     */
    public static SheetLines read(Path file) throws BadInput {
        SheetLines lines = new SheetLines(file);
        Source source = Source.of(file);
        try (BufferedReader text = new BufferedReader(TextSource.open(source, Progress.NONE));
                CSVParser rows = CSVParser.parse((Reader) text, format(text))) {
            lines.readRows(rows);
        } catch (UncheckedIOException fault) {
            throw lines.fault(source, fault.getCause());
        } catch (IOException fault) {
            throw lines.fault(source, fault);
        } catch (IllegalArgumentException twice) {
            throw new BadInput(
                    file.toString(), "line 1", "each column once", "" + twice.getMessage());
        }
        return lines;
    }

    private BadInput fault(Source source, IOException fault) {
        return fault instanceof CSVException
                ? new BadInput(
                        file.toString(), "", "fields as RFC 4180 writes them", fault.getMessage())
                : IoFaults.describe(source, fault);
    }

    private static CSVFormat format(BufferedReader text) throws IOException {
        List<String> delays = List.of(FAST, SLOW);
        char separator = Separator.find(text, n -> NAMES.contains(n) || delays.contains(n));
        return CSVFormat.RFC4180
                .builder()
                .setDelimiter(separator)
                .setHeader()
                .setAllowMissingColumnNames(true)
                .setDuplicateHeaderMode(DuplicateHeaderMode.ALLOW_EMPTY)
                .setSkipHeaderRecord(true)
                .setIgnoreEmptyLines(true)
                .setTrim(true)
                .get();
    }

    private void readRows(CSVParser rows) throws BadInput {
        if (!rows.getHeaderNames().containsAll(List.of(FAST, SLOW))) {
            String expected = "columns " + FAST + " and " + SLOW;
            String found =
                    rows.getHeaderNames().isEmpty()
                            ? "an empty file"
                            : String.join(", ", rows.getHeaderNames());
            throw new BadInput(file.toString(), "line 1", expected, found);
        }
        for (CSVRecord row : rows) {
            int line = lines.size();
            lines.add(line(row));
            if (has(row, BOARD_NET)) {
                linesByBoardNet
                        .computeIfAbsent(Formulas.unguard(row.get(BOARD_NET)), n -> new TreeSet<>())
                        .add(line);
            }
            CALLED.stream()
                    .filter(name -> has(row, name))
                    .findFirst()
                    .ifPresent(name -> called.add(Formulas.unguard(row.get(name))));
            for (String name : NAMES) {
                if (row.isSet(name) && !row.get(name).isEmpty()) {
                    List<String> words =
                            name.equals("channel") ? Calibration.CHANNEL_WORDS : List.of("");
                    for (String word : words) {
                        linesByName
                                .computeIfAbsent(
                                        word + Formulas.unguard(row.get(name)),
                                        n -> new TreeSet<>())
                                .add(line);
                    }
                }
            }
        }
        levelMeasured();
    }

    private Line line(CSVRecord row) throws BadInput {
        Delay range = delay(row, FAST, SLOW);
        boolean apart = has(row, "chipFast_ps") && has(row, "outside_ps");
        CaptureChannelDelay delay =
                apart
                        ? CaptureChannelDelay.calculated(
                                delay(row, "chipFast_ps", "chipSlow_ps"),
                                number(row, "outside_ps"),
                                number(row, "outsideTolerance_ps"))
                        : CaptureChannelDelay.of(range);
        if (apart && has(row, "toHighFast_ps") && has(row, "toLowFast_ps")) {
            EdgeDelays edges =
                    new EdgeDelays(
                            delay(row, "toHighFast_ps", "toHighSlow_ps"),
                            delay(row, "toLowFast_ps", "toLowSlow_ps"));
            // The sheet's tolerance is that of an edge of which it is not known which it is.
            int parts = Math.max(0, delay.tolerancePs() - edges.halfApartPs());
            delay =
                    CaptureChannelDelay.calculated(delay.chip(), delay.outsidePs(), parts)
                            .withEdges(edges);
        }
        if (has(row, MEASURED)) {
            delay = delay.measured(number(row, MEASURED), number(row, MEASURED_TOLERANCE));
        }
        return new Line(
                row.isSet("pad") ? Formulas.unguard(row.get("pad")) : "",
                range,
                has(row, "toDriverFast_ps")
                        ? delay(row, "toDriverFast_ps", "toDriverSlow_ps")
                        : Delay.ZERO,
                delay,
                number(row, "lateCycles"),
                row.isSet("lateClock") ? Formulas.unguard(row.get("lateClock")) : "");
    }

    private static boolean has(CSVRecord row, String column) {
        return row.isSet(column) && !row.get(column).isEmpty();
    }

    private int number(CSVRecord row, String column) throws BadInput {
        if (!has(row, column)) {
            return 0;
        }
        int least = column.equals(MEASURED) ? -FileLimits.MEASURED_PS : 0;
        return Decimals.parse(row.get(column))
                .map(n -> n.setScale(0, RoundingMode.HALF_UP))
                .filter(n -> n.compareTo(BigDecimal.valueOf(least)) >= 0)
                .filter(n -> n.compareTo(BigDecimal.valueOf(FileLimits.MEASURED_PS)) <= 0)
                .map(BigDecimal::intValueExact)
                .orElseThrow(
                        () ->
                                new BadInput(
                                        file.toString(),
                                        "record " + row.getRecordNumber() + ", " + column,
                                        "a number of picoseconds",
                                        row.get(column)));
    }

    /** Of measured delays only the differences count: their mean is put where it is calculated. */
    private void levelMeasured() {
        int add =
                (int)
                        TimeStampCorrections.levelPs(
                                lines.stream()
                                        .filter(l -> l.delay().isMeasured())
                                        .map(
                                                l ->
                                                        (long) l.range().middlePs()
                                                                - l.delay().outsidePs())
                                        .toList());
        lines.replaceAll(
                l -> {
                    CaptureChannelDelay old = l.delay();
                    return old.isMeasured()
                            ? l.with(old.measured(old.outsidePs() + add, old.tolerancePs()))
                            : l;
                });
    }

    /** The most cycles of a clock by which a line is late; 0 when none is. */
    public int mostCycles(String clock) {
        return lines.stream()
                .filter(l -> l.lateClock().equals(clock))
                .mapToInt(Line::lateCycles)
                .max()
                .orElse(0);
    }

    /** Whether any delay in the table was measured. */
    public boolean hasMeasured() {
        return lines.stream().anyMatch(l -> l.delay().isMeasured());
    }

    /**
     * The delay of a line that leaves by a pad whose line was measured with another net: that
     * measurement, and the calculated difference of the two nets' routes to the pad's driver, with
     * its local variation.
     *
     * @param toDriver the line's calculated delay to the pad's driver
     * @param range its calculated delay to the instrument
     */
    public Optional<LedgerLead.Measured> measuredOn(
            String pad, Delay toDriver, Delay range, double localPercent) {
        return lines.stream()
                .filter(l -> l.pad().equals(pad) && l.delay().isMeasured())
                .findFirst()
                .map(
                        l ->
                                new Calibration.Reading(
                                                pad,
                                                l.toDriver(),
                                                l.range(),
                                                new LedgerLead.Measured(
                                                        l.delay().outsidePs(),
                                                        l.delay().tolerancePs()))
                                        .on(toDriver, range, localPercent));
    }

    private Delay delay(CSVRecord row, String fastColumn, String slowColumn) throws BadInput {
        String fast = row.isSet(fastColumn) ? row.get(fastColumn) : "";
        String slow = row.isSet(slowColumn) ? row.get(slowColumn) : "";
        try {
            int least = Integer.parseInt(fast);
            int most = Integer.parseInt(slow);
            if (least >= 0 && least <= most) {
                return new Delay(least, most);
            }
        } catch (NumberFormatException wrong) {
            // reported below
        }
        throw new BadInput(
                file.toString(),
                "record " + row.getRecordNumber(),
                "a fast and a slow delay in whole picoseconds, the fast one no greater",
                fast + ", " + slow);
    }

    /**
     * The line that someone means by a name: one of its own, or else that of the board's net on its
     * pad, where no other line is on that net.
     *
     * @param option the option that states the name
     * @throws BadInput when no line, or more than one, is meant
     */
    public Line stated(String option, String name) throws BadInput {
        Optional<Line> own = find(name);
        if (own.isPresent()) {
            return own.get();
        }
        Set<Integer> onNet = linesByBoardNet.getOrDefault(name, Set.of());
        if (onNet.size() != 1) {
            String found = onNet.isEmpty() ? name : name + ", a net of the board on several lines";
            throw new BadInput(option, "", "a line of the sheet: " + listed(), found);
        }
        return lines.get(onNet.iterator().next());
    }

    private String listed() {
        return Listing.first(called, MOST_LISTED);
    }

    /**
     * The line with a name.
     *
     * @throws BadInput when several lines have it, with different delays
     */
    public Optional<Line> find(String name) throws BadInput {
        Set<Integer> found = linesByName.getOrDefault(name, Set.of());
        if (found.stream().map(lines::get).map(Line::delay).distinct().count() > 1) {
            throw new BadInput(
                    BadInput.Kind.NEEDS_CHOICE,
                    file.toString(),
                    "",
                    "one line called " + name,
                    "lines "
                            + found.stream()
                                    .map(l -> l + 1 + "")
                                    .collect(Collectors.joining(", ")));
        }
        return found.stream().findFirst().map(lines::get);
    }
}
