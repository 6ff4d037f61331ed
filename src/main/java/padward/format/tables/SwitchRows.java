package padward.format.tables;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.stream.Stream;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.format.form.DelayColumns;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.PlaceColumns;

/**
 * Reads rows of the table of switches. Changes nothing of the fabric, so that several threads can
 * read one part of the table each, with an object of their own.
 */
final class SwitchRows {
    private static final EdgeKind[] SORTS = {EdgeKind.SWITCH, EdgeKind.CONNECTION};

    private final CsvTable table;
    private final Vertices vertices;
    private final CsvTable.Column fromColumn;
    private final CsvTable.Column toColumn;
    private final CsvTable.Column kindColumn;
    private final CsvTable.Column groupColumn;
    private final DelayColumns delay;
    private final PlaceColumns place;
    private String lastName = "";
    private int lastVertex = Fabric.NOTHING;

    /**
     * What rows refer to.
     *
     * @param finder finds vertices for this object alone
     * @param delays the delay of edges into a vertex that state none
     * @param sortOf what such a vertex is called where there is none
     * @param columns tiles from left to right
     * @param rows tiles from bottom to top
     */
    record Vertices(
            ExplicitBuilder.Finder finder,
            IntFunction<Optional<Delay>> delays,
            IntFunction<String> sortOf,
            int columns,
            int rows) {}

    /** Takes what a row states. */
    interface Taker {
        /**
         * Takes a sound edge.
         *
         * @param tile its tile, or {@link Fabric#NOTHING} when none is stated
         * @param text has the name of its group from one position to before another
         */
        void take(
                int from,
                int to,
                EdgeKind kind,
                Delay delay,
                int tile,
                char[] text,
                int groupFrom,
                int groupTo);
    }

    SwitchRows(CsvTable table, Vertices vertices) {
        this.table = table;
        this.vertices = vertices;
        this.fromColumn = table.column("from");
        this.toColumn = table.column("to");
        this.kindColumn = table.column("kind");
        this.groupColumn = table.column("group");
        this.delay = new DelayColumns(table);
        this.place = new PlaceColumns(table, "");
    }

    /** Reads all rows; of those with faults, what is sound is handed on as well. */
    void read(Taker taker) {
        while (table.next()) {
            int from = readSource();
            int to = readVertex(toColumn);
            EdgeKind kind = table.oneOf(kindColumn, SORTS, EdgeKind::label, EdgeKind.SWITCH);
            Optional<Delay> stated = delay.read();
            if (from == Fabric.NOTHING || to == Fabric.NOTHING) {
                continue;
            }
            if (from == to) {
                table.fault(toColumn, "two different ends", () -> "the same twice");
                continue;
            }
            Optional<Delay> taken = stated.isPresent() ? stated : vertices.delays().apply(to);
            if (taken.isEmpty()) {
                table.fault(
                        table.column("fast_ps"),
                        "a delay, as table delays has none for " + vertices.sortOf().apply(to),
                        () -> "an empty field");
            }
            int tile =
                    place.isStated()
                            ? place.tile(place.readStated(), vertices.columns(), vertices.rows())
                            : Fabric.NOTHING;
            boolean grouped = table.has(groupColumn) && readGroup(kind);
            taker.take(
                    from,
                    to,
                    kind,
                    taken.orElse(Delay.ZERO),
                    tile,
                    table.chars(),
                    grouped ? table.start(groupColumn) : 0,
                    grouped ? table.end(groupColumn) : 0);
        }
    }

    /** Whether the group of a row can be one. */
    private boolean readGroup(EdgeKind kind) {
        String name = table.isPlainName(groupColumn) ? "" : table.name(groupColumn);
        if (kind != EdgeKind.SWITCH) {
            String found = name.isEmpty() ? table.text(groupColumn) : name;
            table.fault(
                    groupColumn,
                    "no group, as a fixed connection is always on",
                    () -> Text.quote(found));
        }
        return kind == EdgeKind.SWITCH;
    }

    /** Most edges begin at the same vertex as the one before. */
    private int readSource() {
        String name = table.text(fromColumn);
        if (lastVertex == Fabric.NOTHING || !name.equals(lastName)) {
            lastVertex = readVertex(fromColumn);
            lastName = name;
        }
        return lastVertex;
    }

    private int readVertex(CsvTable.Column column) {
        int vertex = table.find(column, vertices.finder()::find);
        if (vertex == Fabric.NOTHING) {
            String name = table.text(column);
            table.fault(
                    column,
                    "the full name of a wire, a pin (site.pin) or a pad",
                    () -> Nearest.describe(name, Stream.empty()));
        }
        return vertex;
    }

    /** What the rows of one part state, in some 40 bytes each. */
    static final class Part implements Taker {
        private final IntArrayList numbers = new IntArrayList();
        private char[] text = {};
        private Delay lastDelay = Delay.ZERO;

        @Override
        public void take(
                int from,
                int to,
                EdgeKind kind,
                Delay delay,
                int tile,
                char[] chars,
                int groupFrom,
                int groupTo) {
            text = chars; // the same for all rows of a part that needs no parser
            numbers.add(from);
            numbers.add(to);
            numbers.add(kind.ordinal());
            numbers.add(delay.fastPs());
            numbers.add(delay.slowPs());
            numbers.add(tile);
            numbers.add(groupFrom);
            numbers.add(groupTo);
        }

        /** How many edges there are. */
        int size() {
            return numbers.size() / FIELDS;
        }

        /** Hands the rows on. */
        void handTo(Taker taker) {
            int[] of = numbers.elements();
            for (int i = 0; i < numbers.size(); i += FIELDS) {
                taker.take(
                        of[i],
                        of[i + 1],
                        KINDS[of[i + 2]],
                        delay(of[i + 3], of[i + 4]),
                        of[i + 5],
                        text,
                        of[i + 6],
                        of[i + 7]);
            }
        }

        private Delay delay(int fast, int slow) {
            if (lastDelay.fastPs() != fast || lastDelay.slowPs() != slow) {
                lastDelay = new Delay(fast, slow);
            }
            return lastDelay;
        }

        private static final int FIELDS = 8;

        private static final EdgeKind[] KINDS = EdgeKind.values();
    }
}
