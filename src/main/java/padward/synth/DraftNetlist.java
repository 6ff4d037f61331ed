package padward.synth;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import padward.design.Cell;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/** A placed netlist before routing: cells on sites, ports on pads, nets as terminals. */
final class DraftNetlist {
    /** A net that is still to be routed. */
    static final class PlannedNet {
        final String name;
        final Terminal driver;
        final List<Terminal> sinks = new ArrayList<>();

        PlannedNet(String name, Terminal driver) {
            this.name = name;
            this.driver = driver;
        }
    }

    final Fabric fabric;
    final List<Cell> cells = new ArrayList<>();
    final List<Port> ports = new ArrayList<>();
    final List<PlannedNet> nets = new ArrayList<>();

    DraftNetlist(Fabric fabric) {
        this.fabric = fabric;
    }

    Cell addCell(String name, String kind, int site) {
        Cell cell = new Cell(cells.size(), name, kind, site, Map.of());
        cells.add(cell);
        return cell;
    }

    Port addPort(String name, PortDirection direction, int pad) {
        Port port = new Port(ports.size(), name, direction, pad, "");
        ports.add(port);
        return port;
    }

    PlannedNet addNet(String name, Terminal driver) {
        PlannedNet net = new PlannedNet(name, driver);
        nets.add(net);
        return net;
    }

    int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            SiteView site = fabric.site(cells.get(at.cell()).site());
            return site.findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) terminal).port()).pad()).vertex();
    }
}
