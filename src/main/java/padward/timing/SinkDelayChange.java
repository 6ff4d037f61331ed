package padward.timing;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.AlikePins;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;

/**
 * What a change does to one sink that was there before: a branch that a net gets hangs load on it,
 * and so can slow its other sinks; rerouted wires take another time.
 *
 * @param net the net's name
 * @param sink the sink as it was before, {@code cell.pin} or {@code port NAME}; its signal may come
 *     to another pin of the cell now, where these may be swapped
 * @param before its delay from the net's driver, before
 * @param after the same, after
 * @param slackBeforePs required time less arrival at the slow corner, ps; empty when the design
 *     states no required time
 * @param slackAfterPs the same, after
 */
public record SinkDelayChange(
        String net,
        String sink,
        Delay before,
        Delay after,
        OptionalInt slackBeforePs,
        OptionalInt slackAfterPs) {
    /** How much later the signal arrives at the slow corner, ps; negative when it is earlier. */
    public int laterPs() {
        return after.slowPs() - before.slowPs();
    }

    /** How much earlier the signal arrives at the fast corner, ps: hold times depend on that. */
    public int earlierPs() {
        return Math.max(0, before.fastPs() - after.fastPs());
    }

    /** Whether the required time is met before and missed after. */
    public boolean breaksTiming() {
        return slackBeforePs.orElse(0) >= 0 && slackAfterPs.orElse(0) < 0;
    }

    /**
     * All sinks of nets whose routes differ in two states of a design, but for those that are in
     * one only, the most delayed first. O(wires of these nets).
     */
    public static List<SinkDelayChange> between(Design before, Design after) {
        List<SinkDelayChange> result = new ArrayList<>();
        for (Net net : before.nets()) {
            after.findNet(net.name())
                    .filter(n -> !n.route().equals(net.route()))
                    .ifPresent(n -> add(before, net, after, n, result));
        }
        result.sort((a, b) -> Integer.compare(b.laterPs(), a.laterPs()));
        return List.copyOf(result);
    }

    private static void add(
            Design before, Net old, Design after, Net now, List<SinkDelayChange> result) {
        TreeDelays delaysBefore = TreeDelays.of(before.fabric(), old.route());
        TreeDelays delaysAfter = TreeDelays.of(after.fabric(), now.route());
        Map<String, Terminal> sinksAfter = new HashMap<>();
        now.sinks().forEach(s -> sinksAfter.put(after.textOf(s), s));
        addSwapped(before, old, after, now, sinksAfter);
        for (Terminal sink : old.sinks()) {
            Terminal same = sinksAfter.get(before.textOf(sink));
            int placeBefore = old.route().placeOf(before.vertexOf(sink));
            int placeAfter =
                    same == null ? Fabric.NOTHING : now.route().placeOf(after.vertexOf(same));
            if (placeBefore == Fabric.NOTHING || placeAfter == Fabric.NOTHING) {
                continue;
            }
            Delay one = delaysBefore.at(placeBefore);
            Delay other = delaysAfter.at(placeAfter);
            result.add(
                    new SinkDelayChange(
                            old.name(),
                            before.textOf(sink),
                            one,
                            other,
                            slack(old.requiredPs(sink), one),
                            slack(old.requiredPs(sink), other)));
        }
    }

    /**
     * Adds, for sinks that are not there by their names, those that took their places: other pins
     * of their cells whose signals may be swapped.
     */
    private static void addSwapped(
            Design before, Net old, Design after, Net now, Map<String, Terminal> sinksAfter) {
        List<Terminal> gone =
                old.sinks().stream()
                        .filter(s -> !sinksAfter.containsKey(before.textOf(s)))
                        .toList();
        if (gone.isEmpty()) {
            return;
        }
        Set<String> had = new HashSet<>();
        old.sinks().forEach(s -> had.add(before.textOf(s)));
        List<Terminal> fresh = new ArrayList<>(now.sinks());
        fresh.removeIf(s -> had.contains(after.textOf(s)));
        for (Terminal sink : gone) {
            fresh.stream()
                    .filter(s -> isSwapped(before, sink, after, s))
                    .findFirst()
                    .ifPresent(
                            s -> {
                                fresh.remove(s);
                                sinksAfter.put(before.textOf(sink), s);
                            });
        }
    }

    private static boolean isSwapped(Design before, Terminal was, Design after, Terminal is) {
        if (!(was instanceof Terminal.CellPin old && is instanceof Terminal.CellPin now)) {
            return false;
        }
        Cell cell = after.cells().get(now.cell());
        return before.cells().get(old.cell()).name().equals(cell.name())
                && AlikePins.canSwap(
                        after.fabric(),
                        after.fabric().site(cell.site()),
                        cell.kind(),
                        old.pin(),
                        now.pin());
    }

    private static OptionalInt slack(OptionalInt required, Delay arrival) {
        return required.isPresent()
                ? OptionalInt.of(required.getAsInt() - arrival.slowPs())
                : required;
    }
}
