package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.capture.ChannelDifferences.Shown;

/** What captures of one signal on several channels say of these. */
class ChannelDifferencesTest {
    @TempDir private Path folder;

    private List<ChannelSkew> read(String name, String text, int samplePs) throws Exception {
        Path file = Files.writeString(folder.resolve(name), text);
        return ChannelDifferences.read(
                file,
                c -> c.own().equals("x") ? Shown.NOT_AT_ALL : Shown.AS_IT_IS,
                samplePs,
                Progress.NONE);
    }

    private static String vcd(String body) {
        return "$timescale 1 ps $end\n$scope module t $end\n$var wire 1 a d0 $end\n"
                + "$var wire 1 b d1 $end\n$var wire 1 c x $end\n$upscope $end\n"
                + "$enddefinitions $end\n$dumpvars\n0a b0 b xc\n$end\n"
                + body;
    }

    @Test
    void bothEdgesCount() throws Exception {
        List<ChannelSkew> found =
                read("a.vcd", vcd("#1000\n1a\n1c\n#1300\nb1 b\n#9000\n0a\n#9100\n0b\n"), 0);
        assertThat(found).extracting(d -> d.channel().name()).containsExactly("t.d0", "t.d1");
        assertThat(found).extracting(ChannelSkew::ps).containsExactly(0, 200);
        // 300 and 100 vary by 200.
        assertThat(found).extracting(ChannelSkew::tolerancePs).containsExactly(0, 100);
        assertThat(found.get(0).changes()).isEqualTo(2);
    }

    /** A pad that inverts falls when the others rise. */
    @Test
    void anInvertedChannelIsComparedLikeTheOthers() throws Exception {
        String body = "#10\n1b\n#1000\n1a\n#1300\n0b\n#9000\n0a\n#9100\n1b\n";
        Path file = Files.writeString(folder.resolve("a.vcd"), vcd(body));
        List<ChannelSkew> found =
                ChannelDifferences.read(
                        file,
                        c ->
                                switch (c.own()) {
                                    case "d0" -> Shown.AS_IT_IS;
                                    case "d1" -> Shown.INVERTED;
                                    default -> Shown.NOT_AT_ALL;
                                },
                        0,
                        Progress.NONE);
        assertThat(found).extracting(ChannelSkew::ps).containsExactly(0, 200);
        assertThat(found.get(0).changes()).isEqualTo(2);
    }

    @Test
    void aTableOfSamplesIsRead() throws Exception {
        List<ChannelSkew> found =
                read("a.csv", "time_ns,d0,d1\n0,0,1\n1,0,0\n2,0,1\n3,1,1\n30,1,0\n31,0,0\n", 1000);
        assertThat(found).extracting(ChannelSkew::ps).containsExactly(0, -1000);
        assertThat(found).extracting(ChannelSkew::tolerancePs).containsExactly(500, 500);
    }

    /** The capture begins and ends between the same change of two channels; one misses a pulse. */
    @Test
    void onlyWhatAllShowCounts() throws Exception {
        String body =
                "#100\n1b\n#200\n0b\n#10000\n1b\n#10050\n1a\n#20000\n0b\n#20050\n0a\n#40000\n1b\n"
                        + "#60000\n0b\n";
        List<ChannelSkew> found = read("a.vcd", vcd(body), 0);
        assertThat(found).extracting(ChannelSkew::ps).containsExactly(0, -50);
        assertThat(found.get(0).changes()).isEqualTo(2);
    }

    /** Half a period apart, nobody can say which of two channels is the later one. */
    @Test
    void whatCannotBeToldIsRefused() throws Exception {
        StringBuilder body = new StringBuilder();
        for (int t = 0; t < 100; t++) {
            body.append("#").append(1000 + 400 * t).append("\n").append(1 - t % 2).append("a\n");
            body.append("#").append(1300 + 400 * t).append("\n").append(1 - t % 2).append("b\n");
        }
        assertThatExceptionOfType(BadInput.class)
                .isThrownBy(() -> read("a.vcd", vcd(body.toString()), 0))
                .withMessageContaining("a quarter of its period");
        assertThatExceptionOfType(BadInput.class)
                .isThrownBy(() -> read("b.vcd", vcd("#10\n1a\n"), 0))
                .withMessageContaining("channel t.d1")
                .withMessageContaining("changes between 0 and 1");
        assertThatExceptionOfType(BadInput.class)
                .isThrownBy(() -> read("c.csv", "time,d0,x\n0,0,1\n", 0))
                .withMessageContaining("two channels or more");
        assertThatExceptionOfType(BadInput.class).isThrownBy(() -> read("d.vcd", "no capture", 0));
        assertThatExceptionOfType(BadInput.class)
                .isThrownBy(() -> read("e.vcd", vcd("#10\n1?\n"), 0));
    }

    @Test
    void readingCanBeStopped() throws Exception {
        Path file = Files.writeString(folder.resolve("s.vcd"), vcd("#10\n1a\n"));
        Progress stopped =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {}

                    @Override
                    public boolean cancelled() {
                        return true;
                    }
                };
        assertThatExceptionOfType(CancellationException.class)
                .isThrownBy(() -> ChannelDifferences.read(file, c -> Shown.AS_IT_IS, 0, stopped));
    }
}
