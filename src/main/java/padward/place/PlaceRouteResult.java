package padward.place;

import java.util.List;
import padward.design.Design;

/** The result of place and route. */
public sealed interface PlaceRouteResult {
    /**
     * It is on the fabric; nets without a route are not in the design.
     *
     * @param design the design
     * @param report the quality of the result
     */
    record OnFabric(Design design, Report report) implements PlaceRouteResult {}

    /**
     * It does not fit.
     *
     * @param reasons what exceeds the fabric, in words
     */
    record NoRoom(List<String> reasons) implements PlaceRouteResult {
        /** Copies the reasons. */
        public NoRoom {
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * The quality of the result.
     *
     * @param uses how much of each resource is used
     * @param packed registers placed in the IO register sites of their ports
     * @param tiles sum of the nets' half perimeters, without clocks, in tiles
     * @param wires wires that the routes use
     * @param worstPs the latest arrival at the slow corner, without pad drivers; 0 when no path
     *     ends
     * @param worstPath the ends of nets on that path, in words
     * @param unrouted nets without a route, and why
     * @param notes other remarks
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
     * @param places how many the fabric has room for, other kinds aside
     */
    record Use(String what, int used, int places) {}

    /**
     * A net without a route.
     *
     * @param net its name
     * @param reason why, in words
     */
    record Unrouted(String net, String reason) {}
}
