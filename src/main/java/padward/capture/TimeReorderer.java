package padward.capture;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.PriorityQueue;

/**
 * Receives changes in the order of a capture and passes them on in the order of the shifted times,
 * with the spans in which the order of two channels' changes is uncertain. Buffers only changes
 * that a later change can still precede: O(changes within the greatest shift and uncertainty).
 */
final class TimeReorderer {
    /** Receives the reordered changes. */
    interface Out {
        /** Everything that follows happens at this time; times never decrease. */
        void time(long fs) throws IOException;

        /** A channel changes. */
        void change(int channel, String value) throws IOException;

        /** The order of changes becomes uncertain, or certain again. */
        void uncertain(boolean now) throws IOException;

        /** A text that belongs to no single channel, unchanged. */
        void text(String text) throws IOException;
    }

    private enum Kind {
        BEGIN,
        CHANGE,
        TEXT,
        END
    }

    private record Event(long fs, long number, Kind kind, int channel, String text)
            implements Comparable<Event> {
        @Override
        public int compareTo(Event other) {
            int byTime = Long.compare(fs, other.fs);
            return byTime != 0 ? byTime : Long.compare(number, other.number);
        }
    }

    private final long unitFs;
    private final long[] shiftFs;

    /** How uncertain the time between changes of two channels is, either way. */
    private final long[][] uncertaintyFs;

    private final long mostUncertainFs;

    /**
     * Shifted times of each channel's latest changes, as far as others' order can depend on them.
     */
    private final List<Deque<Long>> recent = new ArrayList<>();

    private final Out out;
    private final PriorityQueue<Event> waiting = new PriorityQueue<>();
    private final String[] values;

    /** Number of pairs of changes whose order is uncertain now. */
    private int uncertainPairs;

    private boolean uncertain;
    private long number;
    private long nowFs = Long.MIN_VALUE;

    /**
     * Reorders the changes of some channels.
     *
     * @param unitFs unit of time of the output, fs
     */
    TimeReorderer(List<String> channels, Deskew deskew, long unitFs, Out out) {
        this.unitFs = unitFs;
        this.shiftFs = channels.stream().mapToLong(deskew::shiftFs).toArray();
        this.uncertaintyFs = new long[channels.size()][channels.size()];
        long most = 0;
        for (int i = 0; i < channels.size(); i++) {
            recent.add(new ArrayDeque<>());
            for (int j = 0; j < channels.size(); j++) {
                if (i != j) {
                    uncertaintyFs[i][j] = deskew.uncertaintyFs(channels.get(i), channels.get(j));
                    most = Math.max(most, uncertaintyFs[i][j]);
                }
            }
        }
        this.mostUncertainFs = most;
        this.values = new String[channels.size()];
        this.out = out;
    }

    /** A channel's value before its first change; its time is not shifted. */
    void initial(int channel, String value) {
        values[channel] = value;
    }

    /** A channel's change, with its time stamp. */
    void change(long fs, int channel, String value) {
        long at = fs + shiftFs[channel];
        boolean changes = !value.equals(values[channel]);
        values[channel] = value;
        add(at, Kind.CHANGE, channel, value);
        if (changes && mostUncertainFs > 0) {
            markUncertain(fs, at, channel);
        }
    }

    /** Marks where a change and those of other channels can be in either order. */
    private void markUncertain(long now, long at, int channel) {
        for (int other = 0; other < recent.size(); other++) {
            Deque<Long> times = recent.get(other);
            while (!times.isEmpty() && times.peekFirst() < now - mostUncertainFs) {
                times.removeFirst();
            }
            long within = uncertaintyFs[channel][other];
            for (long time : times) {
                if (Math.abs(at - time) < within) {
                    // Where spans of half the uncertainty to either side of both overlap.
                    long begin = Math.max(0, Math.max(at, time) - within / 2);
                    long end = Math.min(at, time) + within / 2;
                    add(begin / unitFs * unitFs, Kind.BEGIN, channel, "");
                    add((end / unitFs + 1) * unitFs, Kind.END, channel, "");
                }
            }
        }
        recent.get(channel).addLast(at);
    }

    /** A text that belongs to no single channel. */
    void text(long fs, String text) {
        add(fs, Kind.TEXT, 0, text);
    }

    /** Whether these channels are shifted by the same amount. */
    boolean alike(List<Integer> channels) {
        return channels.stream().mapToLong(c -> shiftFs[c]).distinct().count() <= 1;
    }

    long shiftFs(int channel) {
        return shiftFs[channel];
    }

    private void add(long fs, Kind kind, int channel, String text) {
        waiting.add(new Event(fs, number++, kind, channel, text));
    }

    /** The capture has reached a time: passes on what no later change can precede. */
    void advance(long fs) throws IOException {
        while (!waiting.isEmpty() && waiting.peek().fs() < fs - mostUncertainFs) {
            passOn();
        }
    }

    /** The end of the capture. */
    void finish() throws IOException {
        while (!waiting.isEmpty()) {
            passOn();
        }
    }

    /** Passes on everything at the next time; of the uncertainty marks only the final state. */
    private void passOn() throws IOException {
        long fs = waiting.peek().fs();
        List<Event> changes = new ArrayList<>();
        while (!waiting.isEmpty() && waiting.peek().fs() == fs) {
            Event event = waiting.poll();
            switch (event.kind()) {
                case BEGIN -> uncertainPairs++;
                case END -> uncertainPairs--;
                default -> changes.add(event);
            }
        }
        boolean now = uncertainPairs > 0;
        if (changes.isEmpty() && now == uncertain) {
            return;
        }
        if (fs != nowFs) {
            nowFs = fs;
            out.time(fs);
        }
        for (Event event : changes) {
            if (event.kind() == Kind.TEXT) {
                out.text(event.text());
            } else {
                out.change(event.channel(), event.text());
            }
        }
        if (now != uncertain) {
            uncertain = now;
            out.uncertain(now);
        }
    }
}
