package padward.fabric.compact;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;

/**
 * Reads what {@link CompactOut} wrote. Nothing is believed: whoever asks for a number states its
 * range, and no array gets more entries than the bytes left can state. Where an entry can be of one
 * byte but takes more in memory, whoever asks for the count states the greatest there can be.
 * Belongs to one thread.
 */
public final class CompactIn {
    /** Reads one thing. */
    @FunctionalInterface
    public interface Part<T> {
        /** Reads it. */
        T read() throws IOException;
    }

    private static final int ROOM = 1 << 16;

    /**
     * Checks go over so many numbers at a time: a short method that is called often is compiled
     * sooner than a long loop is left.
     */
    private static final int BLOCK = 64;

    private final InputStream in;
    private final Progress progress;
    private final ByteBuffer room = ByteBuffer.allocate(ROOM).order(ByteOrder.LITTLE_ENDIAN);
    private final List<String> texts = new ArrayList<>();

    /** Bytes that are not in {@link #room} yet. */
    private long outside;

    /**
     * @param in where the bytes come from
     * @param length how many there are
     * @param progress asked for each block whether to stop; a stop is a {@link
     *     java.util.concurrent.CancellationException}
     */
    public CompactIn(InputStream in, long length, Progress progress) {
        this.in = in;
        this.progress = progress;
        this.outside = length;
        room.limit(0);
    }

    /**
     * Requires that everything has been read.
     *
     * @throws Damaged when something is left
     */
    public void end() throws Damaged {
        Damaged.unless(left() == 0, "bytes behind the end");
    }

    private long left() {
        return outside + room.remaining();
    }

    private void need(int bytes) throws IOException {
        if (room.remaining() < bytes) {
            fill(bytes);
        }
    }

    private void fill(int bytes) throws IOException {
        Damaged.unless(bytes <= left(), "more than there is");
        room.compact();
        while (room.position() < bytes) {
            progress.check();
            int most = (int) Math.min(room.remaining(), outside);
            int got = in.read(room.array(), room.position(), most);
            if (got < 0) {
                throw new EOFException("cut short");
            }
            room.position(room.position() + got);
            outside -= got;
        }
        room.flip();
    }

    /** Reads any whole number. */
    public int number() throws IOException {
        need(Integer.BYTES);
        return room.getInt();
    }

    /** Reads a whole number in a range, both ends included. */
    public int number(int least, int most) throws IOException {
        int number = number();
        Damaged.unless(least <= number && number <= most, "a number out of range");
        return number;
    }

    /** Reads a small number, from 0 to some. */
    public int smallNumber(int most) throws IOException {
        need(1);
        int number = room.get();
        if (number < 0) {
            number = longer(number);
        }
        Damaged.unless(number >= 0 && number <= most, "a number out of range");
        return number;
    }

    /** The small number of several bytes that begins with one; below 0 when it is too great. */
    private int longer(int first) throws IOException {
        int number = first & (CompactOut.SMALL_BASE - 1);
        int shift = CompactOut.SMALL_BITS;
        int next;
        do {
            Damaged.unless(shift < Integer.SIZE, "a number of too many bytes");
            need(1);
            next = room.get();
            number |= (next & (CompactOut.SMALL_BASE - 1)) << shift;
            shift += CompactOut.SMALL_BITS;
        } while (next < 0);
        return number;
    }

    /**
     * Reads how many things follow, each of which takes a byte at least.
     *
     * @param most how many there can be, whatever the length of what is read
     */
    public int smallCount(int most) throws IOException {
        int count = smallNumber(most);
        Damaged.unless(count <= left(), "more than there is");
        return count;
    }

    /** Reads a whole number of 64 bits. */
    public long longNumber() throws IOException {
        need(Long.BYTES);
        return room.getLong();
    }

    /** Reads a number with a fraction. */
    public double fraction() throws IOException {
        return Double.longBitsToDouble(longNumber());
    }

    /** Reads yes or no. */
    public boolean flag() throws IOException {
        need(1);
        byte flag = room.get();
        Damaged.unless(flag == 0 || flag == 1, "neither yes nor no");
        return flag == 1;
    }

    /** The length of an array of which each entry takes some bytes. */
    private int length(int bytesEach) throws IOException {
        int length = number();
        Damaged.unless(length >= 0 && (long) length * bytesEach <= left(), "an array too long");
        return length;
    }

    /** Reads an array of any numbers. */
    public int[] numbers() throws IOException {
        int[] numbers = new int[length(Integer.BYTES)];
        int at = 0;
        while (at < numbers.length) {
            need(Integer.BYTES);
            int some = Math.min(numbers.length - at, room.remaining() / Integer.BYTES);
            room.asIntBuffer().get(numbers, at, some);
            room.position(room.position() + some * Integer.BYTES);
            at += some;
        }
        return numbers;
    }

