package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.fabric.delay.Delay;

/** Captures made with known delays are deskewed within the stated uncertainty. */
class CapturesTest {
    /**
     * The example of IEEE 1364-2005, clause 18.2 (body from memory; its date and version are left
     * out): 10 times, 31 changes, 4 dumps, 1 comment.
     */
    private static final String STANDARD =
            """
            $date June 26, 1989 10:05:41 $end
            $timescale 1 ns $end
            $scope module top $end
            $scope module m1 $end
            $var trireg 1 *@ net1 $end
            $var trireg 1 *# net2 $end
            $var trireg 1 *$ net3 $end
            $upscope $end
            $scope task t1 $end
            $var reg 32 (k accumulator[31:0] $end
            $var integer 32 {2 index $end
            $upscope $end
            $upscope $end
            $enddefinitions $end
            $comment
            $dumpvars was executed at time '#500'.
            All initial values are dumped at this time.
            $end
            #500
            $dumpvars
            x*@
            x*#
            x*$
            bx (k
            bx {2
            $end
            #505
            0*@
            1*#
            1*$
            b10zx1110x11100 (k
            b1111000101z01x {2
            #510
            0*$
            #520
            1*$
            #530
            0*$
            bz (k
            #535
            $dumpall 0*@ 1*# 0*$
            bz (k
            b1111000101z01x {2
            $end
            #540
            1*$
            #1000
            $dumpoff
            x*@
            x*#
            x*$
            bx (k
            bx {2
            $end
            #2000
            $dumpon
            z*@
            1*#
            0*$
            b0 (k
            bx {2
            $end
            #2010
            1*$
            """;

    @TempDir private Path folder;

    private String deskewed(String name, String capture, Deskew deskew) throws Exception {
        Path in = Files.writeString(folder.resolve("in." + name), capture);
        Path out = folder.resolve("out." + name);
        Captures.deskew(in, out, names -> deskew);
        return Files.readString(out);
    }

    @Test
    void theStandardsExampleIsUnchanged() throws Exception {
        String back = deskewed("vcd", STANDARD, Deskew.NONE);
        assertThat(back.lines().filter(l -> l.startsWith("#"))).hasSize(10);
        assertThat(back.lines().filter(l -> l.startsWith("$dump"))).hasSize(4);
        assertThat(back.lines().filter(l -> l.startsWith("$comment"))).hasSize(1);
        String body = back.substring(back.indexOf("$enddefinitions"));
        // All but the mark that was added, which is 0 throughout.
        assertThat(body.lines().filter(l -> l.matches("[01xzb].*") && !l.endsWith("!")))
                .hasSize(31);
        assertThat(changes(back)).isEqualTo(changes(STANDARD));
    }

    @Test
    void vectorsAndDumpsAreShiftedToo() throws Exception {
        Map<String, Delay> delays =
                Map.of(
                        "top.t1.accumulator[31:0]", new Delay(1000, 1000),
                        "top.m1.net1", new Delay(6000, 6000));
        String back = deskewed("vcd", STANDARD, Deskew.independent(channels(delays), 0, 0));
        assertThat(changes(back).get("(k"))
                .containsSubsequence("510000 b10zx1110x11100", "535000 bz");
        assertThat(changes(back).get("*@")).contains("505000 0");
    }

    /** Changes by identifier, as time in ps and value; of equal neighbours the first. */
    private static Map<String, List<String>> changes(String vcd) {
        Map<String, List<String>> result = new HashMap<>();
        long scale = unitFs(vcd) / 1000;
        long time = 0;
        String[] words = vcd.substring(vcd.indexOf("$enddefinitions $end") + 20).split("\\s+");
        for (int i = 0; i < words.length; i++) {
            String word = words[i];
            if (word.equals("$comment")) {
                while (!words[i].equals("$end")) {
                    i++;
                }
            } else if (word.startsWith("#")) {
                time = Long.parseLong(word.substring(1)) * scale;
            } else if (!word.isEmpty() && !word.startsWith("$")) {
                boolean vector = word.startsWith("b");
                String id = vector ? words[++i] : word.substring(1);
                String value = vector ? word : word.substring(0, 1);
                if (!id.equals("!")) {
                    result.computeIfAbsent(id, k -> new ArrayList<>()).add(time + " " + value);
                }
            }
        }
        return result;
    }

