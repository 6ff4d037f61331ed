package padward.bench;

import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.Pad;
import padward.route.cost.BlockedVertices;
import padward.route.flow.DisjointRouteFinder;
import padward.route.flow.DisjointRoutes;
import padward.route.flow.FlowGoal;
import padward.route.search.SearchSources;
import padward.synth.DesignMaker;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * The most disjoint routes of drawn nets to drawn unused pads of a made design: 32 to 32 and 256 to
 * 256. Fails when they take longer than 2 and 15 seconds at a million wires.
 *
 * <p>Arguments: the number of wires.
 */
public final class FlowBench {
    private FlowBench() {}

    private static long cpu() {
        return java.lang.management.ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        int wires = args.length > 0 ? Integer.parseInt(args[0]) : 1_000_000;
        Design design = DesignMaker.make(wires, 4, 0.5, Progress.NONE).design();
        BitSet closed = design.occupancy().toBits();
        design.fabric().pads().forEach(p -> closed.set(p.vertex()));
        Random random = new Random(7);
        List<Net> nets = new ArrayList<>(design.nets());
        nets.removeIf(n -> n.route().size() == 0);
        List<Integer> pads = new ArrayList<>();
        for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
            Pad is = design.fabric().pads().get(pad);
            if (is.directions().canDrive() && design.findPortOn(pad).isEmpty()) {
                pads.add(pad);
            }
        }
        boolean slow = false;
        for (int count : new int[] {32, 32, 32, 256, 256}) {
            Collections.shuffle(nets, random);
            Collections.shuffle(pads, random);
            List<SearchSources> sources = new ArrayList<>();
            for (Net net : nets.subList(0, count)) {
                sources.add(SearchSources.along(design.fabric(), net.route(), Corner.SLOW));
            }
            List<FlowGoal> goals = new ArrayList<>();
            for (int pad : pads.subList(0, Math.min(count, pads.size()))) {
                goals.add(new FlowGoal(design.fabric().pads().get(pad).vertex(), 0));
            }
            long begin = cpu();
            DisjointRoutes found =
                    DisjointRouteFinder.find(
                            design.fabric(),
                            Corner.SLOW,
                            BlockedVertices.of(closed),
                            sources,
                            goals,
                            Progress.NONE);
            double seconds = (cpu() - begin) / 1e9;
            slow |= wires == 1_000_000 && seconds > (count == 32 ? 2 : 15);
            System.out.printf(
                    "%3d nets, %3d pads: %3d routed in %.2f s, sum %,d ps%s%n",
                    count,
                    goals.size(),
                    found.served(),
                    seconds,
                    found.cost(),
                    found.cut()
                            .map(c -> ", cut: " + c.nets().size() + " nets, " + c.vertices().size())
                            .orElse(""));
        }
        if (slow) {
            throw new IllegalStateException("slower than promised");
        }
    }
}
