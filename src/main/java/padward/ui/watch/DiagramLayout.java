package padward.ui.watch;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import padward.ui.draw.Surface;
import padward.ui.watch.CircuitDiagram.Box;
import padward.ui.watch.CircuitDiagram.Kind;
import padward.ui.watch.CircuitDiagram.Line;
import padward.ui.watch.CircuitDiagram.Point;
import padward.ui.watch.CircuitDiagram.Wire;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/**
 * Lays a circuit out in columns, from the nets to the pads (layered drawing: Sugiyama, Tagawa and
 * Toda, IEEE Trans. Systems, Man and Cybernetics 11, 1981). A value that is read in a later column
 * passes those between on a row of its own; one that comes back runs below all boxes.
 */
final class DiagramLayout {
    private static final double LETTERS = 11;
    private static final double MARGIN = 6;
    private static final double GAP = 10;
    private static final double PIN = 11;
    private static final double LEAST_BOX = 26;
    private static final double LEAST_WIDE = 40;
    private static final double BELOW = 13;
    private static final double TRACK = 7;
    private static final double CHANNEL = 10;
    private static final double NEARLY = 3;
    private static final int LONGEST = 26;
    private static final int SWEEPS = 4;

    /** A part of a column: a box, or a row on which a value passes. */
    private static final class Part {
        private final Signal signal;
        private final Kind kind;
        private final String text;
        private final String below;
        private final List<Part> reads = new ArrayList<>();
        private final List<Signal> returning = new ArrayList<>();
        private final boolean passing;
        private double x;
        private double y;
        private double w;
        private double h;

        Part(Signal signal, Kind kind, String text, String below, boolean passing) {
            this.signal = signal;
            this.kind = kind;
            this.text = text;
            this.below = below;
            this.passing = passing;
        }

        double middle() {
            return y + h / 2;
        }

        double foot() {
            return below.isEmpty() ? 0 : BELOW;
        }
    }

    private final Circuit circuit;
    private final List<String> pads;
    private final CircuitLevels levels;
    private final List<List<Part>> columns = new ArrayList<>();

    /** The part of each column that a value can be taken from there. */
    private final List<Map<Signal, Part>> sources = new ArrayList<>();

    private final Map<Signal, Double> lanes = new LinkedHashMap<>();
    private final Map<Signal, List<Double>> laneTracks = new HashMap<>();
    private final Map<Signal, List<Line>> lines = new LinkedHashMap<>();
    private final Map<Signal, List<Point>> dots = new HashMap<>();

    private DiagramLayout(Circuit circuit, List<String> pads) {
        this.circuit = circuit;
        this.pads = pads;
        this.levels = new CircuitLevels(circuit);
    }

    /**
     * The diagram of a circuit.
     *
     * @param pads what its outputs are brought out on
     */
    static CircuitDiagram of(Circuit circuit, List<String> pads) {
        return new DiagramLayout(circuit, pads).laidOut();
    }

