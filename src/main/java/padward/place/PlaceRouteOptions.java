package padward.place;

import java.util.Map;
import padward.design.board.Board;

/**
 * Options of place and route.
 *
 * @param seed seed of all choices
 * @param effort share of the moves of the published annealing schedule, above 0
 * @param timingWeight what a picosecond on the longest path costs, compared with one of wire; 0 for
 *     wire alone
 * @param rounds most rounds of routing
 * @param padOfPort indices of pads that ports must have, by the ports' names
 * @param board the board around, {@link Board#UNKNOWN} for none
 */
public record PlaceRouteOptions(
        long seed,
        double effort,
        double timingWeight,
        int rounds,
        Map<String, Integer> padOfPort,
        Board board) {
    /** Copies the pads. */
    public PlaceRouteOptions {
        padOfPort = Map.copyOf(padOfPort);
    }

    /** The usual options. */
    public static PlaceRouteOptions usual(long seed) {
        return new PlaceRouteOptions(seed, 1, 2, 60, Map.of(), Board.UNKNOWN);
    }
}
