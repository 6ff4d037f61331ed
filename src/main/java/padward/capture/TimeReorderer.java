package padward.capture;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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

    /** Each channel's shift; a table of pairs would not fit into memory for a large capture. */
    private final List<Deskew.Shift> shifts;

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
        this.shifts = channels.stream().map(deskew::shift).toList();
        channels.forEach(c -> recent.add(new ArrayDeque<>()));
        this.mostUncertainFs = mostUncertainFs(shifts);
        this.values = new String[channels.size()];
        this.out = out;
    }

    /** The greatest uncertainty between two channels. O(channels + distinct shifts squared). */
    private static long mostUncertainFs(List<Deskew.Shift> shifts) {
        Map<Deskew.Shift, Integer> counts = new LinkedHashMap<>();
        shifts.forEach(s -> counts.merge(s, 1, Integer::sum));
        long most = 0;
        for (Map.Entry<Deskew.Shift, Integer> one : counts.entrySet()) {
            for (Deskew.Shift other : counts.keySet()) {
                if (one.getValue() > 1 || !one.getKey().equals(other)) {
                    most = Math.max(most, one.getKey().uncertainAgainst(other));
                }
            }
        }
        return most;
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
            if (times.isEmpty() || other == channel) {
                continue;
            }
            long within = shifts.get(channel).uncertainAgainst(shifts.get(other));
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
