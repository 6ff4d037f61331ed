package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.fabric.delay.Delay;

/** What is deskewed is read back by a reader that knows the standard only. */
class ReadBackTest {
    private static final BigInteger PS = BigInteger.valueOf(1000);

    @TempDir private Path folder;

    private record Change(long ps, int channel, String value) {}

    private static final List<String> DECLARED =
            List.of("wire 1 ! a", "wire 8 \" bus [7:0]", "real 64 # level", "reg 1 $% clk");

    private static String capture(List<Change> changes) {
        StringBuilder text =
                new StringBuilder(
                        "$date today $end\n$timescale 1\n ps $end\n$scope module top $end\n");
        DECLARED.forEach(d -> text.append("$var ").append(d).append(" $end\n"));
        text.append("$upscope $end $enddefinitions $end\n$dumpvars x! bx \" r0 # x$% $end\n");
        for (Change change : changes) {
            String code = DECLARED.get(change.channel()).split(" ")[2];
            boolean scalar = change.channel() == 0 || change.channel() == 3;
            text.append('#').append(change.ps()).append('\n');
            text.append(change.value()).append(scalar ? "" : " ").append(code).append('\n');
        }
        return text.toString();
    }

    private static List<Change> drawn(Random random) {
        List<Change> result = new ArrayList<>();
        long ps = 0;
        for (int i = 0; i < 400; i++) {
            ps += random.nextInt(3000);
            int channel = random.nextInt(4);
            String value =
                    switch (channel) {
                        case 1 -> "b" + Integer.toBinaryString(random.nextInt(256));
                        case 2 -> "r" + random.nextInt(100) / 8.0;
                        default -> String.valueOf("01xz".charAt(random.nextInt(4)));
                    };
            result.add(new Change(ps, channel, value));
        }
        return result;
    }

    /** Each channel keeps its changes and their order; all are later by what the delays say. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void everyChangeIsThereWhereTheDelaysPutIt(long seed) throws Exception {
        Random random = new Random(seed);
        int samplePs = 100;
        Map<String, Delay> delays =
                Map.of(
                        "top.a", new Delay(2000, 2000),
                        "top.bus[7:0]", new Delay(5000, 5000),
                        "top.level", new Delay(7000, 7000),
                        "top.clk", new Delay(1000, 1000));
        Map<String, CaptureChannelDelay> channels = new HashMap<>();
        delays.forEach((name, delay) -> channels.put(name, CaptureChannelDelay.of(delay)));
        List<Change> changes = drawn(random);
        String before = capture(changes);
        Path in = Files.writeString(folder.resolve("in.vcd"), before);
        Path out = folder.resolve("out.vcd");
        List<String> names = new ArrayList<>();
        Captures.deskew(
                in,
                out,
                found -> {
                    found.forEach(c -> names.add(c.name()));
                    Map<String, CaptureChannelDelay> mine = new HashMap<>();
                    names.forEach(n -> mine.put(n, channels.get(plain(n))));
                    return Deskew.independent(mine, samplePs, 0);
                });
        assertThat(names).hasSize(4);
        Map<String, VcdReader.Variable> was = VcdReader.read(before);
        Map<String, VcdReader.Variable> is = VcdReader.read(Files.readString(out));
        assertThat(is.keySet()).containsAll(was.keySet());
        for (String name : was.keySet()) {
            List<VcdReader.Change> old = was.get(name).changes();
            List<VcdReader.Change> now = is.get(name).changes();
            assertThat(now.stream().map(VcdReader.Change::value))
                    .as(name)
                    .isEqualTo(old.stream().map(VcdReader.Change::value).toList());
            // The latest line stands still, the others come later by what they were early.
            BigInteger later = BigInteger.valueOf(7000 - delays.get(name).fastPs()).multiply(PS);
            for (int i = 1; i < old.size(); i++) {
                assertThat(now.get(i).fs().subtract(old.get(i).fs())).as(name).isEqualTo(later);
            }
        }
    }

    private static String plain(String name) {
        return name.replace(" ", "");
    }

    /** The reader is no pushover. */
    @Test
    void theReaderRefusesWhatTheStandardDoesNotHave() {
        String head = "$timescale 1 ns $end $var wire 1 ! a $end $enddefinitions $end ";
        assertThat(VcdReader.read(head + "#5 1! #7 0!").get("a").changes()).hasSize(2);
        for (String bad : List.of("#5 1\"", "#5 1! #4 0!", "#5 2!", "#5 b10 !", "$dumpall 1!")) {
            assertThatThrownBy(() -> VcdReader.read(head + bad))
                    .isInstanceOf(IllegalArgumentException.class);
        }
    }
}
