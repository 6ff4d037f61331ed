package padward.api;

import java.util.Optional;

/**
 * A vertex of a route.
 *
 * @param vertex its name
 * @param tile its tile
 * @param fromDriver the delay up to it
 * @param onNet whether the net has it already
 * @param usedBy what else uses it, as {@code cell NAME} or {@code net NAME}
 */
public record RouteStep(
        String vertex,
        String tile,
        DelayRange fromDriver,
        boolean onNet,
        Optional<String> usedBy) {}
