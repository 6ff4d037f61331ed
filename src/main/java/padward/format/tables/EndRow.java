package padward.format.tables;

import java.util.OptionalInt;
import padward.design.Terminal;

/**
 * An end of a net as it is read.
 *
 * @param terminal what the net begins or ends at
 * @param vertex where it meets the fabric
 * @param drives whether the net begins there
 * @param row its row in {@code ends}
 * @param text what messages call it
 * @param requiredPs its own required time, if it has one
 * @param unrouted whether it is a sink that the net's route does not reach
 */
record EndRow(
        Terminal terminal,
        int vertex,
        boolean drives,
        long row,
        String text,
        OptionalInt requiredPs,
        boolean unrouted) {}
