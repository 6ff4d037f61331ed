package padward.fabric;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/**
 * An explicit fabric as lists and maps, the plainest way to keep one, filled at random: names of
 * all sorts, tiles in any order, some alike and some not, sites without pins, edges stated twice.
 */
public final class PlainFabric {
    public record Vertex(
            String name, VertexKind kind, int tile, int head, String wireKind, int site) {}

    public record Site(
            String name, int tile, String kind, List<String> accepts, List<SitePin> pins) {}

    public record Edge(EdgeKind kind, Delay delay) {}

    final int columns;
    final int rows;
    public final Map<Integer, String> tileTypes = new HashMap<>();
    public final List<Vertex> vertices = new ArrayList<>();
    public final List<Site> sites = new ArrayList<>();
    public final List<Pad> pads = new ArrayList<>();
    public final Map<List<Integer>, Edge> edges = new LinkedHashMap<>();
    public final List<List<String>> repeated = new ArrayList<>();

    /** By the number of a wire as it was added its taps, where it has any. */
    public final Map<Integer, List<Tap>> taps = new HashMap<>();

    /** By the ends of an edge the tile that was stated for it. */
    public final Map<List<Integer>, Integer> switchTiles = new HashMap<>();

    public final ExplicitBuilder builder;
    private final Random random;
    private final Random tapRandom;

    /** Vertices and sites as they were added, in the order of their final numbers. */
    public List<Integer> vertexOrder = List.of();

    public List<Integer> siteOrder = List.of();

    public PlainFabric(long seed) {
        random = new Random(seed);
        tapRandom = new Random(~seed);
        columns = 1 + random.nextInt(12);
        rows = 1 + random.nextInt(12);
        builder =
                new ExplicitBuilder(
                        new FabricInfo("plain", "", List.of(), List.of(), List.of()),
                        columns,
                        rows);
        fill();
        vertexOrder = sorted(vertices.stream().map(Vertex::tile).toList());
        siteOrder = sorted(sites.stream().map(Site::tile).toList());
    }

    private static List<Integer> sorted(List<Integer> tiles) {
        return IntStream.range(0, tiles.size())
                .boxed()
                .sorted(Comparator.comparingInt(tiles::get))
                .toList();
    }

    private void fill() {
        boolean alike = random.nextBoolean();
        int groups = 1 + random.nextInt(30);
        for (int i = 0; i < groups; i++) {
            int tile = random.nextInt(columns * rows);
            if (random.nextInt(3) == 0) {
                tileTypes.put(tile, "type" + random.nextInt(3));
                builder.addTile(tile % columns, tile / columns, tileTypes.get(tile));
            }
            for (int w = alike ? 3 : random.nextInt(6); w > 0; w--) {
                addWire(alike ? place(tile) + "/w" + w : name(tile), tile);
            }
            addTaps();
            if (random.nextInt(3) > 0) {
                addSite(alike ? place(tile) + "/s" : name(tile), tile, alike ? 2 : -1);
            }
            if (!sites.isEmpty() && random.nextInt(4) == 0) {
                addPad(name(tile), tile);
            }
        }
        int count = vertices.size();
        for (int e = count < 2 ? 0 : random.nextInt(6 * count); e > 0; e--) {
            addEdge(random.nextInt(count), random.nextInt(random.nextBoolean() ? count : 2));
        }
    }

    private String place(int tile) {
        return "x" + tile % columns + "y" + tile / columns;
    }

    private String name(int tile) {
        String number = "[" + random.nextInt(20) + "]";
        return switch (random.nextInt(12)) {
            case 0 -> "plain" + number;
            case 1 -> "x0" + tile % columns + "y0" + tile / columns + number;
            case 2 -> place(random.nextInt(columns * rows)) + "/elsewhere" + number;
            case 3 -> "R" + place(tile).toUpperCase(Locale.ROOT) + "B" + number;
            case 4 -> place(tile) + place(tile) + number;
            case 5 -> place(tile) + "/ß→\uD83D\uDD27" + number;
            case 6 -> "x999999y1/out" + place(tile) + "X1y1" + number;
            case 7 -> "xx1y" + number;
            case 8 -> "half\uD83D" + number;
            default -> place(tile) + "/w" + number;
        };
    }

    private Delay delay() {
        int fast = random.nextInt(random.nextBoolean() ? 3 : 1000);
        return new Delay(fast, fast + random.nextInt(2));
    }

    public boolean isTaken(String name) {
        return vertices.stream().anyMatch(v -> v.name().equals(name)) || tapped(name).isPresent();
    }

    /** The wire that has a name at a tap. */
    private Optional<Integer> tapped(String name) {
        return taps.keySet().stream()
                .filter(w -> taps.get(w).stream().anyMatch(t -> t.name().equals(name)))
                .findFirst();
    }

