package padward.timing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import padward.base.Volts;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * When lines are valid at the instrument, relative to the rising edge of their clock, which is on a
 * channel of its own. All of one die are at the same corner; local variation of data and clock and
 * the tolerances outside the chip count against the window. What both share of the clock's tree is
 * not credited.
 *
 * @param clock name of the clock net
 * @param channel what the channel is called that it is on
 * @param periodPs its period, ps; 0 when not known
 * @param entries one for each other line
 */
public record ValidTimes(String clock, String channel, double periodPs, List<Entry> entries) {
    /** Copies the list. */
    public ValidTimes {
        entries = List.copyOf(entries);
    }

    /**
     * A window.
     *
     * @param fromPs from when on after an edge the line has the value of that edge
     * @param toPs until when, after the next edge; usually negative or small
     */
    public record Window(int fromPs, int toPs) {
        /** The shortest period at which there is such a time at all. */
        public int leastPeriodPs() {
            return Math.max(0, fromPs - toPs);
        }
    }

    /**
     * A line.
     *
     * @param key what it is found by
     * @param label what it is called
     * @param millivolts high level of its driver, mV; 0 when not known
     * @param window when it is valid; empty when that cannot be said
     * @param remarks why not, or what the window lacks, as clauses
     */
    public record Entry(
            String key,
            String label,
            int millivolts,
            Optional<Window> window,
            Set<String> remarks) {
        /** Copies the remarks. */
        public Entry {
            remarks = Set.copyOf(remarks);
        }

        /** As a sentence. */
        public String toText() {
            String why = String.join("; ", new TreeSet<>(remarks));
            return label
                    + ": "
                    + window.map(
                                    w ->
                                            "valid from "
                                                    + after(w.fromPs())
                                                    + " an edge until "
                                                    + after(w.toPs())
                                                    + " the next"
                                                    + (why.isEmpty()
                                                            ? "."
                                                            : "; without " + why + "."))
                            .orElse("not known: " + why + ".");
        }
    }

    /**
     * A line of a design.
     *
     * @param toPad its delay from the net's driver to the pad's driver
     * @param output the line from there on
     * @param clockLine arrival of the clock at its own channel, from the clock's driver
     */
    public static Entry entry(
            String key,
            String label,
            int millivolts,
            Design design,
            Net net,
            Net clock,
            Delay toPad,
            OutputPath output,
            Arrival clockLine,
            double localPercent) {
        return entry(
                key,
                label,
                millivolts,
                design,
                net,
                clock,
                launch -> output.after(launch.plus(toPad)),
                clockLine,
                localPercent);
    }

    /**
     * The same for a line that is late in a way of its own, such as a measured one.
     *
     * @param arrives when a signal arrives that leaves its net's driver so long after the clock
     *     left its own
     * @param clockLine arrival of the clock, from the same point in time
     */
    public static Entry entry(
            String key,
            String label,
            int millivolts,
            Design design,
            Net net,
            Net clock,
            Function<Delay, Arrival> arrives,
            Arrival clockLine,
            double localPercent) {
        LaunchTime launch = LaunchTime.of(design, net);
        if (!launch.isOf(clock) || launch.latest().isEmpty()) {
            Set<String> why = new TreeSet<>(launch.unknown());
            launch.bothEdges().forEach(c -> why.add("it changes at both edges of " + c));
            if (!launch.isOf(clock) && launch.bothEdges().isEmpty()) {
                why.add("not registered by " + clock.name() + " alone");
            }
            return new Entry(key, label, millivolts, Optional.empty(), why);
        }
        Arrival late = arrives.apply(launch.latest().orElseThrow());
        Arrival early = arrives.apply(launch.earliest().orElseThrow());
        int from = Integer.MIN_VALUE;
        int to = Integer.MAX_VALUE;
        for (Corner corner : Corner.values()) {
            from = Math.max(from, apart(late, clockLine, localPercent, corner, 1));
            to = Math.min(to, apart(early, clockLine, localPercent, corner, -1));
        }
        return new Entry(
                key, label, millivolts, Optional.of(new Window(from, to)), launch.unknown());
    }

    private static int apart(
            Arrival data, Arrival clock, double localPercent, Corner corner, int side) {
        double together = (double) data.chip().at(corner) + clock.chip().at(corner);
        double uncertain =
                Math.ceil(PairSkew.localPs(together, localPercent))
                        + Math.ceil(
                                Math.hypot(data.outsideTolerancePs(), clock.outsideTolerancePs()));
        long apart = (long) data.nominal().at(corner) - clock.nominal().at(corner);
        return (int) (apart + side * (long) uncertain);
    }

    /** The window of all lines that have one; empty when one has none, or there are none. */
    public Optional<Window> all() {
        if (entries.isEmpty() || entries.stream().anyMatch(e -> e.window().isEmpty())) {
            return Optional.empty();
        }
        return Optional.of(
                new Window(
                        entries.stream().mapToInt(e -> e.window().get().fromPs()).max().orElse(0),
                        entries.stream().mapToInt(e -> e.window().get().toPs()).min().orElse(0)));
    }

    /** What to set at the instrument, in sentences. */
    public List<String> advice() {
        List<String> result = new ArrayList<>();
        all().ifPresent(w -> result.add(when(w)));
        Set<Integer> levels = new TreeSet<>();
        entries.forEach(e -> levels.add(e.millivolts()));
        levels.remove(0);
        for (int level : levels) {
            result.add(
                    String.format(
                            Locale.ROOT,
                            "Threshold: %s, half of the drivers' %s%s.",
                            Volts.half(level),
                            Volts.text(level),
                            levels.size() == 1 ? "" : " where it is that"));
        }
        return result;
    }

    private String when(Window all) {
        if (periodPs == 0) {
            return "There is a time at which all are valid if the clock's period is more than "
                    + ns(all.leastPeriodPs())
                    + ".";
        }
        double end = periodPs + all.toPs();
        if (end <= all.fromPs()) {
            return "There is no time at which all are valid: that takes a period of more than "
                    + ns(all.leastPeriodPs())
                    + ", and the clock's is "
                    + ns(periodPs)
                    + ".";
        }
        double middle = (all.fromPs() + end) / 2;
        double periods = Math.floor(middle / periodPs);
        double delay = middle - periods * periodPs;
        return "All are valid from "
                + after(all.fromPs())
                + " an edge for "
                + ns(end - all.fromPs())
                + ": take them "
                + ns(delay)
                + " after the rising edge, ± "
                + ns((end - all.fromPs()) / 2)
                + "."
                + belongs(periods)
                + falling(all, end);
    }

    private static String belongs(double periods) {
        return periods == 0
                ? ""
                : String.format(
                        Locale.ROOT,
                        " What is taken there belongs to the edge %.0f period%s %s it.",
                        Math.abs(periods),
                        Math.abs(periods) == 1 ? "" : "s",
                        periods < 0 ? "after" : "before");
    }

    /** Most instruments can take the other edge, where they cannot delay. */
    private String falling(Window all, double end) {
        double half = periodPs / 2;
        double edge = half + Math.ceil((all.fromPs() - half) / periodPs) * periodPs;
        return " The falling edge will "
                + (edge > all.fromPs() && edge < end ? "" : "not ")
                + "do, if the clock is high for half of its period.";
    }

    private static String after(int ps) {
        return ns(Math.abs(ps)) + (ps < 0 ? " before" : " after");
    }

    private static String ns(double ps) {
        return String.format(Locale.ROOT, "%.3f ns", ps / 1000.0);
    }
}
