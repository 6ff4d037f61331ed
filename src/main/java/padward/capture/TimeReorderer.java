package padward.capture;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;

/**
 * Receives changes in the order of a capture and passes them on in the order of the shifted times,
 * with the spans in which the order of two channels' changes is uncertain. Where the two edges of a
 * channel are shifted by different amounts, changes of one channel that would cross stay in their
 * order: the later one comes a unit after the earlier one, and the span by which it was moved is
 * marked as uncertain. Buffers only changes that a later change can still precede: O(changes within
 * the greatest shift and uncertainty).
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

    /** A change of a channel, at its shifted time. */
    private record Shifted(long fs, Deskew.Shift shift) {}

    private final long unitFs;

    /** Each channel's shifts; a table of pairs would not fit into memory for a large capture. */
    private final List<Deskew.Edges> edges;

    private final long mostUncertainFs;

    /** Each channel's latest changes, as far as others' order can depend on them. */
    private final List<Deque<Shifted>> recent = new ArrayList<>();

    /** The time stamp of each channel's last change, and where that was put. */
    private final long[] lastStampFs;

    private final long[] lastFs;

    /** How many changes of each channel were moved to keep their order. */
    private final long[] kept;

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
        this.edges = channels.stream().map(deskew::edges).toList();
        channels.forEach(c -> recent.add(new ArrayDeque<>()));
        this.mostUncertainFs = mostUncertainFs(edges);
        this.values = new String[channels.size()];
        this.lastStampFs = new long[channels.size()];
        this.lastFs = new long[channels.size()];
        this.kept = new long[channels.size()];
        Arrays.fill(lastFs, Long.MIN_VALUE);
        this.out = out;
    }

    /** The greatest uncertainty between two changes. O(channels + distinct shifts squared). */
    private static long mostUncertainFs(List<Deskew.Edges> edges) {
        Map<Deskew.Edges, Integer> counts = new LinkedHashMap<>();
        edges.forEach(s -> counts.merge(s, 1, Integer::sum));
        long most = 0;
        long moved = 0;
        for (Map.Entry<Deskew.Edges, Integer> one : counts.entrySet()) {
            // No change is moved further: stamps are at least a unit apart themselves.
            moved = Math.max(moved, one.getKey().apartFs());
            for (Deskew.Edges other : counts.keySet()) {
                if (one.getValue() > 1 || !one.getKey().equals(other)) {
                    most = Math.max(most, one.getKey().mostUncertainAgainst(other));
                }
            }
        }
        return most + 2 * moved;
    }

    /** A channel's value before its first change; its time is not shifted. */
    void initial(int channel, String value) {
        values[channel] = value;
    }

    /** A channel's change, with its time stamp. */
    void change(long fs, int channel, String value) {
        Deskew.Edges shifts = edges.get(channel);
        String before = values[channel] == null ? "" : values[channel];
        values[channel] = value;
        if (value.equals(before)) {
            // What is told twice changes nothing, and is never in the way of the next change.
            add(Math.max(fs + shifts.leastFs(), lastFs[channel]), Kind.CHANGE, channel, value);
            return;
        }
        Deskew.Shift shift = shifts.of(SignalEdge.between(before, value));
        long at = fs + shift.fs();
        long least = lastFs[channel];
        if (least != Long.MIN_VALUE && fs > lastStampFs[channel]) {
            least += unitFs;
        }
        if (at < least) {
            add(at / unitFs * unitFs, Kind.BEGIN, channel, "");
            add((least / unitFs + 1) * unitFs, Kind.END, channel, "");
            shift = shift.movedBy(least - at);
            kept[channel]++;
            at = least;
        }
        lastStampFs[channel] = fs;
        lastFs[channel] = at;
        add(at, Kind.CHANGE, channel, value);
        if (mostUncertainFs > 0) {
            markUncertain(fs, new Shifted(at, shift), channel);
        }
    }

    /** Marks where a change and those of other channels can be in either order. */
    private void markUncertain(long now, Shifted change, int channel) {
        long at = change.fs();
        for (int other = 0; other < recent.size(); other++) {
            Deque<Shifted> changes = recent.get(other);
            while (!changes.isEmpty() && changes.peekFirst().fs() < now - mostUncertainFs) {
                changes.removeFirst();
            }
            if (other == channel) {
                continue;
            }
            for (Shifted earlier : changes) {
                long time = earlier.fs();
                long within = change.shift().uncertainAgainst(earlier.shift());
                if (Math.abs(at - time) < within) {
                    // Where spans of half the uncertainty to either side of both overlap.
                    long begin = Math.max(0, Math.max(at, time) - within / 2);
                    long end = Math.min(at, time) + within / 2;
                    add(begin / unitFs * unitFs, Kind.BEGIN, channel, "");
                    add((end / unitFs + 1) * unitFs, Kind.END, channel, "");
                }
            }
        }
        recent.get(channel).addLast(change);
    }

    /** A text that belongs to no single channel. */
    void text(long fs, String text) {
        add(fs, Kind.TEXT, 0, text);
    }

    /** Whether all changes of these channels are shifted by the same amount. */
    boolean alike(List<Integer> channels) {
        return channels.stream().noneMatch(c -> edges.get(c).areApart())
                && channels.stream().mapToLong(this::shiftFs).distinct().count() <= 1;
    }

    /** What is added to changes of a channel whose edges are not known. */
    long shiftFs(int channel) {
        return edges.get(channel).either().fs();
    }

    /** How many changes of a channel were moved so that they stay in their order. */
    long keptInOrder(int channel) {
        return kept[channel];
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
