package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToLongFunction;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.timing.LaunchTime;
import padward.timing.PairSkew;

/**
 * Whether a register takes its data in time: setup and hold at both corners, each with the whole
 * chip at that corner and local variation against it. The part of the clock's tree that launching
 * and taking share is not credited, so a check can fail that is met by a little.
 *
 * @param clockToOutput of the register; empty when its kind does not state it
 * @param leastPeriod the shortest period of the clock that meets setup; empty when not all is known
 * @param hold by how long the data stays beyond hold; empty when not all is known
 * @param unknown why not all is known, as clauses
 */
public record RegisterCheck(
        Optional<Delay> clockToOutput,
        Optional<Slack> leastPeriod,
        Optional<Slack> hold,
        List<String> unknown) {
    /** Of a line that cannot be registered. */
    static final RegisterCheck NONE =
            new RegisterCheck(Optional.empty(), Optional.empty(), Optional.empty(), List.of());

    /** Copies the list. */
    public RegisterCheck {
        unknown = List.copyOf(unknown);
    }

    /**
     * A time at both corners, which may be negative, ps.
     *
     * @param fastPs at the fast corner
     * @param slowPs at the slow corner
     */
    public record Slack(int fastPs, int slowPs) {
        /** The smaller one. */
        public int leastPs() {
            return Math.min(fastPs, slowPs);
        }

        /** The greater one. */
        public int mostPs() {
            return Math.max(fastPs, slowPs);
        }
    }

    /** The rule about clocks: why a net must not be registered by one, as a clause. */
    public static Optional<String> otherClock(Net clock, LaunchTime launch) {
        List<String> others =
                new TreeSet<>(launch.clocks())
                        .stream().filter(c -> !c.equals(clock.name())).toList();
        if (!others.isEmpty()) {
            return Optional.of(
                    "its source is clocked by "
                            + String.join(", ", others)
                            + ", and a register can sample it while it changes");
        }
        if (!launch.ports().isEmpty()) {
            return Optional.of(
                    "it comes from port "
                            + String.join(", ", new TreeSet<>(launch.ports()))
                            + " without a register, and can change while it is sampled");
        }
        if (isHalfSeen(clock, launch)) {
            return Optional.of(
                    "it changes at both edges of "
                            + clock.name()
                            + ", and a register sees only one of them: every other value would be"
                            + " missing");
        }
        return launch.untraced().isEmpty()
                ? Optional.empty()
                : Optional.of(
                        String.join(" and ", new TreeSet<>(launch.untraced()))
                                + (launch.untraced().size() == 1 ? " is" : " are")
                                + " not known, and a register can sample it while it changes");
    }

    /**
     * Whether a net changes at both edges of the very clock by which it would be registered: a
     * register, or two one after the other, would show only what it is before one of them.
     */
    public static boolean isHalfSeen(Net clock, LaunchTime launch) {
        return launch.ports().isEmpty()
                && launch.bothEdges().contains(clock.name())
                && launch.clocks().equals(Set.of(clock.name()));
    }

    /**
     * Checks one line.
     *
     * @param launch when its net changes
     * @param data delay of the net to the register
     * @param clocked delay of the clock to the register
     */
    static RegisterCheck of(
            IoRegister register,
            LaunchTime launch,
            Delay data,
            Delay clocked,
            double localPercent) {
        List<String> unknown = new ArrayList<>(new TreeSet<>(launch.unknown()));
        Optional<Delay> toOutput = register.function().flatMap(f -> f.clockToOutput());
        Optional<Delay> setup = register.function().flatMap(f -> f.setup());
        Optional<Delay> hold = register.function().flatMap(f -> f.hold());
        if (setup.isEmpty()) {
            unknown.add("setup of kind " + register.kind());
        }
        if (hold.isEmpty()) {
            unknown.add("hold of kind " + register.kind());
        }
        boolean launched = launch.latest().isPresent() && launch.unknown().isEmpty();
        if (launch.latest().isEmpty() && launch.unknown().isEmpty()) {
            unknown.add("when the net changes");
        }
        Optional<Slack> period =
                setup.filter(s -> launched)
                        .map(
                                s ->
                                        slack(
                                                c ->
                                                        late(launch, data, clocked, localPercent, c)
                                                                + s.at(c)));
        Optional<Slack> holds =
                hold.filter(h -> launched)
                        .map(
                                h ->
                                        slack(
                                                c ->
                                                        early(
                                                                        launch,
                                                                        data,
                                                                        clocked,
                                                                        localPercent,
                                                                        c)
                                                                - h.at(c)));
        return new RegisterCheck(toOutput, period, holds, unknown);
    }

    private static Slack slack(ToLongFunction<Corner> at) {
        return new Slack((int) at.applyAsLong(Corner.FAST), (int) at.applyAsLong(Corner.SLOW));
    }

    private static long late(
            LaunchTime launch, Delay data, Delay clocked, double percent, Corner corner) {
        long arrival = (long) launch.latest().orElseThrow().at(corner) + data.at(corner);
        return arrival - clocked.at(corner) + local(arrival, clocked, percent, corner);
    }

    private static long early(
            LaunchTime launch, Delay data, Delay clocked, double percent, Corner corner) {
        long arrival = (long) launch.earliest().orElseThrow().at(corner) + data.at(corner);
        return arrival - clocked.at(corner) - local(arrival, clocked, percent, corner);
    }

    private static long local(long arrival, Delay clocked, double percent, Corner corner) {
        return (long) Math.ceil(PairSkew.localPs(arrival + clocked.at(corner), percent));
    }

    /**
     * Why the register would take wrong data, as a clause.
     *
     * @param periodPs period of the clock, ps; 0 when not known
     */
    Optional<String> failure(double periodPs) {
        if (hold.isPresent() && hold.get().leastPs() < 0) {
            return Optional.of(
                    String.format(
                            Locale.ROOT,
                            "hold is not met: the data changes %.3f ns too early",
                            -hold.get().leastPs() / 1000.0));
        }
        return leastPeriod
                .filter(p -> periodPs > 0 && p.mostPs() > periodPs)
                .map(
                        p ->
                                String.format(
                                        Locale.ROOT,
                                        "setup is not met: it takes a period of %.3f ns",
                                        p.mostPs() / 1000.0));
    }
}
