package padward.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Makes netlists of lookup tables and registers, with mostly local connections. */
final class RandomVerilog {
    private static final int NEAR = 30;

    private RandomVerilog() {}

    static String make(int cells, long seed) {
        Random random = new Random(seed);
        StringBuilder text = new StringBuilder();
        text.append("// made from seed ").append(seed).append("\n");
        text.append("module made (input clock, input [7:0] in, output [7:0] out);\n");
        text.append("  wire [").append(cells - 1).append(":0] n;\n");
        List<String> drivers = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            drivers.add("in[" + i + "]");
        }
        for (int c = 0; c < cells; c++) {
            String own = "n[" + c + "]";
            if (random.nextInt(5) < 2) {
                text.append("  keep \\r[").append(c).append("] (.d(").append(near(drivers, random));
                text.append("), .c(clock), .q(").append(own).append("));\n");
            } else {
                text.append("  look4 l").append(c).append(" (.a(").append(near(drivers, random));
                text.append("), .b(").append(near(drivers, random));
                if (random.nextBoolean()) {
                    text.append("), .c(").append(near(drivers, random));
                }
                text.append("), .y(").append(own).append("));\n");
            }
            drivers.add(own);
        }
        for (int i = 0; i < 8; i++) {
            text.append("  assign out[").append(i).append("] = n[").append(cells - 1 - i);
            text.append("];\n");
        }
        return text.append("endmodule\n").toString();
    }

    private static String near(List<String> drivers, Random random) {
        int back = 1 + random.nextInt(Math.min(drivers.size(), NEAR));
        return drivers.get(drivers.size() - back);
    }
}
