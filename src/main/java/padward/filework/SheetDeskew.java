package padward.filework;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import padward.base.BadInput;
import padward.base.Progress;
import padward.capture.CaptureChannelDelay;
import padward.capture.Captures;
import padward.capture.Channel;
import padward.capture.Deskew;
import padward.capture.Deskewed;
import padward.format.source.FileLimits;

/**
 * Deskews captures by the delays of a bench sheet.
 *
 * @param sheet the sheet as CSV
 * @param named lines of the sheet for channels that have other names
 * @param samplePs time between two samples of the instrument, ps; 0 to ignore sampling
 * @param clocksMhz frequencies of clocks by whose cycles lines are late
 * @param independent whether each line is anywhere between its corners, apart from the others
 * @param localPercent by how much two routes of the same delay can differ on one die, per cent
 * @param othersPs delay of the channels that are not on the sheet, ps
 */
public record SheetDeskew(
        Path sheet,
        Map<String, String> named,
        int samplePs,
        Map<String, Double> clocksMhz,
        boolean independent,
        double localPercent,
        int othersPs) {
    /** Copies the maps. */
    public SheetDeskew {
        named = Map.copyOf(named);
        clocksMhz = Map.copyOf(clocksMhz);
    }

    /**
     * What was done.
     *
     * @param done how the capture was written
     * @param found the lines of the channels, by the channels' full names
     * @param used by how much each channel was shifted
     */
    public record Result(Deskewed done, Map<String, SheetLines.Line> found, Deskew used) {
        /** Copies the lines. */
        public Result {
            found = Map.copyOf(found);
        }

        /** How many channels are on the sheet, of how many. */
        public String counts() {
            int all = done.channels().size();
            return found.size() + " of " + all + (all == 1 ? " channel" : " channels");
        }
    }

    /**
     * Writes a capture deskewed, whole or not at all.
     *
     * @throws BadInput when a file cannot be read or written, or a name means nothing in it
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public Result write(Path capture, Path output, Progress progress) throws BadInput {
        SheetLines lines = lines();
        checkClocks(lines);
        Deskew[] used = {Deskew.NONE};
        Map<String, SheetLines.Line> found = new HashMap<>();
        Deskewed done =
                Captures.deskew(
                        capture,
                        output,
                        channels -> {
                            found.putAll(found(channels, lines));
                            used[0] = deskew(found);
                            return used[0];
                        },
                        progress);
        return new Result(done, found, used[0]);
    }

    /** Period of the clock by whose cycles a line is late, ps; 0 when it is not stated. */
    public static int periodPs(SheetLines.Line line, Map<String, Double> clocksMhz) {
        Double mhz = clocksMhz.get(line.lateClock());
        return mhz == null ? 0 : (int) Math.round(1e6 / mhz);
    }

    /**
     * Each stated clock is one of the sheet, and the cycles of no line exceed what a delay can be.
     */
    private void checkClocks(SheetLines lines) throws BadInput {
        for (Map.Entry<String, Double> clock : clocksMhz.entrySet()) {
            int cycles = lines.mostCycles(clock.getKey());
            if (cycles == 0) {
                throw new BadInput(
                        "--clock-mhz",
                        "",
                        "a clock by whose cycles a line of the sheet is late",
                        clock.getKey());
            }
            double mhz = clock.getValue();
            if (!(mhz > 0 && mhz <= 1e6 && cycles * 1e6 / mhz <= FileLimits.MEASURED_PS)) {
                throw new BadInput(
                        "--clock-mhz",
                        clock.getKey(),
                        "a frequency up to 1000000 MHz, at which "
                                + cycles
                                + " cycles take no more than "
                                + FileLimits.MEASURED_PS
                                + " ps",
                        "" + mhz);
            }
        }
    }

    private Deskew deskew(Map<String, SheetLines.Line> found) {
        if (found.isEmpty()) {
            return Deskew.NONE;
        }
        Map<String, CaptureChannelDelay> delays = new HashMap<>();
        found.forEach(
                (channel, line) -> delays.put(channel, line.delayWith(periodPs(line, clocksMhz))));
        return independent
                ? Deskew.independent(delays, samplePs, othersPs)
                : Deskew.oneDie(delays, samplePs, othersPs, localPercent);
    }

    /**
     * The lines of the channels whose name is also the name of a line of the sheet.
     *
     * @throws BadInput when a name matches no channel
     */
    private Map<String, SheetLines.Line> found(List<Channel> channels, SheetLines lines)
            throws BadInput {
        Set<String> unmatched = new TreeSet<>(named.keySet());
        Map<String, SheetLines.Line> result = new HashMap<>();
        for (Channel channel : channels) {
            String said = named.getOrDefault(channel.name(), named.get(channel.own()));
            unmatched.remove(channel.name());
            unmatched.remove(channel.own());
            if (said != null) {
                result.put(channel.name(), lines.stated("--channel", said));
                continue;
            }
            List<String> names = List.of(channel.name(), channel.own());
            // The own name may fit several lines, which does not matter once a line is found.
            for (int i = 0; i < names.size() && !result.containsKey(channel.name()); i++) {
                lines.find(names.get(i)).ifPresent(l -> result.put(channel.name(), l));
            }
        }
        for (String name : unmatched) {
            throw new BadInput("--channel", "", "a channel of the capture", name);
        }
        return result;
    }

    private SheetLines lines() throws BadInput {
        SheetLines lines = SheetLines.read(sheet);
        for (String line : named.values()) {
            lines.stated("--channel", line);
        }
        return lines;
    }
}