    /** Reads an array of numbers in a range, both ends included. */
    public int[] numbers(int least, int most) throws IOException {
        int[] numbers = numbers();
        for (int at = 0; at < numbers.length; at += BLOCK) {
            int end = Math.min(at + BLOCK, numbers.length);
            Damaged.unless(areWithin(numbers, at, end, least, most), "a number out of range");
        }
        return numbers;
    }

    private static boolean areWithin(int[] numbers, int start, int end, int least, int most) {
        for (int i = start; i < end; i++) {
            if (numbers[i] < least || numbers[i] > most) {
                return false;
            }
        }
        return true;
    }

    /** Reads an array of numbers of which none is less than the one before. */
    public int[] risingNumbers() throws IOException {
        int[] numbers = numbers();
        for (int at = 1; at < numbers.length; at += BLOCK) {
            int end = Math.min(at + BLOCK, numbers.length);
            Damaged.unless(areRising(numbers, at, end), "numbers that fall");
        }
        return numbers;
    }

    private static boolean areRising(int[] numbers, int start, int end) {
        for (int i = start; i < end; i++) {
            if (numbers[i - 1] > numbers[i]) {
                return false;
            }
        }
        return true;
    }

    /** Reads an array of numbers from 0 to some that was written in two bytes each. */
    public char[] narrowNumbers(int most) throws IOException {
        char[] numbers = characters();
        for (int at = 0; at < numbers.length; at += BLOCK) {
            int end = Math.min(at + BLOCK, numbers.length);
            Damaged.unless(areAtMost(numbers, at, end, most), "a number out of range");
        }
        return numbers;
    }

    private static boolean areAtMost(char[] numbers, int start, int end, int most) {
        for (int i = start; i < end; i++) {
            if (numbers[i] > most) {
                return false;
            }
        }
        return true;
    }

    private char[] characters() throws IOException {
        char[] numbers = new char[length(Character.BYTES)];
        int at = 0;
        while (at < numbers.length) {
            need(Character.BYTES);
            int some = Math.min(numbers.length - at, room.remaining() / Character.BYTES);
            room.asCharBuffer().get(numbers, at, some);
            room.position(room.position() + some * Character.BYTES);
            at += some;
        }
        return numbers;
    }

    /** Reads an array. */
    public long[] longNumbers() throws IOException {
        long[] numbers = new long[length(Long.BYTES)];
        int at = 0;
        while (at < numbers.length) {
            need(Long.BYTES);
            int some = Math.min(numbers.length - at, room.remaining() / Long.BYTES);
            room.asLongBuffer().get(numbers, at, some);
            room.position(room.position() + some * Long.BYTES);
            at += some;
        }
        return numbers;
    }

    /** Reads an array. */
    public byte[] bytes() throws IOException {
        byte[] bytes = new byte[length(1)];
        int first = Math.min(bytes.length, room.remaining());
        room.get(bytes, 0, first);
        for (int at = first; at < bytes.length; at += ROOM) {
            progress.check();
            int some = Math.min(ROOM, bytes.length - at);
            if (in.readNBytes(bytes, at, some) < some) {
                throw new EOFException("cut short");
            }
            outside -= some;
        }
        return bytes;
    }

    /** Reads a set of numbers from 0 to below a limit. */
    public BitSet bits(int limit) throws IOException {
        BitSet bits = BitSet.valueOf(longNumbers());
        Damaged.unless(bits.length() <= limit, "a number out of range");
        return bits;
    }

    /** Reads a text. */
    public String text() throws IOException {
        int number = number(0, texts.size());
        if (number == texts.size()) {
            texts.add(new String(characters()));
        }
        return texts.get(number);
    }

    /** Reads a name. */
    public String name() throws IOException {
        int length = smallNumber(CompactOut.NAME_BYTES);
        need(length);
        int at = room.position();
        room.position(at + length);
        return new String(room.array(), at, length, StandardCharsets.UTF_8);
    }

    /** Reads so many texts. */
    public String[] texts(int count) throws IOException {
        Damaged.unless((long) count * Integer.BYTES <= left(), "more than there is");
        String[] result = new String[count];
        for (int i = 0; i < count; i++) {
            result[i] = text();
        }
        return result;
    }

    /** Reads a constant. */
    public <E extends Enum<E>> E constant(Class<E> type) throws IOException {
        String name = text();
        for (E each : type.getEnumConstants()) {
            if (each.name().equals(name)) {
                return each;
            }
        }
        throw new Damaged("an unknown word");
    }

    /** Reads a list. */
    public <T> List<T> list(Part<? extends T> part) throws IOException {
        int size = length(1);
        List<T> list = new ArrayList<>();
        for (int i = 0; i < size; i++) {
            list.add(part.read());
        }
        return list;
    }

    /** Reads a list of texts. */
    public List<String> textList() throws IOException {
        return List.of(texts(length(Integer.BYTES)));
    }

    /** Reads a text that may be missing. */
    public Optional<String> optionalText() throws IOException {
        return flag() ? Optional.of(text()) : Optional.empty();
    }
}
