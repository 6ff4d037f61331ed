package padward.handover;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import padward.fabric.Delay;
import padward.timing.InstrumentView;

/** Advice for setting up the instrument, in sentences; channels with the same advice share it. */
final class InstrumentText {
    private InstrumentText() {}

    static List<String> of(List<BenchSheet.Line> lines) {
        Map<String, List<Integer>> channels = new LinkedHashMap<>();
        for (BenchSheet.Line line : lines) {
            for (String advice : of(line.timing().seen())) {
                channels.computeIfAbsent(advice, a -> new ArrayList<>()).add(line.channel());
            }
        }
        return channels.entrySet().stream()
                .map(
                        e ->
                                (e.getValue().size() == lines.size() ? "" : who(e.getValue()))
                                        + e.getKey())
                .toList();
    }

    private static String who(List<Integer> channels) {
        return (channels.size() == 1 ? "Channel " : "Channels ")
                + channels.stream().map(String::valueOf).collect(Collectors.joining(", "))
                + ": ";
    }

    private static List<String> of(InstrumentView seen) {
        List<String> result = new ArrayList<>();
        if (seen.rise().equals(Delay.ZERO)) {
            result.add(
                    "The fabric does not state the driver's rise time: take a bandwidth of at least"
                            + " five times the clock's frequency (common practice, no source).");
        } else {
            String shown =
                    seen.seenRise().equals(seen.rise())
                            ? ""
                            : "; the instrument shows " + seen.seenRise().toText();
            result.add(
                    "Rise time on the pad, 10 to 90 %: "
                            + seen.rise().toText()
                            + shown
                            + ". A bandwidth of "
                            + mhz(seen.neededMhz())
                            + " carries the edges.");
        }
        if (seen.mostToggleMhz() > 0) {
            result.add("The pad passes at most " + mhz(seen.mostToggleMhz()) + " at this load.");
        }
        if (!seen.clockPasses()) {
            result.add("The signal can change faster than the pad can follow: levels get lost.");
        }
        if (seen.sampleMhz() > 0) {
            result.add(
                    "Sample rate: at least "
                            + mhz(seen.sampleMhz())
                            + ", four samples for the shortest level (common practice, no source);"
                            + " sampling alone puts time stamps off by up to "
                            + seen.sampleUncertaintyPs()
                            + " ps either way.");
        } else {
            result.add(
                    "Sample rate: at least four samples for the shortest level of interest (common"
                            + " practice, no source); time stamps of an instrument with a clock of"
                            + " its own are off by up to one sample either way.");
        }
        return result;
    }

    private static String mhz(double mhz) {
        return String.format(
                Locale.ROOT, mhz < 10 ? "%.1f MHz" : "%.0f MHz", Math.ceil(mhz * 10) / 10);
    }
}
