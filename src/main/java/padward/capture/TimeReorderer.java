package padward.capture;

import java.io.IOException;
import java.util.ArrayList;
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

    private final long[] shiftFs;
    private final long[] uncertaintyFs;
    private final long mostUncertainFs;
    private final Out out;
    private final PriorityQueue<Event> waiting = new PriorityQueue<>();
    private final String[] values;

    /** Number of uncertain spans that a channel is in now. */
    private final int[] spans;

    private int uncertainChannels;
    private boolean uncertain;
    private long number;
    private long nowFs = Long.MIN_VALUE;

    TimeReorderer(List<String> channels, Deskew deskew, Out out) {
        this.shiftFs = channels.stream().mapToLong(deskew::shiftFs).toArray();
        this.uncertaintyFs = channels.stream().mapToLong(deskew::uncertaintyFs).toArray();
        this.mostUncertainFs = deskew.mostUncertainFs(channels);
        this.values = new String[channels.size()];
        this.spans = new int[channels.size()];
        this.out = out;
    }

    /** A channel's value before its first change; its time is not shifted. */
    void initial(int channel, String value) {
        values[channel] = value;
    }

    /** A channel's change, with its time stamp. */
    void change(long fs, int channel, String value) {
        long at = fs + shiftFs[channel];
        long span = uncertaintyFs[channel];
        boolean changes = !value.equals(values[channel]);
        values[channel] = value;
        if (changes && span > 0) {
            add(Math.max(0, at - span), Kind.BEGIN, channel, "");
        }
        add(at, Kind.CHANGE, channel, value);
        if (changes && span > 0) {
            add(at + span, Kind.END, channel, "");
        }
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
                case BEGIN -> uncertainChannels += spans[event.channel()]++ == 0 ? 1 : 0;
                case END -> uncertainChannels -= --spans[event.channel()] == 0 ? 1 : 0;
                default -> changes.add(event);
            }
        }
        boolean now = uncertainChannels > 1;
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
