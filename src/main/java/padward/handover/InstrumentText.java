package padward.handover;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.fabric.delay.Delay;
import padward.timing.InstrumentView;
import padward.timing.PadLoad;

/** Advice for setting up the instrument, in sentences; channels with the same advice share it. */
final class InstrumentText {
    private InstrumentText() {}

    static List<String> of(List<BenchSheet.Line> lines) {
        Map<String, List<Integer>> channels = new LinkedHashMap<>();
        for (BenchSheet.Line line : lines) {
            List<String> all = new ArrayList<>(load(line.timing().chain().output().load()));
            all.addAll(of(line.timing().seen()));
            double loadPf = line.timing().chain().output().load().picofarads();
            line.setting().flatMap(s -> s.shortestLevels(loadPf)).ifPresent(all::add);
            synchronised(line).ifPresent(all::add);
            for (String advice : all) {
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

    /** What two registers one after the other do to a signal that they sample. */
    private static Optional<String> synchronised(BenchSheet.Line line) {
        return line.source()
                .flatMap(s -> line.late())
                .filter(l -> l.cycles() > 1)
                .map(
                        l ->
                                "A pulse shorter than a period of "
                                        + l.clock()
                                        + " can be missed; edges come up to a period late, bits can"
                                        + " be a period apart.");
    }

    private static String who(List<Integer> channels) {
        return (channels.size() == 1 ? "Channel " : "Channels ")
                + channels.stream().map(String::valueOf).collect(Collectors.joining(", "))
                + ": ";
    }

    /** What the delays and rise times are calculated for; nothing where load does not matter. */
    private static List<String> load(PadLoad load) {
        if (load.picofarads() == 0) {
            return List.of();
        }
        String pf = number(load.picofarads()) + " pF";
        return List.of(
                load.known()
                        ? "Calculated for a load of "
                                + pf
                                + (load.traceIncluded() ? ", the trace included." : ".")
                        : "The board's file does not state the load: calculated for "
                                + pf
                                + ", the driver's rated load or what is known to be more.");
    }

    private static List<String> of(InstrumentView seen) {
        List<String> result = new ArrayList<>();
        if (seen.rise().equals(Delay.ZERO)) {
            result.add(
                    "The fabric does not state the driver's rise time: use a bandwidth of at least "
                            + "five times the clock frequency.");
        } else {
            String shown =
                    seen.seenRise().equals(seen.rise())
                            ? ""
                            : "; the instrument shows " + seen.seenRise().toText();
            double fast = Math.max(1, seen.rise().fastPs());
            result.add(
                    "Rise time at the pin, 10 to 90 %: "
                            + seen.rise().toText()
                            + shown
                            + ". A bandwidth of "
                            + mhz(InstrumentView.bandwidthMhz(fast))
                            + " shows the fastest edges 41 % too long; 5 % take "
                            + mhz(InstrumentView.bandwidthMhz(fast, 5))
                            + ", 2 % "
                            + mhz(InstrumentView.bandwidthMhz(fast, 2))
                            + ". Time stamps at a threshold need less.");
        }
        if (seen.mostToggleMhz() > 0) {
            result.add("Maximum toggle frequency at this load: " + mhz(seen.mostToggleMhz()) + ".");
        }
        if (!seen.clockPasses()) {
            result.add(
                    "The signal can change faster than the pad can follow: short pulses will be missed.");
        }
        result.addAll(sampling(seen));
        return result;
    }

    /** What sample rate is needed, and what the given one misses. */
    private static List<String> sampling(InstrumentView seen) {
        List<String> result = new ArrayList<>();
        result.add(
                seen.levelPs() == 0
                        ? "Sample rate: at least four samples for the shortest level of interest."
                        : "Sample rate: "
                                + number(seen.neededMsPerS())
                                + " MS/s are needed, four samples for the shortest level of "
                                + ns(seen.levelPs())
                                + ".");
        int sample = seen.samplePs();
        if (sample == 0) {
            result.add(
                    "An instrument with its own clock stamps times with an uncertainty of ±1 sample.");
            return result;
        }
        String given = "The instrument takes " + number(seen.instrument().sampleMhz()) + " MS/s: ";
        if (seen.levelPs() > 0 && sample >= seen.levelPs()) {
            result.add(
                    given
                            + "levels shorter than "
                            + ns(sample)
                            + " can be missed, and a clock can look like a slower one.");
        } else if (seen.levelPs() > 0 && seen.instrument().sampleMhz() < seen.neededMsPerS()) {
            result.add(
                    given
                            + "no level is missed, but its length is known to "
                            + ns(sample)
                            + " only.");
        }
        result.add(
                "Sampling alone makes time stamps of two channels uncertain by up to ± "
                        + ns(sample)
                        + ".");
        return result;
    }

    private static String ns(int ps) {
        return String.format(Locale.ROOT, "%.2f ns", ps / 1000.0);
    }

    private static String mhz(double mhz) {
        return number(mhz) + " MHz";
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, value < 10 ? "%.1f" : "%.0f", Math.ceil(value * 10) / 10);
    }
}