    private static long unitFs(String vcd) {
        String[] words = vcd.substring(vcd.indexOf("$timescale") + 10).strip().split("\\s+");
        String unit = words[0] + words[1];
        long fs = unit.contains("fs") ? 1 : unit.contains("ps") ? 1000 : 1_000_000;
        return Long.parseLong(unit.replaceAll("\\D.*", "")) * fs;
    }

    private static Map<String, CaptureChannelDelay> channels(Map<String, Delay> delays) {
        Map<String, CaptureChannelDelay> result = new HashMap<>();
        delays.forEach((name, delay) -> result.put(name, CaptureChannelDelay.of(delay)));
        return result;
    }

    private record Edge(long ps, int channel, String value) {}

    /** True edges, each line's delay somewhere between its corners, sampled; then deskewed. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void knownDelaysAreRemoved(long seed) throws Exception {
        Random random = new Random(seed);
        int channels = 2 + random.nextInt(6);
        int samplePs = random.nextBoolean() ? 2000 : 500;
        Map<String, Delay> delays = new HashMap<>();
        int[] real = new int[channels];
        for (int i = 0; i < channels; i++) {
            int fast = random.nextInt(9000);
            int slow = fast + random.nextInt(4000);
            real[i] = fast + random.nextInt(slow - fast + 1);
            delays.put("d" + i, new Delay(fast, slow));
        }
        List<Edge> truth = new ArrayList<>();
        List<Edge> captured = new ArrayList<>();
        for (int i = 0; i < channels; i++) {
            long ps = 20_000;
            for (int k = 0; k < 40; k++) {
                ps += samplePs + 1 + random.nextInt(30_000);
                String value = k % 2 == 0 ? "1" : "0";
                truth.add(new Edge(ps, i, value));
                // The first sample at which the change is seen.
                long stamp = (ps + real[i]) / samplePs * samplePs + samplePs;
                captured.add(new Edge(stamp, i, value));
            }
        }
        captured.sort(Comparator.comparingLong(Edge::ps));
        Deskew deskew = Deskew.independent(channels(delays), samplePs, 0);
        Map<Integer, List<Long>> vcd = readVcd(deskewed("vcd", vcd(channels, captured), deskew));
        Map<Integer, List<Long>> csv = readCsv(deskewed("csv", csv(channels, captured), deskew));
        Deskew rounded = deskew.roundedTo(1000);
        // All stand level with the latest line: how late its middle is.
        double level =
                delays.values().stream()
                        .mapToDouble(d -> (d.fastPs() + d.slowPs() + samplePs) / 2.0)
                        .max()
                        .orElseThrow();
        for (int i = 0; i < channels; i++) {
            int channel = i;
            List<Edge> wanted = truth.stream().filter(e -> e.channel() == channel).toList();
            Deskew.Shift shift = rounded.edges("d" + i).either();
            double uncertain = shift.ownFs() + shift.toleranceFs();
            assertThat(vcd.get(i)).hasSize(wanted.size());
            for (int k = 0; k < wanted.size(); k++) {
                double off = vcd.get(i).get(k) - (wanted.get(k).ps() + level) * 1000;
                assertThat(Math.abs(off)).isLessThanOrEqualTo(uncertain);
                // A table has no unit that its times are rounded to.
                assertThat(Math.abs(csv.get(i).get(k) - vcd.get(i).get(k))).isLessThan(1000);
            }
        }
    }

    /**
     * A channel that is not on the sheet does not stay while the others move. Line d0 is 2.4 to 4.0
     * ns late; its edge is stamped 10.0 and that of a board's signal 12.0: it left 4.4 to 6.0 ns
     * before.
     */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void channelsOfUnknownDelayAreShiftedToo(boolean independent) throws Exception {
        List<Edge> captured = List.of(new Edge(10_000, 0, "1"), new Edge(12_000, 1, "1"));
        Map<String, CaptureChannelDelay> delays = channels(Map.of("d0", new Delay(2400, 4000)));
        Deskew deskew =
                independent ? Deskew.independent(delays, 0, 0) : Deskew.oneDie(delays, 0, 0, 0);
        for (String form : List.of("vcd", "csv")) {
            String text = form.equals("vcd") ? vcd(2, captured) : csv(2, captured);
            String back = deskewed(form, text, deskew);
            Map<Integer, List<Long>> read = form.equals("vcd") ? readVcd(back) : readCsv(back);
            assertThat(read.get(1).get(0) - read.get(0).get(0)).isEqualTo(5_200_000);
        }
        assertThat(deskew.uncertaintyFs("d0", "d1")).isEqualTo(800_000);
        assertThat(deskewed("vcd", vcd(2, captured), deskew))
                .contains("Times are when the changes left the nets' drivers, plus 3.200 ns.");
    }

