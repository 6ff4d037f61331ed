package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;

/** Whatever a session's file holds, the session read is written and read again as it is. */
public final class SessionRoundTrip {
    private SessionRoundTrip() {}

    /**
     * Reads a session.
     *
     * @throws BadInput what is wrong in the file; the session is then one with defaults
     */
    public static void check(Path file) throws BadInput {
        SessionFile.Read read = SessionFile.read(file);
        Path again = file.resolveSibling("again.session.json");
        SessionFile.write(read.session(), again);
        SessionFile.Read other = SessionFile.read(again);
        assertThat(other.fault()).isEmpty();
        assertThat(other.session()).isEqualTo(read.session());
        if (read.fault().isPresent()) {
            throw read.fault().get();
        }
    }

    /**
     * Saves a session in which one net was asked about.
     *
     * @throws BadInput when it cannot be written
     */
    public static void write(String net, Path file) throws BadInput {
        Session first = Session.FIRST;
        SessionFile.write(
                new Session(
                        first.file(),
                        first.questions(),
                        first.shown(),
                        first.place(),
                        first.dark(),
                        first.lists(),
                        first.textSize(),
                        first.recentFiles(),
                        List.of(net),
                        first.recentPads()),
                file);
    }
}
