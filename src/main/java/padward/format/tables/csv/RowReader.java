package padward.format.tables.csv;

import java.io.Closeable;
import java.io.FilterReader;
import java.io.IOException;
import java.io.PushbackReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Collection;
import java.util.Iterator;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * Rows of a table's text (RFC 4180), one after the other; blanks around a field that is not quoted
 * are left out. Rows as programs write them, with fields that are plain or quoted as a whole, are
 * split here, without an object for any field. From the first other one on (a quotation mark or a
 * line break in a field, or a row too long to be one), a parser of the library takes over, so that
 * what is read is the same. Belongs to one thread.
 */
final class RowReader implements Closeable {
    private static final int ROOM = 1 << 16;

    /** Most characters of lines that are taken at once: fewer than a row may have. */
    private static final int LINES = 1 << 18;

    private static final int PLAIN_DIGITS = 9;

    /** Instead of a position: the row goes on behind what has been read. */
    private static final int UNFINISHED = -1;

    /** Instead of a position: the row is for the parser. */
    private static final int OTHER = -2;

    private Reader text;
    private final char separator;

    /** Filled from 0 to {@code end}. */
    private char[] room;

    private int end;
    private boolean ended;

    /** Where the next row begins. */
    private int next;

    /** Whether a line feed that comes next belongs to the row before. */
    private boolean behindReturn;

    private long number;
    private int size;
    private int[] starts = new int[16];
    private int[] ends = new int[16];

    /** By field what it was last, as rows often repeat what stood above. */
    private String[] last = new String[16];

    private char[][] lastChars = new char[16][0];

    private Iterator<CSVRecord> records;

    /**
     * @param text the text; closed with this object
     */
    RowReader(Reader text, char separator) {
        this.text = text;
        this.separator = separator;
        this.room = new char[ROOM];
        Arrays.fill(last, "");
    }

    /**
     * Reads lines that another reader took.
     *
     * @param lines the lines; not changed
     */
    RowReader(char[] lines, char separator) {
        this.text = Reader.nullReader();
        this.separator = separator;
        this.room = lines;
        this.end = lines.length;
        this.ended = true;
        Arrays.fill(last, "");
    }

    /** Whether all rows so far are such that lines are rows, and fields are split here. */
    boolean isPlain() {
        return records == null;
    }

    /**
     * Takes some whole lines that come next, as they are, for another reader; none at the end of
     * the text, where it cannot be read, and where there is no line feed for long.
     */
    Optional<char[]> takeLines() {
        if (records != null) {
            return Optional.empty();
        }
        try {
            skipFeedOfReturn();
            while (end - next < LINES && fill(LINES)) {
                continue;
            }
        } catch (IOException e) {
            // rows in front of it are read first
            text = new FailingReader(text, e);
        }
        int behind = end;
        while (behind > next && room[behind - 1] != '\n') {
            behind--;
        }
        if (behind == next) {
            return Optional.empty();
        }
        char[] lines = Arrays.copyOfRange(room, next, behind);
        next = behind;
        return Optional.of(lines);
    }

    /** Counts rows that were read from lines taken. */
    void count(long rows) {
        number += rows;
    }

    /** Puts lines back in front of what comes next. */
    void putBack(Collection<char[]> lines) {
        int length = lines.stream().mapToInt(l -> l.length).sum();
        char[] all = new char[Math.max(ROOM, length + end - next)];
        int at = 0;
        for (char[] each : lines) {
            System.arraycopy(each, 0, all, at, each.length);
            at += each.length;
        }
        System.arraycopy(room, next, all, at, end - next);
        end = at + end - next;
        next = 0;
        room = all;
    }

    /** Number of the row that was read last, from 1. */
    long number() {
        return number;
    }

    /** How many fields it has. */
    int size() {
        return size;
    }

    boolean isEmpty(int field) {
        return starts[field] == ends[field];
    }

    /** The characters in which fields are; not to be changed, and valid until the next row. */
    char[] chars() {
        return room;
    }

    int start(int field) {
        return starts[field];
    }

    int end(int field) {
        return ends[field];
    }

    /** The text of a field; the same object as in the row before where that is the same text. */
    String text(int field) {
        int start = starts[field];
        int behind = ends[field];
        char[] before = lastChars[field];
        if (!Arrays.equals(before, 0, before.length, room, start, behind)) {
            lastChars[field] = Arrays.copyOfRange(room, start, behind);
            last[field] = new String(room, start, behind - start);
        }
        return last[field];
    }

    /** A field of one to nine digits as a number; -1 for any other. */
    int plainNumber(int field) {
        int start = starts[field];
        int length = ends[field] - start;
        if (length == 0 || length > PLAIN_DIGITS) {
            return -1;
        }
        int number = 0;
        for (int i = start; i < ends[field]; i++) {
            int digit = room[i] - '0';
            if (digit < 0 || digit > 9) {
                return -1;
            }
            number = 10 * number + digit;
        }
        return number;
    }

