package padward.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
 * @param requiredAtPs the same for single sinks that have a required time of their own
 * @param lock what of it must stay as it is
 */
public record Net(
        int id,
        String name,
        Terminal driver,
        List<Terminal> sinks,
        RouteTree route,
        boolean clock,
        OptionalInt requiredPs,
        Map<Terminal, Integer> requiredAtPs,
        NetLock lock) {
    /** Copies the sinks, and leaves out required times of what is no sink. */
    public Net {
        sinks = ManySinks.copyOf(sinks);
        if (!requiredAtPs.isEmpty()) {
            requiredAtPs = new HashMap<>(requiredAtPs);
            requiredAtPs.keySet().retainAll(sinks);
        }
        requiredAtPs = Map.copyOf(requiredAtPs);
    }

    /** A net that is not locked. */
    public Net(
            int id,
            String name,
            Terminal driver,
            List<Terminal> sinks,
            RouteTree route,
            boolean clock,
            OptionalInt requiredPs,
            Map<Terminal, Integer> requiredAtPs) {
        this(id, name, driver, sinks, route, clock, requiredPs, requiredAtPs, NetLock.NONE);
    }

    /** A net whose sinks have no required times of their own. */
    public Net(
            int id,
            String name,
            Terminal driver,
            List<Terminal> sinks,
            RouteTree route,
            boolean clock,
            OptionalInt requiredPs) {
        this(id, name, driver, sinks, route, clock, requiredPs, Map.of());
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

    /** The latest arrival allowed at a sink: its own required time, else the net's; ps. */
    public OptionalInt requiredPs(Terminal sink) {
        Integer own = requiredAtPs.get(sink);
        return own == null ? requiredPs : OptionalInt.of(own);
    }

    /** Its driver and its sinks. */
    public List<Terminal> ends() {
        List<Terminal> result = new ArrayList<>(sinks.size() + 1);
        result.add(driver);
        result.addAll(sinks);
        return result;
    }

    /** The same net, locked or not. */
    public Net withLock(NetLock other) {
        return new Net(id, name, driver, sinks, route, clock, requiredPs, requiredAtPs, other);
    }

    /** The same net over other wires. */
    public Net withRoute(RouteTree other) {
        return new Net(id, name, driver, sinks, other, clock, requiredPs, requiredAtPs, lock);
    }

    /** The same net with another sink in the place of one, with what that required. */
    public Net withSink(Terminal old, Terminal other) {
        List<Terminal> others = new ArrayList<>(sinks);
        others.replaceAll(s -> s.equals(old) ? other : s);
        Map<Terminal, Integer> required = new HashMap<>(requiredAtPs);
        Integer own = required.remove(old);
        if (own != null) {
            required.put(other, own);
        }
        return new Net(id, name, driver, others, route, clock, requiredPs, required, lock);
    }

    /** The same net with other sinks. */
    public Net withSinks(List<Terminal> others) {
        return new Net(id, name, driver, others, route, clock, requiredPs, requiredAtPs, lock);
    }
}
