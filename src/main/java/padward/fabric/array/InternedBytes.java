package padward.fabric.array;

import java.io.IOException;
import java.util.Arrays;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * Byte strings, each kept once in one array and numbered from 0 in the order in which they came. A
 * hash table over the array finds a string's number, so no object is made for any of them.
 *
 * <p>Memory: the bytes, 4 bytes a string, and while they can be found 5 to 11 more. Grows on one
 * thread; once {@link #trim} was called it is safe for all.
 */
public final class InternedBytes {
    private byte[] bytes = new byte[256];
    private int[] start = new int[16];
    private int size;
    private final NumberTable numbers = new NumberTable();

    /** Number of strings. */
    public int size() {
        return size;
    }

    /** All strings, one behind the other; not to be changed. */
    public byte[] bytes() {
        return bytes;
    }

    /** Where a string begins in {@link #bytes}. */
    public int start(int number) {
        return start[number];
    }

    /** One past its last byte. */
    public int end(int number) {
        return start[number + 1];
    }

    /** The number of a string, which is added when it is new. O(length). */
    public int intern(byte[] text, int length) {
        int hash = hash(text, 0, length);
        int known = find(hash, text, length);
        if (known != Fabric.NOTHING) {
            return known;
        }
        int from = start[size];
        bytes = ArrayGrowth.room(bytes, from, length);
        System.arraycopy(text, 0, bytes, from, length);
        size++;
        start = ArrayGrowth.room(start, size, 1);
        start[size] = from + length;
        numbers.add(hash, number -> hash(bytes, start[number], start[number + 1]));
        return size - 1;
    }

    /** The number of a string, or {@link Fabric#NOTHING}. O(length). */
    public int find(byte[] text, int length) {
        return find(hash(text, 0, length), text, length);
    }

    private int find(int hash, byte[] text, int length) {
        return numbers.find(
                hash,
                number -> Arrays.equals(bytes, start[number], start[number + 1], text, 0, length));
    }

    private static int hash(byte[] text, int from, int to) {
        int hash = 1;
        for (int i = from; i < to; i++) {
            hash = 31 * hash + text[i];
        }
        return hash;
    }

    /**
     * Releases the room to grow.
     *
     * @param findable whether strings are still to be found; if not, the table goes as well
     */
    public void trim(boolean findable) {
        bytes = Arrays.copyOf(bytes, start[size]);
        start = Arrays.copyOf(start, size + 1);
        if (!findable) {
            numbers.clear();
        }
    }

    /** Bytes of the arrays. */
    public long memory() {
        return bytes.length + 4L * start.length + numbers.memory();
    }

    /** Writes it, to be read by {@link #read}. */
    public void write(CompactOut out) throws IOException {
        out.bytes(Arrays.copyOf(bytes, start[size]));
        out.numbers(Arrays.copyOf(start, size + 1));
    }

    /**
     * Reads what was written.
     *
     * @param findable whether strings are to be found
     */
    public static InternedBytes read(CompactIn in, boolean findable) throws IOException {
        InternedBytes result = new InternedBytes();
        result.bytes = in.bytes();
        result.start = in.risingNumbers();
        result.size = result.start.length - 1;
        Damaged.unless(result.size >= 0 && result.start[0] == 0, "starts of texts");
        Damaged.unless(result.start[result.size] == result.bytes.length, "starts of texts");
        if (findable) {
            result.makeFindable();
        } else {
            result.numbers.clear();
        }
        return result;
    }

    private void makeFindable() {
        int[] hashes = new int[size];
        for (int number = 0; number < size; number++) {
            hashes[number] = hash(bytes, start[number], start[number + 1]);
        }
        numbers.addAll(hashes);
    }
}
