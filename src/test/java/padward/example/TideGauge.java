package padward.example;

import java.util.List;
import padward.design.Design;
import padward.design.PortDirection;
import padward.design.board.Board;
import padward.fabric.Fabric;

/**
 * The example of the lesson on data and enable: an invented tide gauge that shares one data line
 * with other parts, and drives it only when it is its turn.
 */
public final class TideGauge {
    private TideGauge() {}

    /** The note in its file. */
    public static final String NOTE =
            "Invented design: a tide gauge that does not exist, for lessons.";

    /** Builds it on the lessons' fabric. */
    public static Design on(Fabric fabric, Board board) {
        DesignBench bench =
                new DesignBench(fabric)
                        .port("clk8", PortDirection.IN, "x0y1/pad[0]")
                        .port("data", PortDirection.OUT, "x5y2/pad[0]")
                        .cell("gauge/depth", "register", "x2y3/cell[0]")
                        .cell("gauge/smooth", "lookup-table", "x3y3/cell[0]")
                        .cell("gauge/turn", "register", "x3y1/cell[0]")
                        .cell("gauge/data_out", "io-register", "x5y2/outreg[0]")
                        .cell("gauge/data_on", "io-register", "x5y2/oereg[0]");
        bench.net(
                "clk8",
                true,
                List.of(),
                "clk8",
                "gauge/depth.clk",
                "gauge/turn.clk",
                "gauge/data_out.clk",
                "gauge/data_on.clk");
        bench.net("gauge/depth", "gauge/depth.out", "gauge/smooth.in[0]");
        bench.net("gauge/smooth", "gauge/smooth.out", "gauge/data_out.d");
        bench.net("gauge/turn", "gauge/turn.out", "gauge/data_on.d");
        bench.net("gauge/data_out", "gauge/data_out.q", "data");
        return bench.build("tide-gauge", NOTE, board);
    }
}