    /** Lines of one die are late together: 0.2 ns between their edges are certain. */
    @Test
    void linesOfOneDieKeepTheirOrder() {
        Map<String, CaptureChannelDelay> delays =
                channels(Map.of("d0", new Delay(2400, 4000), "d1", new Delay(2500, 4150)));
        Deskew old = Deskew.independent(delays, 0, 0);
        assertThat(old.uncertaintyFs("d0", "d1")).isEqualTo(1_625_000);
        Deskew die = Deskew.oneDie(delays, 0, 0, 0);
        assertThat(die.uncertaintyFs("d0", "d1")).isEqualTo(25_000);
        assertThat(die.commonFs()).isEqualTo(825_000);
        assertThat(die.shiftFs("d0", SignalEdge.TO_HIGH) - die.shiftFs("d1", SignalEdge.TO_HIGH))
                .isEqualTo(125_000);
        // 5 % of 4 ns, the mean of both at the slow corner.
        Deskew local = Deskew.oneDie(delays, 0, 0, 5);
        assertThat(local.uncertaintyFs("d0", "d1")).isBetween(225_000L, 232_000L);
    }

    /** Measured delays leave nothing of the die's corner. */
    @Test
    void measuredDelaysArePreferred() {
        CaptureChannelDelay one = CaptureChannelDelay.of(new Delay(2400, 4000)).measured(3000, 40);
        CaptureChannelDelay other =
                CaptureChannelDelay.of(new Delay(2400, 4000)).measured(3300, 40);
        Deskew deskew = Deskew.oneDie(Map.of("a", one, "b", other), 100, 0, 5);
        assertThat(
                        deskew.shiftFs("a", SignalEdge.TO_HIGH)
                                - deskew.shiftFs("b", SignalEdge.TO_HIGH))
                .isEqualTo(300_000);
        assertThat(deskew.uncertaintyFs("a", "b")).isEqualTo(180_000);
    }

    /**
     * A general reader that expands a capture does so at its unit: a tenth of the sampling period
     * is enough, and never coarser than the capture.
     */
    @ParameterizedTest
    @CsvSource({
        "1 ns, 2000, 100 ps", "1 ns, 10000, 1 ns", "1 ns, 200000, 1 ns", "1 ns, 0, 100 ps",
        "10 ns, 10000, 1 ns", "1 ps, 2000, 1 ps", "1 ps, 0, 1 ps", "1 us, 0, 100 ns",
        "1 ns, 5, 100 fs"
    })
    void theUnitIsTheCoarsestThatIsFineEnough(String unit, int samplePs, String written)
            throws Exception {
        String capture =
                vcd(2, List.of(new Edge(500, 0, "1"), new Edge(1200, 1, "1"))).replace("1ps", unit);
        Map<String, CaptureChannelDelay> delays =
                channels(Map.of("d0", new Delay(2401, 4002), "d1", new Delay(3, 8)));
        String back = deskewed("vcd", capture, Deskew.oneDie(delays, samplePs, 0, 5));
        assertThat(back).startsWith("$timescale " + written + " $end");
    }

    /** Names are text in UTF-8, although the file is copied byte for byte. */
    @Test
    void namesOfChannelsAreUtf8() throws Exception {
        String capture = vcd(1, List.of(new Edge(500, 0, "1"))).replace("d0", "größe");
        List<String> seen = new ArrayList<>();
        Path in = Files.writeString(folder.resolve("in.vcd"), capture);
        Path out = folder.resolve("out.vcd");
        Captures.deskew(
                in,
                out,
                names -> {
                    names.forEach(n -> seen.add(n.own()));
                    return Deskew.NONE;
                });
        assertThat(seen).containsExactly("größe");
        assertThat(Files.readString(out)).contains("$var wire 1 ! größe $end");
    }

