package padward.design;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import padward.fabric.Fabric;

/**
 * A net and the wires it takes.
 *
 * @param id dense number in the design
 * @param name hierarchical name
 * @param driver what drives it
 * @param sinks what it feeds, in the file's order
 * @param route its wires; holds at least the driver's vertex
 * @param clock whether the design says that it is a clock
 * @param requiredPs latest arrival at any sink that the design allows, at the slow corner, counted
 *     from the driver, in picoseconds; empty when the design states none
 */
public record Net(
        int id,
        String name,
        Terminal driver,
        List<Terminal> sinks,
        RouteTree route,
        boolean clock,
        OptionalInt requiredPs) {
    /** Copies the sinks. */
    public Net {
        sinks = List.copyOf(sinks);
    }

    /** A net without a required time. */
    public Net(
            int id,
            String name,
            Terminal driver,
            List<Terminal> sinks,
            RouteTree route,
            boolean clock) {
        this(id, name, driver, sinks, route, clock, OptionalInt.empty());
    }

    /** Number of the cell that drives it, or {@link Fabric#NOTHING} when a port does. */
    public int driverCell() {
        return driver instanceof Terminal.CellPin at ? at.cell() : Fabric.NOTHING;
    }

    /** Its driver and its sinks. */
    public List<Terminal> ends() {
        List<Terminal> result = new ArrayList<>(sinks.size() + 1);
        result.add(driver);
        result.addAll(sinks);
        return result;
    }

    /** The same net over other wires. */
    public Net withRoute(RouteTree other) {
        return new Net(id, name, driver, sinks, other, clock, requiredPs);
    }

    /** The same net with other sinks. */
    public Net withSinks(List<Terminal> others) {
        return new Net(id, name, driver, others, route, clock, requiredPs);
    }
}
