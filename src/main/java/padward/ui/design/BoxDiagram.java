package padward.ui.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.fabric.VertexKind;

/**
 * The inside of one tile's switch box, as a diagram: a column of all that a switch leaves, at the
 * left, and a column of all that a switch enters, at the right, in rows from top to bottom. Wires
 * of one kind, and pins of one site, are together. Both columns fit into the disc of the box,
 * whatever the number of rows.
 */
public final class BoxDiagram {
    /** Distance of both columns from the middle of the box, world units. */
    public static final double HALF_WIDTH = 0.048;

    private static final double HALF_HEIGHT = 0.092;

    /** Rows are never farther apart than this, world units. */
    private static final double MOST_PITCH = 0.012;

    /** A switch, by the rows of its two ends. */
    public record Switch(int from, int to) {}

    /**
     * Switches of the box of which one can be on.
     *
     * @param name name of the group
     * @param switches those of its switches that are in the box
     */
    public record Group(String name, List<Switch> switches) {}

    private final TileLayout.Point middle;
    private final Column inputs;
    private final Column outputs;
    private final List<Switch> switches;
    private final List<Group> groups;

    /** One column: its vertices from top to bottom, and where each is. */
    private static final class Column {
        private final int[] vertices;
        private final double[] heights;
        private final double pitch;
        private final Int2IntOpenHashMap places = new Int2IntOpenHashMap();

        Column(Fabric fabric, IntSet all) {
            vertices =
                    IntStream.of(all.toIntArray())
                            .boxed()
                            .sorted(
                                    Comparator.comparing((Integer v) -> family(fabric, v))
                                            .thenComparing(v -> v))
                            .mapToInt(v -> v)
                            .toArray();
            places.defaultReturnValue(Fabric.NOTHING);
            double[] rows = new double[vertices.length];
            double row = 0;
            for (int i = 0; i < vertices.length; i++) {
                places.put(vertices[i], i);
                boolean begins =
                        i > 0
                                && !family(fabric, vertices[i])
                                        .equals(family(fabric, vertices[i - 1]));
                row += i == 0 ? 0 : begins ? 1.6 : 1;
                rows[i] = row;
            }
            pitch = row == 0 ? MOST_PITCH : Math.min(MOST_PITCH, 2 * HALF_HEIGHT / row);
            heights = new double[vertices.length];
            for (int i = 0; i < rows.length; i++) {
                heights[i] = (row / 2 - rows[i]) * pitch;
            }
        }

        /** What belongs together: pins of a site, wires of a kind. */
        private static String family(Fabric fabric, int vertex) {
            return switch (fabric.kind(vertex)) {
                case WIRE -> "b" + fabric.wireKind(vertex);
                case PIN -> "a" + fabric.site(fabric.siteOf(vertex)).wholeName();
                case PAD -> "c";
            };
        }

        OptionalInt nearest(double height) {
            int best = Fabric.NOTHING;
            double least = pitch * 0.8;
            for (int i = 0; i < heights.length; i++) {
                double away = Math.abs(heights[i] - height);
                if (away < least) {
                    least = away;
                    best = vertices[i];
                }
            }
            return best == Fabric.NOTHING ? OptionalInt.empty() : OptionalInt.of(best);
        }
    }

    private BoxDiagram(
            TileLayout.Point middle,
            Column inputs,
            Column outputs,
            List<Switch> switches,
            List<Group> groups) {
        this.middle = middle;
        this.inputs = inputs;
        this.outputs = outputs;
        this.switches = switches;
        this.groups = groups;
    }

