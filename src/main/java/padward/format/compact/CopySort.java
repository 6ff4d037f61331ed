package padward.format.compact;

import java.nio.charset.StandardCharsets;

/**
 * A sort of compact copies.
 *
 * @param ending how the names of their files end, after a dot
 * @param mark the text that they begin with, of 16 characters of one byte
 * @param layout number of the layout. To be raised when the layout changes, and when the same file
 *     would be read to something else, or refused, by now
 */
public record CopySort(String ending, String mark, int layout) {
    /** Bytes of a mark. */
    static final int MARK_BYTES = 16;

    byte[] markBytes() {
        return mark.getBytes(StandardCharsets.ISO_8859_1);
    }
}