    private CircuitDiagram laidOut() {
        fill();
        connect();
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            columns.forEach(DiagramLayout::stack);
            columns.subList(1, columns.size()).forEach(DiagramLayout::order);
        }
        columns.forEach(DiagramLayout::stack);
        columns.subList(1, columns.size()).forEach(DiagramLayout::align);
        double bottom = raise();
        columns.subList(1, columns.size()).forEach(DiagramLayout::level);
        for (Signal signal : lanes.keySet()) {
            bottom += TRACK;
            lanes.put(signal, bottom);
        }
        double right = place();
        List<Box> boxes = new ArrayList<>();
        columns.forEach(
                c ->
                        c.stream()
                                .filter(p -> !p.passing)
                                .map(p -> new Box(p.kind, p.text, p.below, p.x, p.y, p.w, p.h))
                                .forEach(boxes::add));
        List<Wire> wires = new ArrayList<>();
        lines.forEach(
                (signal, all) -> wires.add(new Wire(all, dots.getOrDefault(signal, List.of()))));
        return new CircuitDiagram(right + MARGIN, bottom + MARGIN, boxes, wires);
    }

    private void fill() {
        for (int c = 0; c <= levels.last(); c++) {
            columns.add(new ArrayList<>());
            sources.add(new HashMap<>());
        }
        for (int c = 0; c < levels.last(); c++) {
            for (Signal signal : levels.in(c)) {
                add(c, part(signal));
            }
        }
        for (int o = 0; o < circuit.outputs().size(); o++) {
            Signal signal = circuit.outputs().get(o).signal();
            Part pad = new Part(signal, Kind.PAD, pads.get(o), "", false);
            columns.get(levels.last()).add(pad);
            size(pad, 1);
            pad.reads.add(at(signal, levels.last() - 1));
        }
    }

    private void add(int column, Part part) {
        columns.get(column).add(part);
        sources.get(column).put(part.signal, part);
    }

    private Part part(Signal signal) {
        Part part;
        if (signal instanceof Signal.Made made) {
            CircuitElement element = circuit.elements().get(made.element());
            boolean table = element instanceof CircuitElement.Table;
            String clock = table ? "" : shortened(((CircuitElement.Register) element).clock());
            part =
                    new Part(
                            signal,
                            table ? Kind.TABLE : Kind.REGISTER,
                            element.name(),
                            clock,
                            false);
            size(part, element.inputs().size());
        } else {
            String name =
                    signal instanceof Signal.Observed seen
                            ? shortened(seen.net())
                            : "pad " + ((Signal.AtPad) signal).pad();
            part = new Part(signal, Kind.SOURCE, name, "", false);
            size(part, 1);
        }
        return part;
    }

    private static void size(Part part, int inputs) {
        double text = Surface.Lettering.width(part.text, LETTERS);
        boolean source = part.kind == Kind.SOURCE;
        part.w = source ? text + 4 : Math.max(LEAST_WIDE, text + 18);
        part.w = Math.max(part.w, Surface.Lettering.width(part.below, LETTERS) + 4);
        double pins = Math.max(LEAST_BOX, inputs * PIN + 6);
        // Even, so that middles are whole numbers, and what is nearly level is level.
        part.h = source ? LETTERS + 5 : 2 * Math.ceil(pins / 2);
    }

    /** The last parts of a name, as many as there is room for. */
    private static String shortened(String name) {
        String text = name;
        while (text.length() > LONGEST && text.indexOf('/') >= 0) {
            text = text.substring(text.indexOf('/') + 1);
        }
        return text.length() == name.length() ? text : "…/" + text;
    }

    /** Where a value can be taken from in a column; rows are made on which it passes. */
    private Part at(Signal signal, int column) {
        Part known = sources.get(column).get(signal);
        if (known != null) {
            return known;
        }
        Part passing = new Part(signal, Kind.SOURCE, "", "", true);
        passing.h = 4;
        passing.reads.add(at(signal, column - 1));
        add(column, passing);
        return passing;
    }

    private void connect() {
        for (int e = 0; e < circuit.elements().size(); e++) {
            Signal made = new Signal.Made(e);
            int column = levels.of(made);
            Part part = sources.get(column).get(made);
            for (Signal read : circuit.elements().get(e).inputs()) {
                if (levels.isBack(read, e)) {
                    part.returning.add(read);
                    lanes.put(read, 0.0);
                } else {
                    part.reads.add(at(read, column - 1));
                }
            }
        }
    }

    /** Puts the parts of a column below each other. */
    private static void stack(List<Part> column) {
        double y = 0;
        for (Part part : column) {
            part.y = y;
            y += part.h + part.foot() + GAP;
        }
        double middle = (y - GAP) / 2;
        column.forEach(p -> p.y -= middle);
    }

    /** Each part as high as what it reads, on average. */
    private static void order(List<Part> column) {
        column.sort(Comparator.comparingDouble(DiagramLayout::wanted));
    }

    private static double wanted(Part part) {
        return part.reads.stream().mapToDouble(Part::middle).average().orElse(part.middle());
    }

    /** Moves the parts of a column to where they want to be, as far as their order allows. */
    private static void align(List<Part> column) {
        double next = Double.NEGATIVE_INFINITY;
        double wish = 0;
        double got = 0;
        for (Part part : column) {
            double y = wanted(part) - part.h / 2;
            wish += y;
            part.y = Math.max(y, next);
            got += part.y;
            next = part.y + part.h + part.foot() + GAP;
        }
        double shift = column.isEmpty() ? 0 : (wish - got) / column.size();
        column.forEach(p -> p.y += shift);
    }

    /** What is nearly level with the only thing that it reads is put level. */
    private static void level(List<Part> column) {
        for (Part part : column) {
            if (part.reads.size() == 1) {
                double off = part.reads.get(0).middle() - part.middle();
                part.y += Math.abs(off) <= NEARLY ? off : 0;
            }
        }
    }

    /** Moves everything so that nothing is above the margin; returns where it ends. */
    private double raise() {
        double top = all(p -> p.y).min().orElse(0);
        columns.forEach(c -> c.forEach(p -> p.y = Math.rint(p.y + MARGIN - top)));
        return all(p -> p.y + p.h + p.foot()).max().orElse(0);
    }

    private DoubleStream all(ToDoubleFunction<Part> measure) {
        return columns.stream().flatMap(List::stream).mapToDouble(measure);
    }

    /** Places the columns beside each other with the lines between them; returns the right edge. */
    private double place() {
        double x = MARGIN;
        for (int c = 0; c < columns.size(); c++) {
            double wide = columns.get(c).stream().mapToDouble(p -> p.w).max().orElse(0);
            for (Part part : columns.get(c)) {
                boolean source = part.kind == Kind.SOURCE && !part.passing;
                part.x = source ? x + wide - part.w : x;
                part.w = part.passing ? wide : part.w;
                if (part.passing) {
                    addLine(part.signal, x, part.middle(), x + wide, part.middle());
                }
            }
            x += wide;
            if (c + 1 < columns.size()) {
                x = channel(c, x);
            }
        }
        return x;
    }

    /**
     * What runs in the channel behind a column: one value from where it comes to all its ends.
     *
     * @param signal the value
     * @param from the height where it comes in
     * @param fromX where it comes from
     * @param to the heights of the pins it goes to
     * @param lane whether it comes from, or goes to, its lane at the left side of the track
     */
    private record Run(Signal signal, double from, double fromX, List<Double> to, boolean lane) {
        boolean isStraight() {
            return !lane && to.stream().allMatch(y -> y == from);
        }
    }

    /** Draws the lines between a column and the next; returns where the next begins. */
    private double channel(int column, double x) {
        Map<Signal, List<Part>> readers = new LinkedHashMap<>();
        for (Part part : columns.get(column + 1)) {
            part.reads.forEach(
                    r -> readers.computeIfAbsent(r.signal, s -> new ArrayList<>()).add(part));
        }
        Map<Part, List<Signal>> pins = new HashMap<>();
        columns.get(column + 1).forEach(p -> pins.put(p, pinOrder(p)));
        List<Run> runs = new ArrayList<>();
        for (Part part : columns.get(column)) {
            List<Double> to = ends(part.signal, readers.getOrDefault(part.signal, List.of()), pins);
            boolean out = lanes.containsKey(part.signal) && !part.passing;
            if (!to.isEmpty() || out) {
                runs.add(new Run(part.signal, part.middle(), part.x + part.w, to, out));
            }
        }
        for (Signal signal : lanes.keySet()) {
            List<Part> back =
                    columns.get(column + 1).stream()
                            .filter(p -> p.returning.contains(signal))
                            .toList();
            if (!back.isEmpty()) {
                runs.add(
                        new Run(
                                signal,
                                lanes.get(signal),
                                Double.NaN,
                                ends(signal, back, pins),
                                true));
            }
        }
        double track = x + CHANNEL;
        Map<Run, Double> tracks = new IdentityHashMap<>();
        for (Run run : inTrackOrder(runs)) {
            tracks.put(run, run.isStraight() ? run.fromX : track);
            if (!run.isStraight()) {
                draw(run, track);
                track += TRACK;
            }
        }
        double next = track + CHANNEL;
        tracks.forEach((run, from) -> run.to.forEach(y -> addLine(run.signal, from, y, next, y)));
        return next;
    }

    /**
     * From left to right, so that few lines cross and none lies on another: where one comes in at
     * the height of another's pin, it turns first.
     */
    private static List<Run> inTrackOrder(List<Run> runs) {
        List<Run> order = new ArrayList<>(runs);
        order.sort(Comparator.comparingDouble(DiagramLayout::trackOrder));
        for (int moves = 0; moves < order.size(); moves++) {
            for (int later = 1; later < order.size(); later++) {
                Run run = order.get(later);
                for (int i = 0; i < later; i++) {
                    if (order.get(i).to.contains(run.from)) {
                        order.add(i, order.remove(later));
                        break;
                    }
                }
            }
        }
        return order;
    }

    /** Lines that go down turn early when they begin low, those that go up when they begin high. */
    private static double trackOrder(Run run) {
        double to = run.to.stream().mapToDouble(y -> y).average().orElse(run.from);
        return to >= run.from ? -run.from : run.from;
    }

    private void draw(Run run, double track) {
        boolean back = Double.isNaN(run.fromX);
        TreeSet<Double> heights = new TreeSet<>();
        heights.addAll(run.to);
        heights.add(run.from);
        if (!back) {
            addLine(run.signal, run.fromX, run.from, track, run.from);
            if (run.lane) {
                heights.add(lanes.get(run.signal));
            }
        }
        addLine(run.signal, track, heights.first(), track, heights.last());
        if (run.lane) {
            lane(run.signal, track);
        }
        for (double y : heights) {
            int arms = y > heights.first() ? 1 : 0;
            arms += y < heights.last() ? 1 : 0;
            arms += y == run.from && !back ? 1 : 0;
            arms += run.to.contains(y) ? 1 : 0;
            if (arms > 2) {
                addDot(run.signal, track, y);
            }
        }
    }

    /** A piece of a lane, between the last track that met it and this one. */
    private void lane(Signal signal, double track) {
        List<Double> met = laneTracks.computeIfAbsent(signal, s -> new ArrayList<>());
        double y = lanes.get(signal);
        if (!met.isEmpty()) {
            addLine(signal, met.get(met.size() - 1), y, track, y);
        }
        if (met.size() > 1) {
            addDot(signal, met.get(met.size() - 1), y);
        }
        met.add(track);
    }

    /** The values at a part's pins, from above: in the order of where they come from. */
    private List<Signal> pinOrder(Part part) {
        List<Signal> order = new ArrayList<>();
        part.reads.stream()
                .sorted(Comparator.comparingDouble(Part::middle))
                .forEach(r -> order.add(r.signal));
        order.addAll(part.returning);
        return order;
    }

    private List<Double> ends(Signal signal, List<Part> readers, Map<Part, List<Signal>> pins) {
        List<Double> result = new ArrayList<>();
        for (Part part : readers) {
            List<Signal> order = pins.get(part);
            double pitch = order.size() == 1 ? 0 : PIN;
            double top = part.middle() - pitch * (order.size() - 1) / 2;
            result.add(top + pitch * order.indexOf(signal));
        }
        return result;
    }

    private void addDot(Signal signal, double x, double y) {
        dots.computeIfAbsent(signal, s -> new ArrayList<>()).add(new Point(x, y));
    }

    private void addLine(Signal signal, double x0, double y0, double x1, double y1) {
        lines.computeIfAbsent(signal, s -> new ArrayList<>()).add(new Line(x0, y0, x1, y1));
    }
}