    /** Where two channels' changes come back in the wrong order, the mark is set. */
    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13, 14, 15, 16})
    void aWrongOrderIsMarkedUncertain(long seed) throws Exception {
        Random random = new Random(seed);
        Map<String, Delay> delays =
                Map.of("d0", new Delay(1000, 3000), "d1", new Delay(2000, 6000));
        Deskew deskew = Deskew.independent(channels(delays), 0, 0);
        int wrong = 0;
        for (int k = 0; k < 60; k++) {
            long first = 50_000;
            long second = first + 1 + random.nextInt(4000);
            List<Edge> captured = new ArrayList<>();
            captured.add(new Edge(first + 1000 + random.nextInt(2001), 0, "1"));
            captured.add(new Edge(second + 2000 + random.nextInt(4001), 1, "1"));
            captured.sort(Comparator.comparingLong(Edge::ps));
            String back = deskewed("vcd", vcd(2, captured), deskew);
            Map<Integer, List<Long>> read = readVcd(back);
            if (read.get(0).get(0) >= read.get(1).get(0)) {
                wrong++;
                assertThat(back).contains("1!u0");
            }
        }
        assertThat(wrong).isPositive();
    }

    private static String vcd(int channels, List<Edge> edges) {
        StringBuilder text = new StringBuilder("$timescale 1ps $end\n");
        for (int i = 0; i < channels; i++) {
            text.append("$var wire 1 ").append((char) ('!' + i)).append(" d" + i + " $end\n");
        }
        text.append("$enddefinitions $end\n#0\n$dumpvars\n");
        for (int i = 0; i < channels; i++) {
            text.append('0').append((char) ('!' + i)).append('\n');
        }
        text.append("$end\n");
        for (Edge edge : edges) {
            text.append('#').append(edge.ps()).append('\n');
            text.append(edge.value()).append((char) ('!' + edge.channel())).append('\n');
        }
        return text.toString();
    }

    private static String csv(int channels, List<Edge> edges) {
        StringBuilder text = new StringBuilder("time_ns");
        String[] now = new String[channels];
        for (int i = 0; i < channels; i++) {
            text.append(",d" + i);
            now[i] = "0";
        }
        text.append("\r\n0,").append(String.join(",", now)).append("\r\n");
        for (Edge edge : edges) {
            now[edge.channel()] = edge.value();
            text.append(edge.ps() / 1000).append('.');
            text.append(String.format("%03d,", edge.ps() % 1000));
            text.append(String.join(",", now)).append("\r\n");
        }
        return text.toString();
    }

    /** Times of changes by channel, fs. */
    private static Map<Integer, List<Long>> readVcd(String text) {
        Map<Integer, List<Long>> result = new HashMap<>();
        long unit = unitFs(text);
        long fs = 0;
        boolean dump = false;
        for (String line : text.substring(text.indexOf("$enddefinitions")).split("\n")) {
            if (line.startsWith("#")) {
                fs = Long.parseLong(line.substring(1)) * unit;
            } else if (line.startsWith("$dump")) {
                dump = true;
            } else if (line.equals("$end")) {
                dump = false;
            } else if (!dump && line.matches("[01].")) {
                int channel = line.charAt(1) - '!';
                result.computeIfAbsent(channel, c -> new ArrayList<>()).add(fs);
            }
        }
        return result;
    }

    private static Map<Integer, List<Long>> readCsv(String text) {
        Map<Integer, List<Long>> result = new HashMap<>();
        String[] before = null;
        String[] rows = text.split("\r\n");
        for (int r = 1; r < rows.length; r++) {
            String[] cells = rows[r].split(",");
            long fs = new BigDecimal(cells[0]).movePointRight(6).longValueExact();
            for (int i = 1; before != null && i < cells.length - 1; i++) {
                if (!cells[i].equals(before[i])) {
                    result.computeIfAbsent(i - 1, c -> new ArrayList<>()).add(fs);
                }
            }
            before = cells;
        }
        return result;
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "#505; #400; line 27; times that do not fall",
                "1*#; 1?; line 29; an identifier that is declared",
                "$timescale 1 ns; $timescale 3 ns; line 2; a time scale",
                "#2010; #x; line; # and a time"
            })
    void faultsAreReported(String sound, String broken, String place, String expected)
            throws Exception {
        Path in = Files.writeString(folder.resolve("in.vcd"), STANDARD.replace(sound, broken));
        Path out = folder.resolve("out.vcd");
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class, () -> Captures.deskew(in, out, n -> Deskew.NONE));
        assertThat(fault).hasMessageContaining(place).hasMessageContaining(expected);
        assertThat(out).doesNotExist();
    }

    @Test
    void aByteOrderMarkIsSkipped() throws Exception {
        String back = deskewed("csv", "\uFEFF\"Time, ns\",a\r\n0,0\r\n5,1\r\n", Deskew.NONE);
        assertThat(back).startsWith("\"Time, ns\",a,order_uncertain\r\n0,0,0\r\n5,1,0");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '~',
            value = {
                "time_ns,a|\"0,1; fields as RFC 4180 writes them",
                "time_ns,a|0,0|1e2000000000,1; a time up to 9000 seconds",
                "time_ns,a|0,0|1e30000000,1; a time up to 9000 seconds",
                "time_s,a|0,0|9000.000000001,1; a time up to 9000 seconds",
                "time_s,a|0,0|9223.3,1; a time up to 9000 seconds",
                "time_fs,a|0,0|9000000000000000001,1; a time up to 9000 seconds",
                "time_ns,a|0,0|NaN,1; a time up to 9000 seconds",
                "time_ns,a|0,0|1; 2 cells",
                "time (Ms),a|0,0; in.csv, at line 1: expected a head of the time column with the unit s",
                "time_min,a|0,0; with the unit s, ms, us, ns, ps or fs",
                "time [h],a|0,0; found time [h]",
                "time [1e-9 s],a|0,0; found time [1e-9 s]",
                "time_ns,J1.3,J1.4, J1.3 |0,0,0,0; in.csv, at line 1: expected names used once, found J1.3 twice",
                "time_ns,\u0000|0,\uDCFF; text in UTF-8"
            })
    void faultsOfTablesAreReported(String rows, String expected) throws Exception {
        byte[] bytes = rows.replace('|', '\n').getBytes(StandardCharsets.UTF_8);
        for (int i = 0; i < bytes.length; i++) {
            // A lone surrogate is encoded as a question mark: make it a byte that is not UTF-8.
            bytes[i] = bytes[i] == '?' ? (byte) 0xff : bytes[i];
        }
        Path in = Files.write(folder.resolve("in.csv"), bytes);
        Path out = folder.resolve("out.csv");
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class, () -> Captures.deskew(in, out, n -> Deskew.NONE));
        assertThat(fault).hasMessageContaining("in.csv").hasMessageContaining(expected);
        assertThat(out).doesNotExist();
    }

    @ParameterizedTest
    @CsvSource(
            nullValues = "none",
            value = {
                "time,time",
                "Time stamp,Time stamp",
                "time_stamp,time_stamp",
                "t,t",
                "time (),time ()",
                "s,none",
                "time_s,none",
                "Time [us],none",
                "Zeit in ms,none",
                "Time(µs),none",
                "time/ns,none"
            })
    void aHeadWithoutAUnitIsSaid(String head, String said) throws Exception {
        Path in = Files.writeString(folder.resolve("in.csv"), head + ",a\n0,0\n1,1\n");
        Deskewed done = Captures.deskew(in, folder.resolve("out.csv"), n -> Deskew.NONE);
        assertThat(done.withoutUnit()).isEqualTo(Optional.ofNullable(said));
    }

    @Test
    void signalsOfOneFullNameAreRefused() throws Exception {
        String text = STANDARD.replace("net3", "net1");
        Path in = Files.writeString(folder.resolve("in.vcd"), text);
        Path out = folder.resolve("out.vcd");
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class, () -> Captures.deskew(in, out, n -> Deskew.NONE));
        assertThat(fault)
                .hasMessageContaining("line 7: expected names used once, found top.m1.net1 twice");
        assertThat(out).doesNotExist();
    }
}
