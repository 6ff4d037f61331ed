package padward.format.ledger;

import com.google.gson.FormattingStyle;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32C;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.json.JsonIn;
import padward.format.json.JsonOut;
import padward.format.json.JsonShape;
import padward.format.json.Members;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The lines of a {@link Journal}. Each is a checksum (CRC-32C, RFC 3720 appendix B.4, eight
 * hexadecimal digits), a blank, and one JSON object: {@code {"stay": [[1, 3], [5, 5]], "first": 6,
 * "entries": [...]}}: of the entries so far those with these numbers stay, and these follow, with
 * numbers from 6 on. Numbers are not used again, so a damaged line loses only the entries in it.
 *
 * <p>The first line names the format and the design, by the digest of its file's bytes. It is
 * written twice, because without it the others are of no use.
 */
final class JournalLines {
    static final String FORMAT = "padward-journal/2";
    private static final int SUM = 8;

    /** Entries that stay, next to each other: far more than anyone keeps. */
    private static final int MOST = 1_000_000;

    private static final JsonShape LINE =
            JsonShape.of("format", "sha256", "stay", "first", "entries");

    /**
     * The net effect of all lines.
     *
     * @param digest digest of the design's file, {@code ""} when there is no line that says it
     * @param entries the entries that remain
     * @param damaged the damaged lines, from 1; not one that was cut short at the end
     */
    record State(String digest, List<LedgerEntry> entries, List<Integer> damaged) {
        State {
            entries = List.copyOf(entries);
            damaged = List.copyOf(damaged);
        }
    }

    private JournalLines() {}

    static byte[] head(String digest) {
        byte[] line =
                line(
                        out -> {
                            out.beginObject().name("format").value(FORMAT);
                            out.name("sha256").value(digest).endObject();
                        });
        byte[] twice = Arrays.copyOf(line, 2 * line.length);
        System.arraycopy(line, 0, twice, line.length, line.length);
        return twice;
    }

    /**
     * A change of what is kept.
     *
     * @param stay the numbers of the entries that stay, in their order
     * @param first the number of the first entry that follows
     */
    static byte[] kept(List<Integer> stay, int first, List<LedgerEntry> entries, Fabric fabric) {
        return line(
                out -> {
                    out.beginObject().name("stay").beginArray();
                    for (int from = 0; from < stay.size(); ) {
                        int to = from + 1;
                        while (to < stay.size() && stay.get(to) == stay.get(to - 1) + 1) {
                            to++;
                        }
                        out.beginArray().value(stay.get(from)).value(stay.get(to - 1)).endArray();
                        from = to;
                    }
                    out.endArray().name("first").value(first).name("entries");
                    entries(fabric).write(out, entries);
                    out.endObject();
                });
    }

    private static Kind<List<LedgerEntry>> entries(Fabric fabric) {
        return Kinds.list(LedgerForm.entry(EditForms.on(fabric), false));
    }

