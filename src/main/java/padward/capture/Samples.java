package padward.capture;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;
import padward.base.BadInput;
import padward.base.Decimals;

/**
 * Reads and deskews captures in CSV (RFC 4180), in one pass: a row of names, the time first; then a
 * row for each sample or each change. The head of the time column names its unit, as in {@code
 * time_ns} or {@code Time [us]}; one without a unit means seconds. The output has a row for each
 * change, and a last column {@code order_uncertain}.
 */
final class Samples {
    private static final Pattern IN_BRACKETS = Pattern.compile("[\\[(]([^\\])]*)[\\])]");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}]+");

    /** Last words of heads that are no unit, as in {@code time_stamp}. */
    private static final Set<String> NO_UNITS =
            Set.of("time", "times", "stamp", "stamps", "timestamp", "axis");

    private static final Map<String, Integer> TENS =
            Map.of("s", 15, "ms", 12, "us", 9, "µs", 9, "μs", 9, "ns", 6, "ps", 3, "fs", 0);

    private Samples() {}

    /**
     * Reads a capture and writes it deskewed.
     *
     * @param file name of the capture, for messages
     * @param deskews makes the deskew once the names of the channels are known
     */
    static Deskewed deskew(String file, Reader in, Writer out, Captures.DeskewFactory deskews)
            throws IOException, BadInput {
        // The caller closes the writer.
        CSVPrinter printer = new CSVPrinter(out, CSVFormat.RFC4180);
        CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();
        try (CSVParser rows = CSVParser.parse(in, format)) {
            var each = rows.iterator();
            CSVRecord head = head(file, each);
            List<String> channels = channels(file, head);
            int tens = tens(file, head.get(0));
            List<String> names = new ArrayList<>(head.toList());
            names.add("order_uncertain");
            printer.printRecord(names);
            Table table = new Table(printer, channels.size(), tens);
            TimeReorderer reorderer =
                    new TimeReorderer(
                            channels,
                            deskews.of(channels.stream().map(c -> new Channel(c, c)).toList()),
                            1,
                            table);
            String[] last = new String[channels.size()];
            long before = Long.MIN_VALUE;
            while (each.hasNext()) {
                CSVRecord row = each.next();
                long fs = time(file, row, tens, head.size(), before);
                boolean first = before == Long.MIN_VALUE;
                before = fs;
                reorderer.advance(fs);
                for (int i = 0; i < last.length; i++) {
                    String value = row.get(i + 1).strip();
                    if (first) {
                        reorderer.initial(i, value);
                        table.values[i] = value;
                    } else if (!value.equals(last[i])) {
                        reorderer.change(fs, i, value);
                    }
                    last[i] = value;
                }
                if (first) {
                    reorderer.text(fs, "");
                }
            }
            reorderer.finish();
            table.flushRow();
            printer.flush();
            String time = head.get(0).strip();
            return Deskewed.of(channels, reorderer, Optional.of(time).filter(h -> !namesUnit(h)));
        }
    }

    /** Reads a capture. */
    static void read(String file, Reader in, Changes changes) throws IOException, BadInput {
        CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();
        try (CSVParser rows = CSVParser.parse(in, format)) {
            var each = rows.iterator();
            CSVRecord head = head(file, each);
            int tens = tens(file, head.get(0));
            changes.channels(channels(file, head).stream().map(c -> new Channel(c, c)).toList());
            long before = Long.MIN_VALUE;
            while (each.hasNext()) {
                CSVRecord row = each.next();
                long fs = time(file, row, tens, head.size(), before);
                for (int i = 1; i < head.size(); i++) {
                    if (before == Long.MIN_VALUE) {
                        changes.initial(i - 1, row.get(i).strip());
                    } else {
                        changes.change(fs, i - 1, row.get(i).strip());
                    }
                }
                before = fs;
            }
        }
    }

    private static CSVRecord head(String file, Iterator<CSVRecord> each) throws BadInput {
        if (!each.hasNext()) {
            throw new BadInput(file, "line 1", "a row of names", "an empty file");
        }
        return each.next();
    }

    private static List<String> channels(String file, CSVRecord head) throws BadInput {
        List<String> channels = new ArrayList<>();
        Set<String> names = new HashSet<>();
        for (int i = 1; i < head.size(); i++) {
            String name = head.get(i).strip();
            if (!name.isEmpty() && !names.add(name)) {
                throw new BadInput(file, "line 1", "names used once", name + " twice");
            }
            channels.add(name);
        }
        return channels;
    }

    /** The time of a row that has all cells, and does not come before the last one. */
    private static long time(String file, CSVRecord row, int tens, int cells, long before)
            throws BadInput {
        long fs = time(file, row, tens);
        if (fs < before || row.size() != cells) {
            String wanted = fs < before ? "times that do not fall" : cells + " cells";
            String found = fs < before ? row.get(0) : row.size() + " cells";
            throw new BadInput(file, "record " + row.getRecordNumber(), wanted, found);
        }
        return fs;
    }

    private static int tens(String file, String head) throws BadInput {
        String unit = unit(head);
        Integer tens = TENS.get(unit.isEmpty() ? "s" : unit);
        if (tens == null) {
            throw new BadInput(
                    file,
                    "line 1",
                    "a head of the time column with the unit s, ms, us, ns, ps or fs, or with none"
                            + " for seconds",
                    head.strip());
        }
        return tens;
    }

    private static boolean namesUnit(String head) {
        return !unit(head).isEmpty();
    }

    /** What a head says in brackets, or as its last word of several; empty when it has no unit. */
    private static String unit(String head) {
        Matcher brackets = IN_BRACKETS.matcher(head);
        if (brackets.find()) {
            return brackets.group(1).strip();
        }
        List<String> words = BETWEEN_WORDS.splitAsStream(head).filter(w -> !w.isEmpty()).toList();
        String last = words.isEmpty() ? "" : words.get(words.size() - 1);
        boolean alone = words.size() < 2 && !TENS.containsKey(last);
        return alone || NO_UNITS.contains(last.toLowerCase(Locale.ROOT)) ? "" : last;
    }

    private static long time(String file, CSVRecord row, int tens) throws BadInput {
        return Decimals.parse(row.get(0))
                .map(n -> n.movePointRight(tens).setScale(0, RoundingMode.HALF_UP))
                .filter(n -> n.abs().compareTo(BigDecimal.valueOf(Captures.MOST_FS)) <= 0)
                .map(BigDecimal::longValueExact)
                .orElseThrow(
                        () ->
                                new BadInput(
                                        file,
                                        "record " + row.getRecordNumber(),
                                        "a time up to 9000 seconds",
                                        row.get(0)));
    }

    /** Writes a row when the time advances. */
    private static final class Table implements TimeReorderer.Out {
        private final CSVPrinter printer;
        private final String[] values;
        private final int tens;
        private boolean uncertain;
        private boolean begun;
        private long fs;

        Table(CSVPrinter printer, int channels, int tens) {
            this.printer = printer;
            this.values = new String[channels];
            this.tens = tens;
        }

        @Override
        public void time(long now) throws IOException {
            flushRow();
            begun = true;
            fs = now;
        }

        @Override
        public void change(int channel, String value) {
            values[channel] = value;
        }

        @Override
        public void uncertain(boolean now) {
            uncertain = now;
        }

        @Override
        public void text(String text) {
            // Only the first row comes here, and its values are already set.
        }

        private void flushRow() throws IOException {
            if (!begun) {
                return;
            }
            List<String> row = new ArrayList<>();
            row.add(
                    BigDecimal.valueOf(fs)
                            .movePointLeft(tens)
                            .stripTrailingZeros()
                            .toPlainString());
            row.addAll(List.of(values));
            row.add(uncertain ? "1" : "0");
            printer.printRecord(row);
        }
    }
}