    /** The vertex that has a name, its own or one at a tap, as it was added. */
    public Optional<Integer> find(String name) {
        return IntStream.range(0, vertices.size())
                .boxed()
                .filter(v -> vertices.get(v).name().equals(name))
                .findFirst()
                .or(() -> tapped(name));
    }

    /** Taps of any of the wires so far, some with names that others have. */
    private void addTaps() {
        for (int n = tapRandom.nextInt(6); n > 0 && !vertices.isEmpty(); n--) {
            int wire = tapRandom.nextInt(vertices.size());
            if (vertices.get(wire).kind() != VertexKind.WIRE) {
                continue;
            }
            int tile = tapRandom.nextInt(columns * rows);
            String name =
                    switch (tapRandom.nextInt(4)) {
                        case 0 -> "";
                        case 1 -> vertices.get(tapRandom.nextInt(vertices.size())).name();
                        case 2 -> "strange" + tapRandom.nextInt(9);
                        default -> place(tile) + "/tap" + tapRandom.nextInt(4);
                    };
            boolean free = name.isEmpty() || find(name).filter(v -> v != wire).isEmpty();
            check(builder.addTap(wire, tile, name) == free, name);
            if (free) {
                String shown = name.isEmpty() ? vertices.get(wire).name() : name;
                taps.computeIfAbsent(wire, w -> new ArrayList<>()).add(new Tap(tile, shown));
            }
        }
    }

    private void addWire(String name, int tile) {
        int head = random.nextInt(columns * rows);
        String kind = "kind" + random.nextInt(3);
        int added = builder.addWire(name, tile, head, kind);
        if (isTaken(name)) {
            check(added == Fabric.NOTHING, name);
        } else {
            check(added == vertices.size(), name);
            vertices.add(new Vertex(name, VertexKind.WIRE, tile, head, kind, Fabric.NOTHING));
        }
    }

    private void addSite(String name, int tile, int pinCount) {
        List<SitePin> pins =
                IntStream.range(0, pinCount < 0 ? random.nextInt(4) : pinCount)
                        .mapToObj(PlainFabric::pin)
                        .toList();
        // a name in use is another test's matter: it would leave half a site behind
        if (sites.stream().anyMatch(s -> s.name().equals(name))
                || pins.stream().anyMatch(p -> isTaken(name + "." + p.name()))) {
            return;
        }
        List<String> accepts = List.of("c" + random.nextInt(2));
        int added = builder.addSite(name, tile, "logic", accepts, pins);
        check(added == sites.size(), name);
        for (SitePin pin : pins) {
            String full = name + "." + pin.name();
            vertices.add(new Vertex(full, VertexKind.PIN, tile, tile, "", sites.size()));
        }
        sites.add(new Site(name, tile, "logic", accepts, pins));
    }

    private static SitePin pin(int i) {
        return new SitePin("p" + i, PinDirection.values()[i % 2], i % 4 == 0 ? "even" : "");
    }

    private void addPad(String name, int tile) {
        if (isTaken(name)) {
            return;
        }
        int data = random.nextInt(sites.size() + 1) - 1;
        int enable = random.nextInt(sites.size() + 1) - 1;
        PadUse use =
                new PadUse(
                        PadUse.Bonding.values()[tapRandom.nextInt(3)],
                        PadUse.Role.values()[tapRandom.nextInt(6)]);
        PadEnable traits =
                new PadEnable(
                        PadEnable.Active.values()[tapRandom.nextInt(3)],
                        PadEnable.Unconnected.values()[tapRandom.nextInt(3)]);
        int vertex =
                builder.addPad(
                        name, tile, "p", "b", PadDirections.BOTH, data, enable, "", use, traits);
        pads.add(
                new Pad(
                        name,
                        vertex,
                        tile,
                        "p",
                        "b",
                        PadDirections.BOTH,
                        data,
                        enable,
                        "",
                        use,
                        traits));
        vertices.add(new Vertex(name, VertexKind.PAD, tile, tile, "", Fabric.NOTHING));
    }

    private void addEdge(int from, int to) {
        Edge edge = new Edge(EdgeKind.values()[random.nextInt(3)], delay());
        builder.addEdge(from, to, edge.kind(), edge.delay());
        if (tapRandom.nextInt(3) == 0) {
            int tile = tapRandom.nextInt(columns * rows);
            builder.setSwitchTile(from, to, tile);
            switchTiles.put(List.of(from, to), tile);
        }
        if (edges.putIfAbsent(List.of(from, to), edge) != null) {
            repeated.add(List.of(vertices.get(from).name(), vertices.get(to).name()));
        }
    }

    private static void check(boolean used, String name) {
        if (!used) {
            throw new AssertionError("number of " + name);
        }
    }
}
