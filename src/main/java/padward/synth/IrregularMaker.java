package padward.synth;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadUse;

/**
 * Makes a regular fabric irregular, as devices are: long wires can be entered and left on their way
 * and are called otherwise there, some of the switches there share a setting, wires bend at the
 * rim, one wire brings the clock everywhere, a corner is cut out, some pads are not bonded or are
 * for something else, and each logic site is a lookup table and a register that it can drive.
 * Invented; the same fabric gives the same result.
 */
final class IrregularMaker {
    /** What the clock's wire is called. */
    static final String GLOBAL = "global";

    /** The kinds of logic sites' parts. */
    private static final String TABLE = "table";

    private static final String REGISTER = "register";

    private static final Delay DIRECT = new Delay(15, 25);
    private static final Delay TURN_OFF = new Delay(70, 120);
    private static final Delay TURN_ON = new Delay(130, 220);
    private static final Delay BEND = new Delay(120, 205);

    /** One pad in so many is not bonded. */
    private static final int UNBONDED_ONE_IN = 9;

    private final Fabric regular;
    private final int columns;
    private final int rows;
    private final int cut;
    private final ExplicitBuilder builder;
    private final Int2IntOpenHashMap madeOf = new Int2IntOpenHashMap();

    /** Of pins of logic sites, the pin of the register that is made of it as well. */
    private final Int2IntOpenHashMap registerPinOf = new Int2IntOpenHashMap();

    private final List<int[]> bends = new ArrayList<>();
    private int global = Fabric.NOTHING;

    private IrregularMaker(Fabric regular) {
        this.regular = regular;
        this.columns = regular.columns();
        this.rows = regular.rows();
        this.cut = Math.max(2, columns / 6);
        this.builder = new ExplicitBuilder(withOwnRegister(regular.info()), columns, rows);
        madeOf.defaultReturnValue(Fabric.NOTHING);
        registerPinOf.defaultReturnValue(Fabric.NOTHING);
    }

    /** The irregular fabric. O(vertices + edges). */
    static Fabric make(Fabric regular) {
        return new IrregularMaker(regular).make();
    }

    /** The register of a cell has pins of its own. */
    private static FabricInfo withOwnRegister(FabricInfo info) {
        List<CellKind> kinds =
                info.cellKinds().stream()
                        .map(
                                kind ->
                                        kind.register().isPresent()
                                                ? CellKind.register(
                                                        kind.name(),
                                                        withOwnPins(kind.register().get()))
                                                : kind)
                        .toList();
        return new FabricInfo(
                info.name(), info.note(), kinds, info.settings(), info.banks(), info.electrical());
    }

    private static CellFunction.Register withOwnPins(CellFunction.Register register) {
        return new CellFunction.Register(
                "d",
                "clk",
                "q",
                register.enable(),
                register.reset(),
                register.initial(),
                register.initialSetting(),
                register.clockToOutput(),
                register.setup(),
                register.hold());
    }

    private Fabric make() {
        for (int tile = 0; tile < regular.tileCount(); tile++) {
            String type = isCutOut(tile) ? "void" : regular.tileType(tile);
            builder.addTile(column(tile), row(tile), type);
        }
        addWires();
        addGlobal();
        addBends();
        addSites();
        addPads();
        addEdges();
        addDirectSwitches();
        addTapSwitches();
        addBendSwitches();
        return builder.build();
    }

    private int column(int tile) {
        return tile % columns;
    }

    private int row(int tile) {
        return tile / columns;
    }

    /** The upper right corner is not there. */
    private boolean isCutOut(int tile) {
        return column(tile) >= columns - cut && row(tile) >= rows - cut;
    }

    private boolean isClock(int vertex) {
        return regular.wireKind(vertex).startsWith("clock");
    }

