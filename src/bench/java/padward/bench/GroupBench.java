package padward.bench;

import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.group.MatchedGroup;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.format.design.DesignReader;
import padward.timing.ExternalLineDelay;
import padward.timing.PairSkew;

/**
 * Groups on the workbench example: 32 nets to 32 pads, and the skew of 20 drawn buses of eight
 * before and after matching to 150 ps. Nets and pads are drawn by the number in the first column.
 */
public final class GroupBench {
    private static final int TOLERANCE_PS = 150;

    private GroupBench() {}

    /** Prints both tables. */
    public static void main(String[] args) throws BadInput {
        Design design =
                DesignReader.read(Path.of("fixtures/workbench/design.json.gz"), Progress.NONE);
        System.out.println("32 nets to 32 pads");
        System.out.println("draw  served  left  wires twice  ms");
        for (int seed = 1; seed <= 6; seed++) {
            Random random = new Random(seed);
            List<Net> nets = BenchDesigns.nets(design, random, 32);
            List<Integer> pads = pads(design, random, 32);
            long begun = System.nanoTime();
            Bus bus = Bus.of(design, nets, pads, Bus.Aim.SUM, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
            long millis = (System.nanoTime() - begun) / 1_000_000;
            System.out.printf(
                    "%4d  %6d  %4d  %11d  %d%n",
                    seed, bus.lines().size(), bus.left().size(), twice(bus), millis);
        }
        System.out.println();
        System.out.println("20 buses of 8 nets on 40 pads, matched to " + TOLERANCE_PS + " ps");
        System.out.println(
                "draw  served  before ps  after ps  not matched  proven  wires twice  ms");
        for (int seed = 1; seed <= 20; seed++) {
            Random random = new Random(seed);
            List<Net> nets = BenchDesigns.nets(design, random, 8);
            List<Integer> pads = pads(design, random, 40);
            Bus bus = Bus.of(design, nets, pads, Bus.Aim.SUM, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
            long begun = System.nanoTime();
            MatchedGroup matched = MatchedGroup.of(design, bus, TOLERANCE_PS, ExternalLineDelay.USUAL, PairSkew.USUAL_LOCAL_PERCENT, Progress.NONE);
            long millis = (System.nanoTime() - begun) / 1_000_000;
            long proven = matched.misses().stream().filter(MatchedGroup.Miss::proven).count();
            System.out.printf(
                    "%4d  %6d  %9d  %8d  %11d  %6d  %11d  %d%n",
                    seed,
                    bus.lines().size(),
                    matched.beforePs(),
                    matched.afterPs(),
                    matched.misses().size(),
                    proven,
                    twice(matched.after()),
                    millis);
        }
    }

    private static List<Integer> pads(Design design, Random random, int count) {
        Fabric fabric = design.fabric();
        return random.ints(0, fabric.pads().size())
                .distinct()
                .boxed()
                .filter(p -> fabric.pads().get(p).directions().canDrive())
                .limit(count)
                .toList();
    }

    private static int twice(Bus bus) {
        Set<Integer> taken = new HashSet<>();
        int twice = 0;
        for (Bus.Line line : bus.lines()) {
            for (int i = line.route().branchHop() + 1; i < line.route().hops().size(); i++) {
                twice += taken.add(line.route().hops().get(i).vertex()) ? 0 : 1;
            }
        }
        return twice;
    }
}
