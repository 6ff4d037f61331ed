package padward.format.form;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Optional;
import padward.base.Decimals;
import padward.fabric.FabricLimits;
import padward.fabric.delay.Delay;
import padward.format.source.Text;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/** The columns in which a table states delays, in any unit. */
public final class DelayColumns {
    private static final int UNKNOWN = -1;
    private static final int PS_PER_NS_DIGITS = 3;

    private final CsvTable table;
    private final CsvTable.Column[] picoseconds;
    private final CsvTable.Column[] nanoseconds;
    private Delay last = Delay.ZERO;

    /** The columns of an opened table. */
    public DelayColumns(CsvTable table) {
        this.table = table;
        this.picoseconds = columns("_ps");
        this.nanoseconds = columns("_ns");
    }

    /** Their shapes. */
    public static List<ColumnShape> shapes(String meaning) {
        return List.of(
                shape(
                        "fast_ps",
                        ColumnShape.Need.MAY,
                        "delay at the fast corner, whole picoseconds, " + meaning),
                shape(
                        "slow_ps",
                        ColumnShape.Need.MAY,
                        "the same at the slow corner; if only one of the two is given, it counts"
                                + " for both"),
                instead("delay_ps", "one delay for both corners"),
                instead("fast_ns", "as `fast_ps` in nanoseconds, rounded to picoseconds"),
                instead("slow_ns", "as `slow_ps` in nanoseconds"),
                instead("delay_ns", "as `delay_ps` in nanoseconds"));
    }

    private static ColumnShape shape(String name, ColumnShape.Need need, String meaning) {
        return new ColumnShape(name, need, meaning);
    }

    private static ColumnShape instead(String name, String meaning) {
        return shape(name, ColumnShape.Need.INSTEAD, meaning);
    }

    private CsvTable.Column[] columns(String unit) {
        return new CsvTable.Column[] {
            table.column("fast" + unit), table.column("slow" + unit), table.column("delay" + unit)
        };
    }

    /** The delay of a row; nothing when the row states none, or one that is at fault. */
    public Optional<Delay> read() {
        int fast = pick(0);
        int slow = pick(1);
        int both = pick(2);
        if (both != UNKNOWN && (fast != UNKNOWN || slow != UNKNOWN)) {
            table.fault(
                    picoseconds[2],
                    "a delay for each corner or one for both",
                    () -> "both in one row");
            return Optional.of(Delay.ZERO);
        }
        fast = fast == UNKNOWN ? (slow == UNKNOWN ? both : slow) : fast;
        slow = slow == UNKNOWN ? fast : slow;
        if (fast == UNKNOWN) {
            return Optional.empty();
        }
        if (slow < fast) {
            int least = fast;
            int found = slow;
            table.fault(
                    picoseconds[1],
                    "a slow delay of at least the fast one, " + least + " ps",
                    () -> found + " ps");
            return Optional.of(Delay.ZERO);
        }
        if (last.fastPs() != fast || last.slowPs() != slow) {
            last = new Delay(fast, slow);
        }
        return Optional.of(last);
    }

    /** The delay of a row of a table in which each must have one. */
    public Delay readRequired() {
        Optional<Delay> delay = read();
        if (delay.isEmpty()) {
            table.fault(picoseconds[0], "a delay", () -> "an empty field");
        }
        return delay.orElse(Delay.ZERO);
    }

    /** The value of one of the three, whatever its unit. */
    private int pick(int which) {
        int ps = table.integer(picoseconds[which], 0, FabricLimits.EDGE_DELAY_PS, UNKNOWN);
        CsvTable.Column ns = nanoseconds[which];
        if (!table.has(ns)) {
            return ps;
        }
        if (ps != UNKNOWN) {
            table.fault(ns, "one unit in a row", () -> "two");
        }
        return nanoseconds(ns);
    }

    /** Zero after a fault, so that the fault is reported once. */
    private int nanoseconds(CsvTable.Column column) {
        String text = table.text(column);
        Optional<BigDecimal> ps =
                Decimals.parse(text)
                        .map(n -> n.movePointRight(PS_PER_NS_DIGITS))
                        .map(n -> n.setScale(0, RoundingMode.HALF_UP))
                        .filter(n -> n.signum() >= 0)
                        .filter(
                                n ->
                                        n.compareTo(BigDecimal.valueOf(FabricLimits.EDGE_DELAY_PS))
                                                <= 0);
        if (ps.isPresent()) {
            return ps.get().intValueExact();
        }
        table.fault(
                column,
                "nanoseconds from 0 to " + FabricLimits.EDGE_DELAY_PS / 1000,
                () -> Text.quote(text));
        return 0;
    }
}
