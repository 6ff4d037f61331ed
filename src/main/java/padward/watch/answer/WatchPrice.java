package padward.watch.answer;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import padward.breakout.ask.Price;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Occupant;
import padward.timing.SinkDelayChange;
import padward.unblock.move.DelayChange;
import padward.watch.place.WatchResult;

/** What a placed circuit costs: its pads, and what was moved to make room. */
public final class WatchPrice {
    private WatchPrice() {}

    /** The price. */
    public static Price of(WatchResult.Placed placed) {
        Design before = placed.question().design();
        // Each once: what made room for the cells may have made room at the pad as well.
        Set<Occupant> moved = new LinkedHashSet<>();
        for (Edit move : placed.moves()) {
            moved.addAll(occupant(before, move));
        }
        List<Price.Cleared> cleared =
                moved.stream().map(o -> new Price.Cleared(o, Price.Fate.MOVABLE)).toList();
        return Price.ofPads(before, placed.edits())
                .plus(
                        new Price(
                                List.of(),
                                List.of(),
                                List.of(),
                                cleared,
                                delayed(placed),
                                List.of()));
    }

    private static List<Occupant> occupant(Design before, Edit move) {
        if (move instanceof Edit.RouteNet net) {
            return before.findNet(net.net()).<Occupant>map(Occupant.ByNet::new).stream().toList();
        }
        String cell =
                move instanceof Edit.RelocateCell relocated
                        ? relocated.cell()
                        : ((Edit.SetCell) move).cell();
        return before.findCell(cell).<Occupant>map(Occupant.ByCell::new).stream().toList();
    }

    /** Of each net that was rerouted, the sink that gets its signal later by the most. */
    private static List<DelayChange> delayed(WatchResult.Placed placed) {
        Map<String, SinkDelayChange> worst = new LinkedHashMap<>();
        List<String> moved = placed.movedNets();
        for (SinkDelayChange change :
                SinkDelayChange.between(placed.question().design(), placed.design())) {
            if (moved.contains(change.net())) {
                worst.merge(
                        change.net(),
                        change,
                        (a, b) ->
                                Comparator.comparingInt(WatchPrice::later).compare(a, b) >= 0
                                        ? a
                                        : b);
            }
        }
        return worst.values().stream()
                .map(
                        c ->
                                new DelayChange(
                                        c.net(),
                                        c.sink(),
                                        c.before(),
                                        c.after(),
                                        OptionalInt.empty(),
                                        c.slackAfterPs(),
                                        c.sink(),
                                        0))
                .toList();
    }

    private static int later(SinkDelayChange change) {
        return change.after().slowPs() - change.before().slowPs();
    }
}
