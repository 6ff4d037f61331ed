package padward.bench;

import padward.base.Progress;
import padward.format.tables.TableImport;

import java.io.BufferedWriter;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/**
 * Imports tables of so many rows, of an invented device, and prints time and peak memory. The heap
 * that it runs in is set by the command: what it prints as peak includes garbage, so the limit of
 * the heap is the proof.
 */
public final class TableRows {
    private static final int WIRES_PER_TILE = 40;
    private static final int SWITCHES_PER_WIRE = 9;

    private TableRows() {}

    /** Runs it; the argument is the number of rows. */
    public static void main(String[] args) throws Exception {
        long rows = args.length > 0 ? Long.parseLong(args[0]) : 10_000_000;
        Path folder = Files.createTempDirectory("padward-tables");
        try {
            long written = write(folder, rows);
            long bytes = 0;
            try (Stream<Path> files = Files.list(folder)) {
                for (Path file : files.toList()) {
                    bytes += Files.size(file);
                }
            }
            long[] reports = new long[1];
            Progress progress =
                    new Progress() {
                        @Override
                        public void report(double fraction, String message) {
                            reports[0]++;
                        }

                        @Override
                        public boolean cancelled() {
                            return false;
                        }
                    };
            long start = System.nanoTime();
            TableImport.Result result = TableImport.read(folder, 20, progress);
            double seconds = (System.nanoTime() - start) / 1e9;
            long peak = peak();
            if (!(result instanceof TableImport.Sound sound)) {
                throw new IllegalStateException("" + result);
            }
            System.gc();
            long after = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
            System.out.printf(
                    Locale.ROOT,
                    "%,d rows, %,d MB of text: %.1f s, %,.0f rows/s; heap limit %,d MiB, peak"
                            + " %,d MiB, fabric after it %,d MiB (%,d vertices); %,d reports%n",
                    written,
                    bytes / 1_000_000,
                    seconds,
                    written / seconds,
                    Runtime.getRuntime().maxMemory() >> 20,
                    peak >> 20,
                    after >> 20,
                    sound.fabric().vertexCount(),
                    reports[0]);
        } finally {
            try (Stream<Path> files = Files.walk(folder)) {
                for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(file);
                }
            }
        }
    }

    private static long peak() {
        List<MemoryPoolMXBean> pools = ManagementFactory.getMemoryPoolMXBeans();
        return pools.stream()
                .filter(p -> p.getType() == MemoryType.HEAP)
                .mapToLong(p -> p.getPeakUsage().getUsed())
                .sum();
    }

    /** Wires that lead to wires of their own tile and of its two neighbours; one pad. */
    private static long write(Path folder, long rows) throws IOException {
        int wires = (int) (rows / (SWITCHES_PER_WIRE + 1));
        int side = (int) Math.ceil(Math.sqrt((double) wires / WIRES_PER_TILE));
        long written = 1;
        Files.writeString(folder.resolve("pads.csv"), "name\nx0y0/pad\n");
        Files.writeString(folder.resolve("delays.csv"), "enters,fast_ps,slow_ps\nwire,60,100\n");
        try (BufferedWriter out = Files.newBufferedWriter(folder.resolve("wires.csv"))) {
            out.write("name,kind\n");
            for (int w = 0; w < wires; w++) {
                name(out, w, side);
                out.write(w % 2 == 0 ? ",e1\n" : ",n1\n");
                written++;
            }
        }
        try (BufferedWriter out = Files.newBufferedWriter(folder.resolve("switches.csv"))) {
            out.write("from,to,fast_ps,slow_ps\n");
            for (int w = 0; w < wires; w++) {
                for (int s = 0; s < SWITCHES_PER_WIRE; s++) {
                    int step =
                            s < 5 ? s + 1 : s < 7 ? s + WIRES_PER_TILE : s + side * WIRES_PER_TILE;
                    name(out, w, side);
                    out.write(',');
                    name(out, (w + step) % wires, side);
                    out.write(s == 0 ? ",,\n" : ",45,80\n");
                    written++;
                }
            }
        }
        return written;
    }

    private static void name(BufferedWriter out, int wire, int side) throws IOException {
        int tile = wire / WIRES_PER_TILE;
        out.write("x" + tile % side + "y" + tile / side + "/w[" + wire % WIRES_PER_TILE + "]");
    }
}