    /**
     * The diagram of a tile's box. What leads from pin to pin is no part of it: it is drawn between
     * the sites. O(switches of the box).
     */
    static BoxDiagram of(OpenDesign opened, int tile) {
        Fabric fabric = opened.design().fabric();
        TileLayout layout = opened.layout();
        IntArrayList ends = new IntArrayList();
        EdgeCursor into = fabric.edgesIn();
        opened.index()
                .forEachIn(
                        tile,
                        vertex -> {
                            into.reset(vertex);
                            while (into.next()) {
                                boolean inside =
                                        into.kind() != EdgeKind.PASS_THROUGH
                                                && touchesWire(fabric, into.other(), vertex)
                                                && layout.meeting(into.other(), vertex).toTile()
                                                        == tile;
                                if (inside) {
                                    ends.add(into.other());
                                    ends.add(vertex);
                                }
                            }
                        });
        IntSet from = new IntLinkedOpenHashSet();
        IntSet to = new IntLinkedOpenHashSet();
        for (int i = 0; i < ends.size(); i += 2) {
            from.add(ends.getInt(i));
            to.add(ends.getInt(i + 1));
        }
        Column inputs = new Column(fabric, from);
        Column outputs = new Column(fabric, to);
        List<Switch> switches =
                IntStream.range(0, ends.size() / 2)
                        .mapToObj(
                                i ->
                                        new Switch(
                                                inputs.places.get(ends.getInt(2 * i)),
                                                outputs.places.get(ends.getInt(2 * i + 1))))
                        .toList();
        return new BoxDiagram(
                layout.box(tile),
                inputs,
                outputs,
                switches,
                groups(fabric.switchGroups(), inputs, outputs, switches));
    }

    private static boolean touchesWire(Fabric fabric, int one, int other) {
        return fabric.kind(one) == VertexKind.WIRE || fabric.kind(other) == VertexKind.WIRE;
    }

    private static List<Group> groups(
            SwitchGroups all, Column inputs, Column outputs, List<Switch> switches) {
        if (all.isEmpty()) {
            return List.of();
        }
        TreeMap<Integer, List<Switch>> byGroup = new TreeMap<>();
        for (Switch one : switches) {
            int group = all.groupOf(inputs.vertices[one.from()], outputs.vertices[one.to()]);
            if (group != Fabric.NOTHING) {
                byGroup.merge(group, List.of(one), BoxDiagram::joined);
            }
        }
        return byGroup.entrySet().stream()
                .map(e -> new Group(all.name(e.getKey()), e.getValue()))
                .toList();
    }

    private static List<Switch> joined(List<Switch> some, List<Switch> more) {
        return Stream.concat(some.stream(), more.stream()).toList();
    }

    /** Number of rows at the left. */
    public int inputCount() {
        return inputs.vertices.length;
    }

    /** Number of rows at the right. */
    public int outputCount() {
        return outputs.vertices.length;
    }

    /** The vertex that a switch in a row leaves. */
    public int input(int row) {
        return inputs.vertices[row];
    }

    /** The vertex that a switch in a row enters. */
    public int output(int row) {
        return outputs.vertices[row];
    }

    /** The row of a vertex that switches leave, or {@link Fabric#NOTHING}. */
    public int inputRow(int vertex) {
        return inputs.places.get(vertex);
    }

    /** The row of a vertex that switches enter, or {@link Fabric#NOTHING}. */
    public int outputRow(int vertex) {
        return outputs.places.get(vertex);
    }

    /** Where an input is, world units. */
    public TileLayout.Point inputAt(int row) {
        return new TileLayout.Point(middle.x() - HALF_WIDTH, middle.y() + inputs.heights[row]);
    }

    /** Where an output is, world units. */
    public TileLayout.Point outputAt(int row) {
        return new TileLayout.Point(middle.x() + HALF_WIDTH, middle.y() + outputs.heights[row]);
    }

    /** The distance of two inputs of one kind, world units. */
    public double inputPitch() {
        return inputs.pitch;
    }

    /** The distance of two outputs of one kind, world units. */
    public double outputPitch() {
        return outputs.pitch;
    }

    /** All its switches. */
    public List<Switch> switches() {
        return switches;
    }

    /** The groups of its switches of which one can be on. */
    public List<Group> groups() {
        return groups;
    }

    /** Whether a place is in the box, world units. */
    public boolean contains(double x, double y) {
        return Math.hypot(x - middle.x(), y - middle.y()) <= TileLayout.BOX_RADIUS;
    }

    /** The vertex whose row is at a place, world units; none between the columns. */
    public OptionalInt vertexAt(double x, double y) {
        double across = x - middle.x();
        if (!contains(x, y) || Math.abs(across) < HALF_WIDTH * 0.6) {
            return OptionalInt.empty();
        }
        return (across < 0 ? inputs : outputs).nearest(y - middle.y());
    }
}
