package padward.example;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import padward.design.Design;
import padward.design.NetLock;
import padward.design.PortDirection;
import padward.fabric.pad.PadDirections;

/**
 * Small random explicit fabrics and designs with what a file may hold and real ones seldom do: pads
 * that lead on and through which other pads are reached, pads in one direction only, settings that
 * do not fit, enables on any site, sites without pins, cells that let signals through, ports
 * without nets, nets that are on pads already, nets with sinks and no route, nets that end in the
 * air. All that is made, a file of a design may say.
 */
public final class OddDesigns {
    private final Random random;

    /** From this seed on, switches exclude each other in groups. */
    public static final long WITH_SWITCH_GROUPS = 1_000_000_000;

    /** From this seed on, sites have parts, of which some drive others directly. */
    public static final long WITH_PARTS = 2_000_000_000;

    /** From this seed on, some cells and nets are locked, and some wires and sites unusable. */
    public static final long WITH_LOCKS = 3_000_000_000L;

    /** From this seed on, nets come to pads at which the port in both directions reads another. */
    public static final long WITH_TWO_NETS_ON_PADS = 4_000_000_000L;

    /** From this seed on, pins of sites are alike. */
    public static final long WITH_ALIKE_PINS = 5_000_000_000L;

    private final HandMade made = new HandMade();
    private final List<String> wires = new ArrayList<>();
    private final List<String> pads = new ArrayList<>();
    private final List<String> inPins = new ArrayList<>();
    private final List<String> outPins = new ArrayList<>();
    private final Map<String, String> siteOf = new HashMap<>();
    private final Map<String, List<String>> edges = new LinkedHashMap<>();
    private final Set<String> through = new HashSet<>();
    private final Map<String, String> cellOn = new LinkedHashMap<>();
    private final Set<String> openCells = new HashSet<>();
    private final Map<String, PadDirections> directions = new HashMap<>();
    private final Map<String, PortDirection> portOn = new LinkedHashMap<>();
    private final Set<String> taken = new HashSet<>();
    private final Set<String> ended = new HashSet<>();
    private final Map<String, String> netThrough = new HashMap<>();
    private final boolean grouped;
    private final boolean locked;
    private final boolean twoNets;
    private final boolean alike;
    private final Set<String> shared = new HashSet<>();
    private final boolean parted;
    private final List<String> switches = new ArrayList<>();
    private final Map<String, String> groupOf = new HashMap<>();
    private final Set<String> groupsOn = new HashSet<>();

    private int netCount;
    private final List<String> roots = new ArrayList<>();
    private final Map<String, String> rootOf = new HashMap<>();

    /** Of a hundred ends of routes at pins of cells, how many are sinks and not in the air. */
    private final int ends;

    private OddDesigns(long seed) {
        this.random = new Random(seed);
        this.alike = seed >= WITH_ALIKE_PINS;
        this.twoNets = seed >= WITH_TWO_NETS_ON_PADS && !alike;
        this.locked = seed >= WITH_LOCKS && (seed < WITH_TWO_NETS_ON_PADS || seed % 4 == 0);
        this.parted = seed >= WITH_PARTS && (seed < WITH_LOCKS || seed % 5 == 0);
        this.grouped =
                seed >= WITH_SWITCH_GROUPS && !twoNets && (seed < WITH_PARTS || seed % 3 == 0);
        this.ends = seed % 3 == 0 ? 30 : 85;
    }

    /** A design; it may have no nets. */
    public static Design make(long seed) {
        OddDesigns odd = new OddDesigns(seed);
        odd.makeFabric(true);
        odd.makeCellsAndPorts();
        odd.makeNets();
        odd.lockSome();
        return odd.made.design();
    }

    /** A design on a fabric that knows no settings, so that edits name none. */
    public static Design withoutSettings(long seed) {
        OddDesigns odd = new OddDesigns(seed);
        odd.makeFabric(false);
        odd.makeCellsAndPorts();
        odd.makeNets();
        odd.lockSome();
        return odd.made.design();
    }

    /** One cell, net, wire and site in so many; what a design uses may be unusable. */
    private void lockSome() {
        if (!locked) {
            return;
        }
        cellOn.values().stream().filter(c -> chance(20)).forEach(made::lockCell);
        for (int n = 0; n < netCount; n++) {
            if (chance(18)) {
                made.lockNet("n" + n, chance(75) ? NetLock.WIRES : NetLock.WHOLE);
            }
        }
        wires.stream().filter(w -> chance(10)).forEach(made::unusable);
        siteOf.values().stream().distinct().sorted().filter(s -> chance(8)).forEach(made::unusable);
    }

