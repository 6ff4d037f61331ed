package padward.format.source;

import java.io.FilterReader;
import java.io.IOException;
import java.io.Reader;

/** A text whose characters are inspected as they are read, so that it can be refused in time. */
public abstract class InspectedText extends FilterReader {
    /** Inspects what another reader reads. */
    protected InspectedText(Reader text) {
        super(text);
    }

    /**
     * Inspects the next character.
     *
     * @throws IOException to read no further
     */
    protected abstract void follow(char c) throws IOException;

    /**
     * Inspects the next characters, one after the other.
     *
     * @throws IOException to read no further
     */
    protected void follow(char[] chars, int from, int to) throws IOException {
        for (int i = from; i < to; i++) {
            follow(chars[i]);
        }
    }

    @Override
    public final int read() throws IOException {
        int c = super.read();
        if (c >= 0) {
            follow((char) c);
        }
        return c;
    }

    @Override
    public final int read(char[] chars, int offset, int count) throws IOException {
        int got = super.read(chars, offset, count);
        follow(chars, offset, offset + got);
        return got;
    }
}