    private void addWires() {
        for (int v = 0; v < regular.vertexCount(); v++) {
            boolean there =
                    regular.kind(v) == VertexKind.WIRE
                            && !isCutOut(regular.tile(v))
                            && !isCutOut(regular.headTile(v));
            if (there && !isClock(v)) {
                int wire =
                        builder.addWire(
                                regular.vertexName(v),
                                regular.tile(v),
                                regular.headTile(v),
                                regular.wireKind(v));
                madeOf.put(v, wire);
                for (int tap : tapsOf(v)) {
                    boolean atAnEnd = tap == regular.tile(v) || tap == regular.headTile(v);
                    builder.addTap(wire, tap, atAnEnd ? "" : nameAt(v, tap));
                }
            }
        }
    }

    /** Wires of three tiles can be left after one, those of seven after two and after four. */
    private IntArrayList tapsOf(int wire) {
        int from = regular.tile(wire);
        int to = regular.headTile(wire);
        int length = Math.abs(column(to) - column(from)) + Math.abs(row(to) - row(from));
        IntArrayList taps = new IntArrayList();
        if (length < 3) {
            return taps;
        }
        int step = (to - from) / length;
        taps.add(from);
        for (int at : length == 3 ? new int[] {1} : new int[] {2, 4}) {
            taps.add(from + at * step);
        }
        taps.add(to);
        return taps;
    }

    /** {@code x4y2/run3_e_from_x3y2[1]}: what the wire is called on its way. */
    private String nameAt(int wire, int tile) {
        String own = regular.vertexName(wire);
        String local = own.substring(own.indexOf('/') + 1);
        int index = local.indexOf('[');
        return regular.tileName(tile)
                + "/"
                + local.substring(0, index)
                + "_by"
                + Math.abs(column(tile) - column(regular.tile(wire)))
                + Math.abs(row(tile) - row(regular.tile(wire)))
                + local.substring(index);
    }

    /** All clock wires as one, with a tap wherever one of them led to a pin. */
    private void addGlobal() {
        IntLinkedOpenHashSet taps = new IntLinkedOpenHashSet();
        EdgeCursor out = regular.edgesOut();
        EdgeCursor in = regular.edgesIn();
        int begin = Fabric.NOTHING;
        for (int v = 0; v < regular.vertexCount(); v++) {
            if (!isClock(v)) {
                continue;
            }
            in.reset(v);
            while (in.next() && begin == Fabric.NOTHING) {
                if (!isClock(in.other())) {
                    begin = regular.tile(v);
                }
            }
            out.reset(v);
            while (out.next()) {
                int tile = regular.tile(out.other());
                if (!isClock(out.other()) && !isCutOut(tile)) {
                    taps.add(tile);
                }
            }
        }
        if (begin == Fabric.NOTHING) {
            return;
        }
        global = builder.addWire(GLOBAL, begin, begin, GLOBAL);
        builder.addTap(global, begin, "");
        taps.remove(begin);
        taps.forEach(t -> builder.addTap(global, t, regular.tileName(t) + "/" + GLOBAL));
    }

    /** Near the right and the left rim, wires to the rim go on along it. */
    private void addBends() {
        for (int row = 1; row < rows - 1; row++) {
            for (int side : new int[] {-1, 1}) {
                int rim = side < 0 ? 0 : columns - 1;
                for (int away = 1; away < 3; away++) {
                    addBend(row * columns + rim - side * away, row * columns + rim, 3 - away);
                }
            }
        }
    }

    private void addBend(int begin, int corner, int rest) {
        int up = row(corner) + rest < rows - 1 ? rest : -rest;
        int end = corner + up * columns;
        if (isCutOut(begin) || isCutOut(corner) || isCutOut(end) || row(end) < 1) {
            return;
        }
        String name = regular.tileName(begin) + "/bend" + (corner > begin ? "_e" : "_w");
        int wire = builder.addWire(name, begin, end, "bend");
        for (int tap : new int[] {begin, corner, end}) {
            builder.addTap(wire, tap, "");
        }
        bends.add(new int[] {wire, begin, corner, end});
    }

