package padward.bench;

import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.synth.DesignMaker;

/**
 * The most nets of drawn groups, as {@code bus --aim most} answers: 32 nets to 32 pads on the
 * workbench example and at a million wires, 256 to 256 at a million. Fails when the slowest of the
 * draws takes more than 0.3, 2 and 15 seconds of processor time; the first draw of each design
 * warms up and is not counted.
 *
 * <p>Arguments: the number of wires.
 */
public final class FlowBench {
    private static final int DRAWS = 4;

    private FlowBench() {}

    /** Runs everything. */
    public static void main(String[] args) throws BadInput {
        Locale.setDefault(Locale.ROOT);
        int wires = args.length > 0 ? Integer.parseInt(args[0]) : 1_000_000;
        Design workbench =
                DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE);
        Promises promises = new Promises();
        for (Bus.Ports ports : Bus.Ports.values()) {
            measure("workbench, " + ports, workbench, 32, ports, 0.3, promises);
        }
        Design large = DesignMaker.make(wires, 4, 0.5, Progress.NONE).design();
        measure(wires + " wires, KEEP", large, 32, Bus.Ports.KEEP, 2, promises);
        measure(wires + " wires, KEEP", large, 256, Bus.Ports.KEEP, 15, promises);
        System.exit(promises.report());
    }

    private static void measure(
            String what,
            Design design,
            int count,
            Bus.Ports ports,
            double promised,
            Promises promises) {
        double[] seconds = new double[DRAWS];
        for (int draw = 0; draw <= DRAWS; draw++) {
            Random random = new Random(draw);
            List<Net> nets = BenchDesigns.nets(design, random, count);
            List<Integer> pads = pads(design, random, count, ports);
            long begin = processorTime();
            Bus bus = Bus.of(design, nets, pads, Bus.Aim.MOST, ports, Progress.NONE);
            double took = (processorTime() - begin) / 1e9;
            if (draw > 0) {
                seconds[draw - 1] = took;
            }
            System.out.printf(
                    "%s: %d nets to %d pads, %d served, %s, sum %,d ps, %.3f s%s%n",
                    what,
                    nets.size(),
                    pads.size(),
                    bus.lines().size(),
                    bus.proof().isPresent() ? "proven" : "not proven",
                    bus.totalPs(),
                    took,
                    draw == 0 ? ", not counted" : "");
        }
        double slowest = Arrays.stream(seconds).max().orElseThrow();
        promises.atMost(what + ", " + count + " nets, slowest, s", slowest, promised);
    }

    private static long processorTime() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static List<Integer> pads(Design design, Random random, int count, Bus.Ports ports) {
        Fabric fabric = design.fabric();
        boolean large = fabric.pads().size() > 1000;
        // Not without end: a small design has too few unused pads.
        return random.ints(1_000L * fabric.pads().size(), 0, fabric.pads().size())
                .distinct()
                .boxed()
                .filter(p -> fabric.pads().get(p).directions().canDrive())
                .filter(p -> !large || ports == Bus.Ports.MAY_DISCONNECT || isUnused(design, p))
                .limit(count)
                .toList();
    }

    private static boolean isUnused(Design design, int pad) {
        return design.findPortOn(pad).isEmpty();
    }
}
