package padward.example;

import java.util.List;
import padward.design.Design;
import padward.design.PortDirection;
import padward.design.board.Board;
import padward.fabric.Fabric;

/** The small example: an invented bilge-pump controller on the invented fabric larch-8. */
public final class BilgePump {
    private BilgePump() {}

    /** The note in its files. */
    public static final String NOTE =
            "Invented design: a bilge-pump controller that does not exist, for examples and tests.";

    /** Builds it on one of the two small fabrics. */
    public static Design on(Fabric fabric, Board board) {
        DesignBench bench =
                new DesignBench(fabric)
                        .port("clk12", PortDirection.IN, "x0y1/pad[0]")
                        .port("float_hi", PortDirection.IN, "x0y3/pad[0]")
                        .port("float_lo", PortDirection.IN, "x0y3/pad[1]")
                        .port("buzzer", PortDirection.OUT, "x0y6/pad[0]")
                        .port("motor", PortDirection.OUT, "x7y3/pad[0]")
                        .port("lamp", PortDirection.OUT, "x7y5/pad[0]")
                        .cell("pump/level/hi_sync", "register", "x2y3/cell[0]")
                        .cell("pump/level/lo_sync", "register", "x2y3/cell[1]")
                        .cell("pump/level/sample[0]", "register", "x3y3/cell[0]")
                        .cell("pump/level/sample[1]", "register", "x3y3/cell[1]")
                        .cell("pump/run/decide", "lookup-table", "x4y3/cell[0]")
                        .cell("pump/run/hold", "register", "x5y3/cell[0]")
                        .cell("pump/run/motor_out", "io-register", "x7y3/outreg[0]")
                        .cell("alarm/blink[0]", "register", "x3y5/cell[0]")
                        .cell("alarm/blink[1]", "register", "x4y5/cell[0]")
                        .cell("alarm/beep", "lookup-table", "x2y5/cell[0]");
        bench.net(
                "clk12",
                true,
                List.of(),
                "clk12",
                "pump/level/hi_sync.clk",
                "pump/level/lo_sync.clk",
                "pump/level/sample[0].clk",
                "pump/level/sample[1].clk",
                "pump/run/hold.clk",
                "pump/run/motor_out.clk",
                "alarm/blink[0].clk",
                "alarm/blink[1].clk");
        bench.net("float_hi", "float_hi", "pump/level/hi_sync.in[0]");
        bench.net("float_lo", "float_lo", "pump/level/lo_sync.in[0]");
        // The beep runs over the only wire that leads to pad[0] of the narrow tile x0y5.
        bench.net("alarm/beep", false, List.of("x1y5/run1_w[0]"), "alarm/beep.out", "buzzer");
        bench.net("pump/level/hi_sync", "pump/level/hi_sync.out", "pump/level/sample[0].in[0]");
        bench.net("pump/level/lo_sync", "pump/level/lo_sync.out", "pump/level/sample[1].in[0]");
        bench.net("pump/level/sample[0]", "pump/level/sample[0].out", "pump/run/decide.in[0]");
        bench.net("pump/level/sample[1]", "pump/level/sample[1].out", "pump/run/decide.in[1]");
        bench.net("pump/run/decide", "pump/run/decide.out", "pump/run/hold.in[0]");
        bench.net("pump/run/hold", "pump/run/hold.out", "pump/run/motor_out.d");
        bench.net("pump/run/motor_out", "pump/run/motor_out.q", "motor");
        bench.net("alarm/blink[0]", "alarm/blink[0].out", "alarm/blink[1].in[0]");
        bench.net("alarm/blink[1]", "alarm/blink[1].out", "lamp", "alarm/beep.in[0]");
        return bench.build("bilge-pump", NOTE, board);
    }
}
