package padward.breakout.wanted;

import java.util.List;
import java.util.Optional;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.Terminal;

/** Finds a net of one design in another: by its name, or else by the pin that drives it. */
final class NetCounterparts {
    private final Design before;
    private final Design now;

    NetCounterparts(Design before, Design now) {
        this.before = before;
        this.now = now;
    }

    /** The net of that name, or else of that driver. */
    Optional<Net> find(Net net) {
        return now.findNet(net.name()).or(() -> byDriver(net));
    }

    private Optional<Net> byDriver(Net net) {
        if (net.driver() instanceof Terminal.CellPin pin) {
            Cell cell = before.cells().get(pin.cell());
            return now.findCell(cell.name())
                    .flatMap(
                            c ->
                                    driven(
                                            now.netsDrivenBy(c.id()),
                                            new Terminal.CellPin(c.id(), pin.pin())));
        }
        Port port = before.ports().get(((Terminal.PortEnd) net.driver()).port());
        return now.findPort(port.name())
                .flatMap(p -> driven(now.netsAtPort(p.id()), new Terminal.PortEnd(p.id())));
    }

    private static Optional<Net> driven(List<Net> nets, Terminal driver) {
        return nets.stream().filter(n -> n.driver().equals(driver)).findFirst();
    }
}
