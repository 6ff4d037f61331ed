package padward.capture;

import java.util.List;

/** Takes what a capture states, in the order of time. */
interface Changes {
    /** The channels, before anything else; the others name them by their place among these. */
    void channels(List<Channel> all);

    /** The value of a channel before the first changes. */
    void initial(int channel, String value);

    /** A value that a channel has from a time on, fs; it may be the one that it had. */
    void change(long fs, int channel, String value);
}
