package padward.design;

import java.util.List;

/**
 * A net and the wires it takes.
 *
 * @param id dense number in the design
 * @param name hierarchical name
 * @param driver what drives it
 * @param sinks what it feeds, in the file's order
 * @param route its wires; holds at least the driver's vertex
 * @param clock whether the design says that it is a clock
 */
public record Net(
        int id,
        String name,
        Terminal driver,
        List<Terminal> sinks,
        RouteTree route,
        boolean clock) {
    /** Copies the sinks. */
    public Net {
        sinks = List.copyOf(sinks);
    }
}
