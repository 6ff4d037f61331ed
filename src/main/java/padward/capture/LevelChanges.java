package padward.capture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import padward.base.Progress;
import padward.capture.ChannelDifferences.Shown;

/** When some channels of a capture change between 0 and 1; the first million changes of each. */
final class LevelChanges implements Changes {
    private static final int MOST = 1_000_000;
    private static final int FIRST_ROOM = 64;
    private static final int CHECKED = 1024;

    private final Function<Channel, Shown> shown;
    private final Progress progress;
    private final List<Line> lines = new ArrayList<>();
    private final List<Line> all = new ArrayList<>();
    private long seen;

    LevelChanges(Function<Channel, Shown> shown, Progress progress) {
        this.shown = shown;
        this.progress = progress;
    }

    /** The times at which a channel rises or falls, fs. */
    static final class Times {
        private long[] fs = new long[FIRST_ROOM];
        private int size;

        private void add(long time) {
            if (size == fs.length) {
                fs = Arrays.copyOf(fs, 2 * size);
            }
            fs[size] = time;
            size++;
        }

        int size() {
            return size;
        }

        long get(int index) {
            return fs[index];
        }

        /** The index of the time that is nearest to another; there must be one. */
        int nearest(long time) {
            int found = Arrays.binarySearch(fs, 0, size, time);
            if (found >= 0) {
                return found;
            }
            int after = -found - 1;
            if (after == size || after > 0 && time - fs[after - 1] <= fs[after] - time) {
                return after - 1;
            }
            return after;
        }
    }

    /** A channel that is read. */
    static final class Line {
        private final Channel channel;
        private final Shown shown;
        private final Times rises = new Times();
        private final Times falls = new Times();
        private String value = "";

        private Line(Channel channel, Shown shown) {
            this.channel = channel;
            this.shown = shown;
        }

        Channel channel() {
            return channel;
        }

        private boolean isRead() {
            return shown != Shown.NOT_AT_ALL;
        }

        /** When the signal rises or falls, whether the channel inverts it or not. */
        Times times(boolean rising) {
            return rising != (shown == Shown.INVERTED) ? rises : falls;
        }

        private void become(long fs, String now) {
            if (value.equals("0") && now.equals("1") && rises.size() < MOST) {
                rises.add(fs);
            } else if (value.equals("1") && now.equals("0") && falls.size() < MOST) {
                falls.add(fs);
            }
            value = now;
        }
    }

    @Override
    public void channels(List<Channel> declared) {
        for (Channel channel : declared) {
            Line line = new Line(channel, shown.apply(channel));
            all.add(line);
            if (line.isRead()) {
                lines.add(line);
            }
        }
    }

    @Override
    public void initial(int channel, String value) {
        all.get(channel).value = SignalEdge.level(value);
    }

    @Override
    public void change(long fs, int channel, String value) {
        if (seen % CHECKED == 0) {
            progress.check();
            progress.report(-1, seen + " changes read");
        }
        seen++;
        Line line = all.get(channel);
        if (line.isRead()) {
            line.become(fs, SignalEdge.level(value));
        }
    }

    /** The channels that are wanted, in the order of the capture. */
    List<Line> lines() {
        return List.copyOf(lines);
    }
}
