package padward.watch.answer;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.timing.LaunchTime;
import padward.timing.PairSkew;
import padward.timing.TreeDelays;
import padward.watch.place.WatchResult;

/**
 * Setup and hold at a circuit's registers, for data that comes from registers of the same clock; at
 * each corner by itself, with local variation.
 *
 * @param leastPeriodPs the shortest period of the clock that meets setup at all of them, ps; empty
 *     when nothing is known
 * @param holdPs by how much the data stays longer than hold, ps; negative when it does not
 * @param unknown what is not stated, so that registers are left out
 * @param apart what comes from a port or another clock, and can change while it is sampled
 * @param localPercent by how much two routes of the same delay can differ on one die
 */
public record CircuitSetupHold(
        Optional<Integer> leastPeriodPs,
        Optional<Integer> holdPs,
        Set<String> unknown,
        Set<String> apart,
        double localPercent) {
    /** Sorts the sets. */
    public CircuitSetupHold {
        unknown = new TreeSet<>(unknown);
        apart = new TreeSet<>(apart);
    }

    /** One register with what comes to it. */
    private record Taken(
            CellFunction.Register register,
            Cell cell,
            Net data,
            Net clock,
            Delay route,
            Delay edge,
            double localPercent) {
        private long local(long arrival, Corner corner) {
            return (long) Math.ceil(PairSkew.localPs(arrival + edge.at(corner), localPercent));
        }

        int period(LaunchTime launch, Delay setup, Corner corner) {
            long arrival = (long) launch.latest().orElseThrow().at(corner) + route.at(corner);
            return (int) (arrival - edge.at(corner) + setup.at(corner) + local(arrival, corner));
        }

        int hold(LaunchTime launch, Delay hold, Corner corner) {
            long arrival = (long) launch.earliest().orElseThrow().at(corner) + route.at(corner);
            return (int) (arrival - edge.at(corner) - hold.at(corner) - local(arrival, corner));
        }
    }

    /** Checks the registers of a placed circuit, with the usual local variation. */
    public static CircuitSetupHold of(WatchResult.Placed placed) {
        return of(placed, PairSkew.USUAL_LOCAL_PERCENT);
    }

    /**
     * Checks the registers of a placed circuit.
     *
     * @param localPercent by how much two routes of the same delay can differ on one die
     */
    public static CircuitSetupHold of(WatchResult.Placed placed, double localPercent) {
        Optional<Integer> period = Optional.empty();
        Optional<Integer> holds = Optional.empty();
        Set<String> unknown = new TreeSet<>();
        Set<String> apart = new TreeSet<>();
        placed.cells().stream()
                .flatMap(c -> placed.design().fabric().info().findCellKind(c.kind()).stream())
                .filter(k -> k.function().isEmpty())
                .forEach(k -> unknown.add("setup and hold of kind " + k.name()));
        for (Taken taken : registers(placed, localPercent)) {
            LaunchTime launch = LaunchTime.by(placed.design(), taken.clock(), taken.data());
            Optional<Delay> setup = taken.register().setup();
            Optional<Delay> hold = taken.register().hold();
            if (!launch.isOf(taken.clock())) {
                apart.addAll(apart(launch, taken.clock()));
            }
            Set<String> missing = new TreeSet<>(launch.unknown());
            if (setup.isEmpty() || hold.isEmpty()) {
                missing.add("setup and hold of kind " + taken.cell().kind());
            }
            unknown.addAll(missing);
            if (launch.latest().isEmpty() || !missing.isEmpty()) {
                continue;
            }
            for (Corner corner : Corner.values()) {
                int needed = taken.period(launch, setup.orElseThrow(), corner);
                int stays = taken.hold(launch, hold.orElseThrow(), corner);
                period = Optional.of(Math.max(needed, period.orElse(needed)));
                holds = Optional.of(Math.min(stays, holds.orElse(stays)));
            }
        }
        return new CircuitSetupHold(period, holds, unknown, apart, localPercent);
    }

    private static List<String> apart(LaunchTime launch, Net clock) {
        List<String> result = new ArrayList<>();
        launch.ports().forEach(p -> result.add("port " + p));
        launch.clocks().stream()
                .filter(c -> !c.equals(clock.name()))
                .forEach(c -> result.add("registers of clock " + c));
        launch.bothEdges().stream()
                .filter(c -> c.equals(clock.name()))
                .forEach(c -> result.add("registers of both edges of clock " + c));
        return result;
    }

    private static List<Taken> registers(WatchResult.Placed placed, double localPercent) {
        Design design = placed.design();
        List<Taken> result = new ArrayList<>();
        for (WatchResult.PlacedCell one : placed.cells()) {
            Cell cell = design.findCell(one.cell()).orElseThrow();
            Optional<CellFunction.Register> register =
                    design.fabric().info().findCellKind(one.kind()).flatMap(CellKind::register);
            if (register.isPresent()) {
                SiteView site = design.fabric().site(cell.site());
                int data = site.findPin(register.get().data());
                int clock = site.findPin(register.get().clock());
                Net comes = design.occupancy().findNetOn(data).orElseThrow();
                Net clocks = design.occupancy().findNetOn(clock).orElseThrow();
                result.add(
                        new Taken(
                                register.get(),
                                cell,
                                comes,
                                clocks,
                                along(design, comes, data),
                                along(design, clocks, clock),
                                localPercent));
            }
        }
        return result;
    }

    private static Delay along(Design design, Net net, int vertex) {
        return TreeDelays.of(design.fabric(), net.route()).at(net.route().placeOf(vertex));
    }

    private String percentText() {
        return localPercent == Math.rint(localPercent)
                ? "" + Math.round(localPercent)
                : "" + localPercent;
    }

    /** What it says, a sentence each; none for a circuit without registers. */
    public List<String> lines() {
        List<String> result = new ArrayList<>();
        if (leastPeriodPs.isPresent()) {
            int hold = holdPs.orElseThrow();
            String kept =
                    hold >= 0
                            ? String.format(Locale.ROOT, "hold by %.3f ns", hold / 1000.0)
                            : String.format(
                                    Locale.ROOT,
                                    "hold is not: the data changes %.3f ns too early",
                                    -hold / 1000.0);
            result.add(
                    String.format(
                            Locale.ROOT,
                            "Setup is met by clock periods from %.3f ns on, %s (%s %% local variation"
                                    + " included).",
                            Math.max(0, leastPeriodPs.get()) / 1000.0,
                            kept,
                            percentText()));
        }
        if (!unknown.isEmpty()) {
            result.add(
                    (leastPeriodPs.isPresent()
                                    ? "Not in setup and hold"
                                    : "Setup and hold are open")
                            + ", as it is not stated: "
                            + String.join(", ", unknown)
                            + ".");
        }
        if (!apart.isEmpty()) {
            result.add(
                    "What comes from "
                            + String.join(", ", apart)
                            + " can change while a register takes it.");
        }
        return result;
    }
}