    private static byte[] line(JsonOut.Body body) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            JsonOut.write(bytes, FormattingStyle.COMPACT, body);
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written outside memory", impossible);
        }
        byte[] text = bytes.toByteArray();
        byte[] line = new byte[SUM + 1 + text.length + 1];
        System.arraycopy(sum(text, 0, text.length), 0, line, 0, SUM);
        line[SUM] = ' ';
        System.arraycopy(text, 0, line, SUM + 1, text.length);
        line[line.length - 1] = '\n';
        return line;
    }

    private static byte[] sum(byte[] bytes, int from, int length) {
        CRC32C crc = new CRC32C();
        crc.update(bytes, from, length);
        return HexFormat.of()
                .toHexDigits((int) crc.getValue())
                .getBytes(StandardCharsets.ISO_8859_1);
    }

    /** Whether the bytes are a line, without its end, as it was written. */
    private static boolean isSound(byte[] bytes, int from, int end) {
        int text = from + SUM + 1;
        return text < end
                && bytes[text - 1] == ' '
                && Arrays.equals(sum(bytes, text, end - text), 0, SUM, bytes, from, from + SUM);
    }

    /**
     * Reads all lines that are as they were written. A last line that was cut short is passed over:
     * a program that was stopped while it wrote leaves one, and it had not reported anything yet.
     *
     * @throws BadInput when an undamaged line has a fault
     */
    static State read(byte[] bytes, String label, Fabric fabric) throws BadInput {
        Reading reading = new Reading(label, fabric);
        int from = 0;
        for (int line = 1; from < bytes.length; line++) {
            int end = from;
            while (end < bytes.length && bytes[end] != '\n') {
                end++;
            }
            reading.chunk(bytes, from, end, line);
            from = end + 1;
        }
        return reading.state();
    }

    /** What the lines so far say. */
    private static final class Reading {
        private final String label;
        private final Fabric fabric;
        private final Map<Integer, LedgerEntry> known = new HashMap<>();
        private final List<Integer> damaged = new ArrayList<>();
        private String digest = "";
        private List<Integer> kept = List.of();

        private Reading(String label, Fabric fabric) {
            this.label = label;
            this.fabric = fabric;
        }

        /** The bytes between two line ends: a line, or what damage has made of one or two. */
        private void chunk(byte[] bytes, int from, int end, int line) throws BadInput {
            if (isSound(bytes, from, end)) {
                read(bytes, from, end);
                return;
            }
            boolean cutShort = end == bytes.length;
            // The line's end may be what is damaged: then another sound line may follow in it.
            for (int at = from; at + SUM + 1 < end; at++) {
                boolean lineMayBegin = bytes[at + SUM] == ' ' && bytes[at + SUM + 1] == '{';
                if (lineMayBegin && isSound(bytes, at, end)) {
                    if (isSound(bytes, from, at - 1)) {
                        read(bytes, from, at - 1);
                    }
                    read(bytes, at, end);
                    damaged.add(line);
                    return;
                }
            }
            if (!cutShort) {
                damaged.add(line);
            } else if (isSound(bytes, from, end - 1)) {
                read(bytes, from, end - 1);
                damaged.add(line);
            } else if (hasZero(bytes, from, end)) {
                // A machine that lost its power leaves zeros.
                damaged.add(line);
            }
        }

        private static boolean hasZero(byte[] bytes, int from, int end) {
            for (int i = from; i < end; i++) {
                if (bytes[i] == 0) {
                    return true;
                }
            }
            return false;
        }

        private void read(byte[] bytes, int from, int end) throws BadInput {
            int text = from + SUM + 1;
            String json = new String(bytes, text, end - text, StandardCharsets.UTF_8);
            boolean head = false;
            List<Integer> stay = new ArrayList<>();
            int first = 1;
            List<LedgerEntry> entries = List.of();
            try (JsonIn in = new JsonIn(new Source.OfText(label, json), Progress.NONE)) {
                Members member = in.object(LINE);
                while (member.next()) {
                    switch (member.name()) {
                        case "format" -> {
                            String format = in.name();
                            if (!format.equals(FORMAT)) {
                                throw in.fault(Text.quote(FORMAT), Text.quote(format));
                            }
                            head = true;
                        }
                        case "sha256" -> digest = in.name();
                        case "stay" -> in.list(runs -> readRun(runs, stay));
                        case "first" -> first = in.integer(1, Integer.MAX_VALUE / 2);
                        default -> entries = entries(fabric).read(in);
                    }
                }
            }
            if (!head) {
                for (LedgerEntry entry : entries) {
                    known.put(first, entry);
                    stay.add(first);
                    first++;
                }
                kept = stay;
            }
        }

        private static int readRun(JsonIn in, List<Integer> stay) throws BadInput {
            in.beginArray();
            int from = in.integer(1, Integer.MAX_VALUE / 2);
            int to = in.integer(from, Integer.MAX_VALUE / 2);
            in.endArray();
            if (stay.size() + (long) to - from >= MOST) {
                throw in.fault("fewer entries", "more than " + MOST);
            }
            for (int number = from; number <= to; number++) {
                stay.add(number);
            }
            return to;
        }

        private State state() {
            List<LedgerEntry> entries =
                    kept.stream().filter(known::containsKey).map(known::get).toList();
            return new State(digest, entries, damaged);
        }
    }
}