    private boolean chance(int percent) {
        return random.nextInt(100) < percent;
    }

    private String any(List<String> names) {
        return names.get(random.nextInt(names.size()));
    }

    private void makeFabric(boolean settings) {
        if (settings) {
            made.setting("lv33", 3300).setting("lv18", 1800);
            made.bank("A", 3300).bank("B", 1800).bank("C", 2500);
        }
        int count = 5 + random.nextInt(8);
        for (int i = 0; i < count; i++) {
            wires.add("w" + i);
        }
        made.wires(String.join(" ", wires));
        List<String> sites = new ArrayList<>();
        int siteCount = 3 + random.nextInt(4);
        for (int i = 0; i < siteCount; i++) {
            // Two or three parts make a site.
            String whole = parted ? "Z" + i / 3 : "S" + i;
            String site = parted ? whole + "/S" + i : whole;
            sites.add(site);
            makeSite(site, whole, parted ? "S" + i : "");
        }
        int padCount = 2 + random.nextInt(3);
        for (int i = 0; i < padCount; i++) {
            String pad = "P" + i;
            pads.add(pad);
            PadDirections to =
                    chance(70)
                            ? PadDirections.BOTH
                            : chance(70) ? PadDirections.OUT : PadDirections.IN;
            directions.put(pad, to);
            String bank = settings && chance(60) ? any(List.of("A", "A", "B", "C")) : "";
            String set = settings && chance(50) ? any(List.of("lv33", "lv18")) : "";
            made.pad(pad, to, bank, chance(25) ? any(sites) : "", set);
        }
        makeSwitches();
        if (grouped) {
            makeGroups();
        }
    }

    /** Some of the switches, in groups of two to four. */
    private void makeGroups() {
        List<String> left = new ArrayList<>(switches);
        Collections.shuffle(left, random);
        int count = 1 + random.nextInt(6);
        for (int g = 0; g < count && left.size() > 4; g++) {
            List<String> members = left.subList(0, 2 + random.nextInt(3));
            for (String one : members) {
                groupOf.put(one, "g" + g);
            }
            made.switchGroup("g" + g, members.toArray(new String[0]));
            members.clear();
        }
    }

    private void makeSite(String site, String whole, String part) {
        List<String> in = new ArrayList<>();
        List<String> out = new ArrayList<>();
        if (!chance(8)) {
            for (int k = random.nextInt(4); k > 0; k--) {
                in.add(part + "i" + in.size());
            }
            for (int k = 1 + random.nextInt(2); k > 0; k--) {
                out.add(part + "o" + out.size());
            }
        }
        String stated = String.join(alike ? "~x " : " ", in) + (alike && !in.isEmpty() ? "~x" : "");
        if (part.isEmpty()) {
            made.site(site, stated, String.join(" ", out));
        } else {
            made.part(whole, part, stated, String.join(" ", out));
        }
        for (String pin : in) {
            inPins.add(whole + "." + pin);
            siteOf.put(whole + "." + pin, site);
        }
        for (String pin : out) {
            outPins.add(whole + "." + pin);
            siteOf.put(whole + "." + pin, site);
        }
        for (String from : in) {
            for (String to : out) {
                if (chance(50)) {
                    made.through(whole, from, to);
                    through.add(whole + "." + from + " " + whole + "." + to);
                    edge(whole + "." + from, whole + "." + to);
                }
            }
        }
    }

    private void edge(String from, String to) {
        edges.computeIfAbsent(from, f -> new ArrayList<>()).add(to);
    }

    private void join(String from, String to) {
        boolean there = edges.getOrDefault(from, List.of()).contains(to);
        if (!from.equals(to) && !there) {
            int fast = 1 + random.nextInt(60);
            made.chain(from + " " + to, fast, fast + random.nextInt(90));
            switches.add(from + " " + to);
            edge(from, to);
        }
    }

    private void makeSwitches() {
        for (String wire : wires) {
            join(wire, any(wires));
            join(wire, any(wires));
        }
        for (String pin : outPins) {
            join(pin, any(wires));
            if (chance(50)) {
                join(pin, chance(25) ? any(pads) : any(wires));
            }
        }
        for (String pin : inPins) {
            join(any(wires), pin);
            if (chance(50)) {
                join(any(wires), pin);
            }
        }
        if (parted) {
            joinParts();
        }
        for (String pad : pads) {
            join(any(wires), pad);
            if (chance(60)) {
                join(pad, any(wires));
            }
            if (chance(10)) {
                join(pad, any(pads));
            }
        }
    }