    private void addSites() {
        for (int s = 0; s < regular.siteCount(); s++) {
            SiteView site = regular.site(s);
            if (isCutOut(site.tile())) {
                continue;
            }
            if (site.kind().equals("logic")) {
                addParts(site);
            } else {
                builder.addSite(site.name(), site.tile(), site.kind(), site.accepts(), site.pins());
            }
            for (int pin = 0; pin < site.pins().size(); pin++) {
                String name = site.name() + "." + site.pins().get(pin).name();
                madeOf.put(site.firstPin() + pin, builder.findVertex(name));
            }
        }
    }

    /** Lookup table and register instead of one or the other; both can be fed from outside. */
    private void addParts(SiteView site) {
        List<SitePin> pins =
                site.pins().stream()
                        .filter(pin -> !pin.name().equals("clk"))
                        .map(IrregularMaker::ofTable)
                        .toList();
        List<Integer> tiles = List.of(site.tile());
        builder.addPart(site.name(), TABLE, tiles, site.kind(), List.of("lookup-table"), pins);
        List<SitePin> own =
                List.of(
                        new SitePin("d", PinDirection.IN),
                        new SitePin("clk", PinDirection.IN),
                        new SitePin("q", PinDirection.OUT));
        builder.addPart(site.name(), REGISTER, tiles, site.kind(), List.of("register"), own);
        registerPinOf.put(site.findPin("in[0]"), builder.findVertex(site.name() + ".d"));
        registerPinOf.put(site.findPin("out"), builder.findVertex(site.name() + ".q"));
    }

    /** All inputs of a lookup table can take each other's signal. */
    private static SitePin ofTable(SitePin pin) {
        return pin.direction() == PinDirection.IN
                ? new SitePin(pin.name(), pin.direction(), "inputs")
                : pin;
    }

    private void addPads() {
        int number = 0;
        for (Pad pad : regular.pads()) {
            number++;
            if (isCutOut(pad.tile())) {
                continue;
            }
            boolean clock = regular.tileType(pad.tile()).equals("rim-clock");
            PadUse use = clock ? new PadUse(PadUse.Bonding.BONDED, PadUse.Role.CLOCK) : use(number);
            boolean bonded = use.bonding() == PadUse.Bonding.BONDED;
            int vertex =
                    builder.addPad(
                            pad.name(),
                            pad.tile(),
                            bonded ? pad.packagePin() : "",
                            pad.bank(),
                            pad.directions(),
                            site(pad.dataSite()),
                            site(pad.enableSite()),
                            pad.defaultSetting(),
                            use,
                            pad.enable());
            madeOf.put(pad.vertex(), vertex);
        }
    }

    private static PadUse use(int number) {
        PadUse.Bonding bonding =
                number % UNBONDED_ONE_IN == 0 ? PadUse.Bonding.UNBONDED : PadUse.Bonding.BONDED;
        PadUse.Role role =
                switch (number) {
                    case 1, 2 -> PadUse.Role.CONFIGURATION;
                    case 3, 4 -> PadUse.Role.TEST;
                    case 5 -> PadUse.Role.REFERENCE;
                    default -> PadUse.Role.GENERAL;
                };
        return new PadUse(bonding, role);
    }

    private int site(int site) {
        return site == Fabric.NOTHING
                ? Fabric.NOTHING
                : builder.findSite(regular.site(site).name());
    }

