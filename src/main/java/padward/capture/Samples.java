package padward.capture;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
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
 * time_ns} or {@code Time [us]}; without one, seconds. The output has a row for each change, and a
 * last column {@code order_uncertain}.
 */
final class Samples {
    private static final Pattern UNIT =
            Pattern.compile("(?:^|[^A-Za-z])(s|ms|us|µs|μs|ns|ps|fs)\\W*$");
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
            List<String> channels = channels(head);
            int tens = tens(head.get(0));
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
            return Deskewed.of(channels, reorderer);
        }
    }

    /** Reads a capture. */
    static void read(String file, Reader in, Changes changes) throws IOException, BadInput {
        CSVFormat format = CSVFormat.RFC4180.builder().setIgnoreEmptyLines(true).get();
        try (CSVParser rows = CSVParser.parse(in, format)) {
            var each = rows.iterator();
            CSVRecord head = head(file, each);
            int tens = tens(head.get(0));
            changes.channels(channels(head).stream().map(c -> new Channel(c, c)).toList());
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

    private static List<String> channels(CSVRecord head) {
        List<String> channels = new ArrayList<>();
        for (int i = 1; i < head.size(); i++) {
            channels.add(head.get(i).strip());
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

    private static int tens(String head) {
        Matcher unit = UNIT.matcher(head.strip());
        return unit.find() ? TENS.get(unit.group(1)) : TENS.get("s");
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