    /** Direct connections inside a site, as from a lookup table to the register beside it. */
    private void joinParts() {
        for (String from : outPins) {
            for (String to : inPins) {
                boolean beside =
                        !siteOf.get(from).equals(siteOf.get(to))
                                && from.substring(0, from.indexOf('.'))
                                        .equals(to.substring(0, to.indexOf('.')));
                if (beside && chance(30)) {
                    join(from, to);
                }
            }
        }
    }

    private void makeCellsAndPorts() {
        for (String site : new HashSet<>(siteOf.values()).stream().sorted().toList()) {
            if (chance(60)) {
                String cell = "c" + site.substring(site.indexOf('S') + 1);
                cellOn.put(site, cell);
                if (chance(40)) {
                    openCells.add(cell);
                    made.openCell(cell, site);
                } else {
                    made.cell(cell, site);
                }
            }
        }
        for (String pad : pads) {
            if (chance(50)) {
                PortDirection direction =
                        switch (directions.get(pad)) {
                            case IN -> PortDirection.IN;
                            case OUT -> PortDirection.OUT;
                            case BOTH ->
                                    List.of(PortDirection.IN, PortDirection.OUT, PortDirection.BOTH)
                                            .get(random.nextInt(3));
                        };
                portOn.put(pad, direction);
                made.port("port" + pad, direction, pad);
            }
        }
    }

    private void makeNets() {
        for (String pin : outPins) {
            if (cellOn.containsKey(siteOf.get(pin)) && chance(70)) {
                roots.add(pin);
            }
        }
        portOn.forEach(
                (pad, direction) -> {
                    if (direction != PortDirection.OUT && chance(twoNets ? 80 : 50)) {
                        roots.add(pad);
                    }
                });
        Collections.shuffle(roots, random);
        taken.addAll(roots);
        for (int i = 0; i < roots.size(); i++) {
            makeNet("n" + i, roots.get(i));
        }
        netCount = roots.size();
    }

    private String end(String vertex) {
        String site = siteOf.get(vertex);
        return site == null
                ? "port" + vertex
                : cellOn.get(site) + vertex.substring(vertex.indexOf('.'));
    }

    private boolean canBeSink(String vertex) {
        String site = siteOf.get(vertex);
        if (site != null) {
            return inPins.contains(vertex) && cellOn.containsKey(site);
        }
        return portOn.containsKey(vertex) && portOn.get(vertex) != PortDirection.IN;
    }

    private void makeNet(String name, String root) {
        List<String> tree = new ArrayList<>(List.of(root));
        rootOf.put(name, root);
        List<String> steps = new ArrayList<>();
        Set<String> led = new HashSet<>();
        int most = chance(25) ? 0 : random.nextInt(9);
        for (int k = 0; k < most; k++) {
            // Mostly on from the newest vertex, so that routes get long.
            String from = chance(70) ? tree.get(tree.size() - 1) : any(tree);
            List<String> next = edges.getOrDefault(from, List.of());
            if (!next.isEmpty()) {
                String to = any(next);
                String group = groupOf.get(from + " " + to);
                if (mayStep(name, from, to) && (group == null || groupsOn.add(group))) {
                    steps.add(from + " " + to);
                    led.add(from);
                    tree.add(to);
                    taken.add(to);
                    if (through.contains(from + " " + to)) {
                        netThrough.put(siteOf.get(to), name);
                    }
                }
            }
        }
        List<String> sinks = new ArrayList<>();
        for (String vertex : tree.subList(1, tree.size())) {
            boolean wanted = canBeSink(vertex) && chance(led.contains(vertex) ? 30 : ends);
            if (wanted && ended.add(vertex)) {
                sinks.add(end(vertex));
            }
        }
        if (steps.isEmpty() && chance(40) && !inPins.isEmpty()) {
            String pin = any(inPins);
            if (canBeSink(pin) && ended.add(pin)) {
                sinks.add(end(pin));
            }
        }
        made.net(name, end(root), String.join(" ", sinks), steps.toArray(new String[0]));
    }

    private boolean mayStep(String net, String from, String to) {
        if (taken.contains(to)) {
            // One net may come to a pad where another one starts, if the port goes both ways.
            return twoNets
                    && portOn.get(to) == PortDirection.BOTH
                    && roots.contains(to)
                    && !to.equals(rootOf.get(net))
                    && shared.add(to);
        }
        String site = siteOf.get(to);
        if (through.contains(from + " " + to)) {
            String cell = cellOn.get(site);
            boolean shut = cell != null && !openCells.contains(cell);
            return !shut && netThrough.getOrDefault(site, net).equals(net);
        }
        // Nets that drive other pads are rare.
        return site != null || !pads.contains(to) || canBeSink(to) || chance(20);
    }
}
