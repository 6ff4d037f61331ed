package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.breakout.ask.WantedDriver;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.pad.DriverSetting;
import padward.route.search.VertexPath;

/**
 * The edits that put a group's registers into a design: their cells, branches of the group's nets
 * and of the clock to them, the nets that they drive, and these brought out. One object serves one
 * group.
 */
final class RegisterPlacement {
    private static final String PREFIX = "registered/";

    private final Design start;
    private final Fabric fabric;
    private final Net clock;
    private final RouteTree clockTree;
    private final IntSet clockHas;
    private final List<Edit> cells = new ArrayList<>();
    private final List<Edit> nets = new ArrayList<>();
    private final List<Edit> branches = new ArrayList<>();
    private final List<Placed> all = new ArrayList<>();

    private record Placed(Bus.Line line, String net, int output) {}

    /**
     * @param start the design once the sites are free
     * @param clockTree the clock's wires with the branches to all registers
     */
    RegisterPlacement(Design start, Net clock, RouteTree clockTree) {
        this.start = start;
        this.fabric = start.fabric();
        this.clock = clock;
        this.clockTree = clockTree;
        this.clockHas = new IntOpenHashSet(clock.route().toVertices());
    }

    /** Adds the register of a line. */
    void add(Bus.Line line, IoRegister register, RouteTree data, int clockPin) {
        SiteView site = fabric.site(fabric.pads().get(line.pad()).dataSite());
        String name = freeName(line.net().name());
        cells.add(new Edit.AddCell(name, register.kind(), site.name(), Map.of()));
        Edit.CellEnd output = new Edit.CellEnd(name, IoRegister.pinName(site, register.output()));
        nets.add(new Edit.AddNet(name, output, List.of(), RouteTree.of(register.output()), false));
        IntSet has =
                new IntOpenHashSet(
                        start.findNet(line.net().name()).orElseThrow().route().toVertices());
        Edit.CellEnd dataEnd = new Edit.CellEnd(name, IoRegister.pinName(site, register.data()));
        branches.add(
                new Edit.AddSink(line.net().name(), dataEnd, branch(data, register.data(), has)));
        Edit.CellEnd clockEnd = new Edit.CellEnd(name, IoRegister.pinName(site, clockPin));
        branches.add(
                new Edit.AddSink(clock.name(), clockEnd, branch(clockTree, clockPin, clockHas)));
        all.add(new Placed(line, name, register.output()));
    }

    private String freeName(String net) {
        String name = PREFIX + net;
        int number = 2;
        while (isTaken(name)) {
            name = PREFIX + net + "_" + number++;
        }
        return name;
    }

    private boolean isTaken(String name) {
        return start.findCell(name).isPresent()
                || start.findNet(name).isPresent()
                || all.stream().anyMatch(p -> p.net().equals(name));
    }

    /** From what the net has by then to a pin; the net then has that too. */
    private static List<Integer> branch(RouteTree tree, int pin, IntSet has) {
        LinkedList<Integer> route = new LinkedList<>();
        int place = tree.placeOf(pin);
        while (!has.contains(tree.vertex(place))) {
            route.addFirst(tree.vertex(place));
            place = tree.parent(place);
        }
        has.addAll(route);
        route.addFirst(tree.vertex(place));
        return route;
    }

    /**
     * The group of the registers' nets.
     *
     * @param removals the edits that made the sites free
     */
    Optional<Bus> bus(List<Edit> removals) {
        List<Edit> inside = new ArrayList<>(cells);
        inside.addAll(nets);
        inside.addAll(branches);
        Outcome outcome = Outcome.of(start, inside);
        if (!(outcome instanceof Outcome.Applied applied)) {
            return Optional.empty();
        }
        Design now = applied.design();
        List<Edit> edits = new ArrayList<>(removals);
        edits.addAll(inside);
        List<Bus.Line> lines = new ArrayList<>();
        for (Placed placed : all) {
            int pad = placed.line().pad();
            Optional<Bus.Line> line =
                    BusRouting.line(
                            now,
                            now.findNet(placed.net()).orElseThrow(),
                            pad,
                            placed.line()
                                    .route()
                                    .setting()
                                    .map(DriverSetting::name)
                                    .map(WantedDriver::of)
                                    .orElse(WantedDriver.NONE),
                            placed.line().standing(),
                            new VertexPath(
                                    new int[] {placed.output(), fabric.pads().get(pad).vertex()}));
            if (line.isEmpty()) {
                return Optional.empty();
            }
            List<Edit> out = line.get().breakOut(now);
            now = Outcome.apply(now, out);
            edits.addAll(out);
            lines.add(line.get());
        }
        long alone = lines.stream().mapToLong(l -> l.route().total().slowPs()).sum();
        return Optional.of(new Bus(lines, List.of(), edits, alone, Optional.empty()));
    }
}