    /**
     * Moves to the next row; false at the end.
     *
     * @throws IOException when the text cannot be read, or is no such table
     */
    boolean next() throws IOException {
        if (records != null) {
            return nextRecord();
        }
        skipFeedOfReturn();
        if (next == end && !fill()) {
            return false;
        }
        if (!split()) {
            startParser();
            return nextRecord();
        }
        number++;
        return true;
    }

    private void skipFeedOfReturn() throws IOException {
        if (behindReturn && (next < end || fill()) && room[next] == '\n') {
            next++;
        }
        behindReturn = false;
    }

    /** Reads more, with room for the whole of a row that is longer than all before. */
    private boolean fill() throws IOException {
        return fill(end - next == room.length ? 2 * room.length : room.length);
    }

    /**
     * Reads more behind what is there from the next row on, which moves to 0; false at the end.
     *
     * @param least how many characters there is to be room for
     */
    private boolean fill(int least) throws IOException {
        int rest = end - next;
        char[] wide = room.length < least ? new char[least] : room;
        System.arraycopy(room, next, wide, 0, rest);
        room = wide;
        next = 0;
        end = rest;
        int got = ended ? -1 : text.read(room, end, Math.min(ROOM, room.length - end));
        ended = got < 0;
        end += Math.max(0, got);
        return !ended;
    }

    /** Takes the fields of the next row apart; false when it is not as simple as that. */
    private boolean split() throws IOException {
        int behind = UNFINISHED;
        while (behind == UNFINISHED) {
            behind = end - next > BoundedRows.LONGEST ? OTHER : splitWhatIsThere();
            if (behind == UNFINISHED) {
                fill();
            }
        }
        next = behind == OTHER ? next : behind;
        return behind != OTHER;
    }

    /** As {@link #split}; the position behind the row, or a sign. */
    private int splitWhatIsThere() {
        size = 0;
        int start = next;
        while (true) {
            boolean quoted = start < end && room[start] == '"';
            int from = quoted ? start + 1 : start;
            int to = quoted ? endOfQuoted(from) : endOfPlain(from);
            int behind = quoted ? to + 1 : to;
            if (to == end || behind == end) {
                if (!ended) {
                    return UNFINISHED;
                }
                if (to == end && quoted) {
                    return OTHER;
                }
            }
            if (quoted) {
                addField(from, to);
            } else {
                addTrimmed(from, to);
            }
            if (behind == end) {
                return end;
            }
            char c = room[behind];
            if (c == '\n' || c == '\r') {
                behindReturn = c == '\r';
                return behind + 1;
            }
            if (c != separator) {
                return OTHER;
            }
            start = behind + 1;
        }
    }

    /** Where the plain field that begins at a position ends, or a mark in it is. */
    private int endOfPlain(int from) {
        int at = from;
        while (at < end) {
            char c = room[at];
            if (c == separator || c == '\n' || c == '\r' || c == '"') {
                break;
            }
            at++;
        }
        return at;
    }

    /** Where the mark behind a quoted text is. */
    private int endOfQuoted(int from) {
        int at = from;
        while (at < end && room[at] != '"') {
            at++;
        }
        return at;
    }

    private void addTrimmed(int from, int to) {
        int start = from;
        int behind = to;
        while (start < behind && Character.isWhitespace(room[start])) {
            start++;
        }
        while (start < behind && Character.isWhitespace(room[behind - 1])) {
            behind--;
        }
        addField(start, behind);
    }

    private void addField(int from, int to) {
        if (size == starts.length) {
            starts = Arrays.copyOf(starts, 2 * size);
            ends = Arrays.copyOf(ends, 2 * size);
            last = Arrays.copyOf(last, 2 * size);
            Arrays.fill(last, size, last.length, "");
            lastChars = Arrays.copyOf(lastChars, 2 * size);
            Arrays.fill(lastChars, size, lastChars.length, new char[0]);
        }
        starts[size] = from;
        ends[size++] = to;
    }

    private void startParser() throws IOException {
        PushbackReader rest = new PushbackReader(text, Math.max(1, end - next));
        rest.unread(room, next, end - next);
        room = new char[ROOM]; // fields are put there; lines taken elsewhere may be put back
        CSVFormat format =
                CSVFormat.RFC4180
                        .builder()
                        .setDelimiter(separator)
                        .setIgnoreSurroundingSpaces(true)
                        .setIgnoreEmptyLines(false)
                        .get();
        records = CSVParser.parse((Reader) new BoundedRows(rest), format).iterator();
    }

    private boolean nextRecord() throws IOException {
        try {
            if (!records.hasNext()) {
                return false;
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        size = 0;
        int at = 0;
        for (String field : records.next()) {
            while (room.length < at + field.length()) {
                room = Arrays.copyOf(room, 2 * room.length);
            }
            field.getChars(0, field.length(), room, at);
            addField(at, at + field.length());
            at += field.length();
        }
        number++;
        return true;
    }

    @Override
    public void close() throws IOException {
        text.close();
    }

    /** The rest of a text that could not be read. */
    private static final class FailingReader extends FilterReader {
        private final IOException why;

        FailingReader(Reader text, IOException why) {
            super(text);
            this.why = why;
        }

        @Override
        public int read(char[] chars, int from, int length) throws IOException {
            throw why;
        }
    }
}
