package padward.format.design;

import java.util.List;
import java.util.function.IntFunction;
import java.util.function.Supplier;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Port;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;
import padward.format.json.Names;

/**
 * What the names in a design's file refer to. While a file is read this grows with what was read;
 * what is not known yet must not be asked for.
 */
final class DesignScope {
    private final Names cellNames = new Names("cell");
    private final Names portNames = new Names("port");
    private Fabric fabric;
    private PadLookup pads;
    private DesignFileRules rules;
    private RouteChecker routes;
    private Supplier<List<Cell>> cells = List::of;
    private Supplier<List<Port>> ports = List::of;
    private IntFunction<Cell> cell = number -> cells.get().get(number);
    private IntFunction<Port> port = number -> List.<Port>of().get(number);

    /** Everything is named on this fabric. */
    void set(Fabric of) {
        fabric = of;
        pads = new PadLookup(of);
        rules = new DesignFileRules(of);
    }

    /** Nets end at these, which were read from the file. */
    void set(Supplier<List<Cell>> allCells, Supplier<List<Port>> allPorts) {
        cells = allCells;
        ports = allPorts;
        cell = number -> allCells.get().get(number);
        port = number -> allPorts.get().get(number);
    }

    /** Nets end at those of a design. */
    void set(Design design) {
        set(design.fabric());
        cell = design.cells()::get;
        port = design.ports()::get;
    }

    Names cellNames() {
        return cellNames;
    }

    Names portNames() {
        return portNames;
    }

    Fabric fabric() {
        return fabric;
    }

    PadLookup pads() {
        return pads;
    }

    DesignFileRules rules() {
        return rules;
    }

    /** Made when the first route is read: all cells and ports are known by then. */
    RouteChecker routes() {
        if (routes == null) {
            routes = new RouteChecker(fabric, cells.get(), ports.get());
        }
        return routes;
    }

    Cell cell(int number) {
        return cell.apply(number);
    }

    Port port(int number) {
        return port.apply(number);
    }

    /** The vertex where an end of a net meets the fabric. */
    int vertexOf(Terminal end) {
        if (end instanceof Terminal.CellPin at) {
            return fabric.findPin(cell(at.cell()).site(), at.pin());
        }
        Terminal.PortEnd at = (Terminal.PortEnd) end;
        return at.vertexOn(fabric, port(at.port()));
    }

    /** An end of a net as people write it. */
    String textOf(Terminal end) {
        if (end instanceof Terminal.CellPin at) {
            return cell(at.cell()).name() + "." + at.pin();
        }
        Terminal.PortEnd at = (Terminal.PortEnd) end;
        return at.toText(port(at.port()));
    }
}
