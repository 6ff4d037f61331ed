package padward.place;

import java.util.List;
import padward.design.Design;

/** What came of putting a netlist on a fabric. */
public sealed interface PlaceRouteResult {
    /**
     * It stands on the fabric; nets that found no way are not in the design.
     *
     * @param design the design
     * @param report how well it went
     */
    record OnFabric(Design design, Report report) implements PlaceRouteResult {}

    /**
     * It does not fit.
     *
     * @param reasons what there is too much of, in words
     */
    record NoRoom(List<String> reasons) implements PlaceRouteResult {
        /** Copies the reasons. */
        public NoRoom {
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * How well it went.
     *
     * @param uses how much of what is used
     * @param packed registers that stand in IO register sites with their ports
     * @param tiles half the round of the boxes that hold the nets, clocks left out, in tiles
     * @param wires wires that the routes take
     * @param worstPs the latest arrival, slow corner, pad drivers left out; 0 when no path ends
     * @param worstPath the ends of nets on that path, in words
     * @param unrouted nets that found no way, and why
     * @param notes what else is to be known
     */
    record Report(
            List<Use> uses,
            int packed,
            int tiles,
            int wires,
            int worstPs,
            List<String> worstPath,
            List<Unrouted> unrouted,
            List<String> notes) {
        /** Copies the lists. */
        public Report {
            uses = List.copyOf(uses);
            worstPath = List.copyOf(worstPath);
            unrouted = List.copyOf(unrouted);
            notes = List.copyOf(notes);
        }
    }

    /**
     * How much is used.
     *
     * @param what kind of cell or port
     * @param used how many there are
     * @param places how many the fabric can hold, other kinds left out
     */
    record Use(String what, int used, int places) {}

    /**
     * A net that found no way.
     *
     * @param net its name
     * @param reason why, in words
     */
    record Unrouted(String net, String reason) {}
}
