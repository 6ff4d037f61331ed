package padward.format.source;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.concurrent.CancellationException;
import padward.base.Progress;

/** Counts the bytes of a source as they are read, reports progress, and stops when cancelled. */
final class MeteredStream extends FilterInputStream {
    private final Progress progress;
    private final String message;
    private final long size;
    private long count;

    MeteredStream(InputStream stream, Source source, Progress progress) {
        super(stream);
        this.progress = progress;
        this.message = "reading " + source.label();
        this.size = source.size();
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public int read(byte[] bytes, int offset, int length) throws IOException {
        if (progress.cancelled()) {
            throw new CancellationException(message);
        }
        int got = super.read(bytes, offset, length);
        count += Math.max(0, got);
        progress.report(size > 0 ? Math.min(1.0, (double) count / size) : -1, message);
        return got;
    }
}