    private void addEdges() {
        IntLinkedOpenHashSet intoGlobal = new IntLinkedOpenHashSet();
        IntLinkedOpenHashSet outOfGlobal = new IntLinkedOpenHashSet();
        EdgeCursor edges = regular.edgesOut();
        for (int v = 0; v < regular.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                int from = madeOf.get(v);
                int to = madeOf.get(edges.other());
                if (from != Fabric.NOTHING && to != Fabric.NOTHING) {
                    builder.addEdge(from, to, edges.kind(), edges.delay());
                    addToRegister(v, edges);
                } else if (from != Fabric.NOTHING && isClock(edges.other())) {
                    if (intoGlobal.add(from)) {
                        builder.addEdge(from, global, edges.kind(), edges.delay());
                    }
                } else if (isClock(v) && to != Fabric.NOTHING && outOfGlobal.add(to)) {
                    builder.addEdge(global, to, edges.kind(), edges.delay());
                }
            }
        }
    }

    /** The switches of a register's pins are like those of the table's. */
    private void addToRegister(int vertex, EdgeCursor edge) {
        if (edge.kind() != EdgeKind.SWITCH) {
            return;
        }
        int from = registerPinOf.get(vertex);
        int to = registerPinOf.get(edge.other());
        if (from != Fabric.NOTHING) {
            builder.addEdge(from, madeOf.get(edge.other()), edge.kind(), edge.delay());
        }
        if (to != Fabric.NOTHING) {
            builder.addEdge(madeOf.get(vertex), to, edge.kind(), edge.delay());
        }
    }

    /** From each lookup table to the register of its cell. */
    private void addDirectSwitches() {
        for (int s = 0; s < regular.siteCount(); s++) {
            SiteView site = regular.site(s);
            if (site.kind().equals("logic") && !isCutOut(site.tile())) {
                int out = madeOf.get(site.findPin("out"));
                int data = registerPinOf.get(site.findPin("in[0]"));
                builder.addEdge(out, data, EdgeKind.SWITCH, DIRECT);
            }
        }
    }

    /**
     * On their way, long wires lead to short ones, and the longest can be entered from these. One
     * multiplexer serves both directions of a row, and one those of a column: only one of the two
     * switches can be on.
     */
    private void addTapSwitches() {
        for (int v = 0; v < regular.vertexCount(); v++) {
            int wire = madeOf.get(v);
            if (wire == Fabric.NOTHING || regular.kind(v) != VertexKind.WIRE) {
                continue;
            }
            IntArrayList taps = tapsOf(v);
            for (int i = 1; i < taps.size() - 1; i++) {
                int tap = taps.getInt(i);
                for (String direction : FabricMaker.DIRECTIONS) {
                    int index = (v + i) % 6;
                    int to = shortWire(tap, direction, index);
                    connect(wire, to, tap, TURN_OFF);
                    if (to != Fabric.NOTHING) {
                        boolean alongRow = direction.equals("e") || direction.equals("w");
                        String group = nameAt(v, tap) + (alongRow ? "/row" : "/column");
                        builder.addToSwitchGroup(group, wire, to);
                    }
                    if (taps.size() > 3 && i == 1) {
                        int before = comingInto(tap, direction, (index + 2) % 6);
                        connect(before, wire, tap, TURN_ON);
                    }
                }
            }
        }
    }

    private void connect(int from, int to, int tile, Delay delay) {
        if (from != Fabric.NOTHING && to != Fabric.NOTHING) {
            builder.addEdge(from, to, EdgeKind.SWITCH, delay);
            builder.setSwitchTile(from, to, tile);
        }
    }

    /** A wire of one tile that begins in a tile. */
    private int shortWire(int tile, String direction, int index) {
        return builder.findVertex(
                regular.tileName(tile) + "/" + FabricMaker.kind(1, direction) + "[" + index + "]");
    }

    /** A wire of one tile that ends in a tile. */
    private int comingInto(int tile, String direction, int index) {
        int column = column(tile) - (direction.equals("e") ? 1 : direction.equals("w") ? -1 : 0);
        int row = row(tile) - (direction.equals("n") ? 1 : direction.equals("s") ? -1 : 0);
        return column < 0 || row < 0 || column >= columns || row >= rows
                ? Fabric.NOTHING
                : shortWire(row * columns + column, direction, index);
    }

    private void addBendSwitches() {
        for (int[] bend : bends) {
            for (String direction : FabricMaker.DIRECTIONS) {
                connect(comingInto(bend[1], direction, 1), bend[0], bend[1], BEND);
                connect(bend[0], shortWire(bend[2], direction, 3), bend[2], TURN_OFF);
                connect(bend[0], shortWire(bend[3], direction, 5), bend[3], TURN_OFF);
            }
        }
    }
}
