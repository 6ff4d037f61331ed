package padward.format.source;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import java.util.zip.ZipException;

/**
 * Unpacks gzip data (RFC 1952) and requires every byte of it to be sound. The library's own stream
 * takes anything behind the first member that does not begin like another one for rubbish and
 * passes over it: a damaged file would be read as a shorter one.
 */
final class GzipStream extends InputStream {
    private static final int HEADER_CHECK = 2;
    private static final int EXTRA = 4;
    private static final int NAME = 8;
    private static final int COMMENT = 16;
    private static final int RESERVED = 0xE0;

    private final InputStream in;
    private final byte[] buffer;
    private int at;
    private int end;
    private final Inflater inflater = new Inflater(true);

    /** Of the unpacked bytes of a member, or of its header. */
    private final CRC32 check = new CRC32();

    private boolean done;

    /**
     * Reads the first header.
     *
     * @throws ZipException when the data is not gzip data
     * @throws EOFException when it is empty or was cut short
     */
    GzipStream(InputStream in, int size) throws IOException {
        this.in = in;
        this.buffer = new byte[size];
        boolean sound = false;
        try {
            beginMember();
            sound = true;
        } finally {
            if (!sound) {
                inflater.end();
            }
        }
    }

    private boolean fill() throws IOException {
        at = 0;
        end = Math.max(0, in.read(buffer));
        return end > 0;
    }

    private int next() throws IOException {
        if (at == end && !fill()) {
            throw new EOFException("gzip data was cut short");
        }
        int value = buffer[at++] & 0xFF;
        check.update(value);
        return value;
    }

    private int nextTwo() throws IOException {
        return next() | next() << 8;
    }

    private long nextFour() throws IOException {
        return nextTwo() | (long) nextTwo() << 16;
    }

    private void beginMember() throws IOException {
        check.reset();
        if (next() != 0x1F || next() != 0x8B || next() != 8) {
            throw new ZipException("no header of gzip data");
        }
        int flags = next();
        if ((flags & RESERVED) != 0) {
            throw new ZipException("reserved flags");
        }
        nextFour(); // time
        nextTwo(); // further flags, operating system
        if ((flags & EXTRA) != 0) {
            for (int left = nextTwo(); left > 0; left--) {
                next();
            }
        }
        for (int text : new int[] {NAME, COMMENT}) {
            while ((flags & text) != 0 && next() != 0) {
                // a text ends with a zero
            }
        }
        if ((flags & HEADER_CHECK) != 0) {
            int expected = (int) check.getValue() & 0xFFFF;
            if (nextTwo() != expected) {
                throw new ZipException("damaged header");
            }
        }
        check.reset();
        inflater.reset();
        giveInput();
    }

    private void giveInput() {
        inflater.setInput(buffer, at, end - at);
        at = end;
    }

    private void endMember() throws IOException {
        at = end - inflater.getRemaining();
        long sum = check.getValue();
        long length = inflater.getBytesWritten() & 0xFFFFFFFFL;
        if (nextFour() != sum || nextFour() != length) {
            throw new ZipException("damaged data");
        }
        if (at < end || fill()) {
            beginMember();
        } else {
            done = true;
        }
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
        if (length == 0) {
            return 0;
        }
        try {
            while (!done) {
                int got = inflater.inflate(bytes, offset, length);
                if (got > 0) {
                    check.update(bytes, offset, got);
                    return got;
                }
                if (inflater.finished()) {
                    endMember();
                } else if (inflater.needsDictionary()) {
                    throw new ZipException("a dictionary is needed");
                } else if (fill()) {
                    giveInput();
                } else {
                    throw new EOFException("gzip data was cut short");
                }
            }
            return -1;
        } catch (DataFormatException damaged) {
            throw new ZipException(String.valueOf(damaged.getMessage()));
        }
    }

    @Override
    public void close() throws IOException {
        inflater.end();
        in.close();
    }
}
