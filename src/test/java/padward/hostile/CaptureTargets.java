package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.Progress;
import padward.capture.CaptureChannelDelay;
import padward.capture.Captures;
import padward.capture.Channel;
import padward.capture.ChannelDifferences;
import padward.capture.ChannelDifferences.Shown;
import padward.capture.Deskew;
import padward.capture.Trace;
import padward.fabric.delay.Delay;
import padward.fabric.pad.EdgeDelays;

/** Captures of instruments and traces of simulations. */
final class CaptureTargets {
    private static final List<String> WORDS =
            List.of(
                    "$var",
                    "$end",
                    "$scope",
                    "$upscope",
                    "$timescale",
                    "$enddefinitions",
                    "$dumpvars",
                    "$dumpall",
                    "$dumpoff",
                    "$dumpon",
                    "$comment",
                    "wire",
                    "reg",
                    "real",
                    "1ns",
                    "100 ps",
                    "#10",
                    "b01x ",
                    "0!",
                    "1!",
                    "1\"",
                    "xz",
                    "r1.5 ",
                    "[3:0]",
                    "[0]",
                    "top",
                    "clk");

    private static final Delay SOME = new Delay(1000, 2000);
    private static final Delay OTHER = new Delay(1400, 2900);
    private static final int SAMPLE_PS = 100;
    private static final int KINDS = 5;
    private static final int MOST_WRITTEN = 1000;

    private final Targets targets;
    private final World world;

    CaptureTargets(Targets targets, World world) {
        this.targets = targets;
        this.world = world;
    }

    void add() throws IOException {
        targets.add(
                "vcd",
                "in.vcd",
                WORDS,
                f -> Captures.deskew(f, world.file("out.vcd"), CaptureTargets::deskew));
        targets.add(
                "samples",
                "in.capture.csv",
                List.of("time_ns", "Time [us]", "time_fs", "time", "x", "0", "1"),
                f -> Captures.deskew(f, world.file("out.csv"), CaptureTargets::deskew));
        targets.add("trace", "in.trace.vcd", WORDS, this::trace);
        targets.add("differences-vcd", "in.differences.vcd", WORDS, CaptureTargets::differences);
        targets.add(
                "differences-csv",
                "in.differences.csv",
                List.of("time_ns", "0", "1"),
                CaptureTargets::differences);
    }

    /** Lines of every kind: calculated, measured, with edges apart, later, and of unknown delay. */
    private static Deskew deskew(List<Channel> channels) {
        Map<String, CaptureChannelDelay> delays = new HashMap<>();
        for (int i = 0; i < channels.size(); i++) {
            CaptureChannelDelay calculated =
                    CaptureChannelDelay.calculated(SOME, 300 * i, 20 * (i % 3));
            CaptureChannelDelay apart = calculated.withEdges(new EdgeDelays(SOME, OTHER));
            switch (i % KINDS) {
                case 0 -> delays.put(channels.get(i).name(), CaptureChannelDelay.of(SOME));
                case 1 -> delays.put(channels.get(i).name(), apart);
                case 2 -> delays.put(channels.get(i).name(), apart.measured(3000, SAMPLE_PS));
                case 3 ->
                        delays.put(
                                channels.get(i).name(), calculated.measured(2500, 0).later(8000));
                default -> {
                    // nothing is known of it
                }
            }
        }
        int sample = channels.size() % 2 * SAMPLE_PS;
        return channels.size() % 3 == 1
                ? Deskew.independent(delays, sample, 700)
                : Deskew.oneDie(delays, sample, 700, 7.5);
    }

    private static void differences(Path file) throws Exception {
        ChannelDifferences.read(
                file,
                c ->
                        switch (Math.floorMod(c.own().hashCode(), KINDS)) {
                            case 0 -> Shown.NOT_AT_ALL;
                            case 1 -> Shown.INVERTED;
                            default -> Shown.AS_IT_IS;
                        },
                SAMPLE_PS,
                Progress.NONE);
    }

    /** What was read is written, and then says the same at every clock. */
    private void trace(Path file) throws Exception {
        Trace trace = Trace.read(file, CaptureTargets::named);
        List<String> names = new ArrayList<>();
        trace.signals().forEach(s -> names.add(s.replaceAll("\\s", "_")));
        boolean apart = new HashSet<>(names).size() == names.size() && !names.contains("clock");
        if (!apart || names.size() > MOST_WRITTEN) {
            return;
        }
        Path out = world.file("again.trace.vcd");
        trace.write(out, List.of("clock"), "made of another");
        Trace again =
                Trace.read(
                        out,
                        (scopes, own) ->
                                own.equals("clock")
                                        ? Optional.empty()
                                        : Optional.of(new Trace.Named(own, 1)));
        assertThat(again.signals()).isEqualTo(names);
        for (int i = 0; i < trace.moments().size() && !names.isEmpty(); i++) {
            assertThat(again.moments().get(2 * i)).isEqualTo(trace.moments().get(i));
        }
    }

    private static Optional<Trace.Named> named(List<String> scopes, String own) {
        return own.startsWith("_")
                ? Optional.empty()
                : Optional.of(new Trace.Named(own, scopes.size() % 3));
    }
}
