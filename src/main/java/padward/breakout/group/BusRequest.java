package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * The request for a group.
 *
 * @param design the design
 * @param nets the nets to be served, in the order of the bits
 * @param pads indices of pads that may be taken, in their order on the board
 * @param aim what the choice of pads minimizes
 * @param ports whether ports may lose their pads
 * @param driver what is wanted of the pads' drivers
 * @param there nets that are already on one of the pads, which is then not available
 */
record BusRequest(
        Design design,
        List<Net> nets,
        List<Integer> pads,
        Bus.Aim aim,
        Bus.Ports ports,
        WantedDriver driver,
        List<Bus.Left> there) {
    /** What a pad that costs somebody something costs more than one that costs nobody anything. */
    private static final int GRADE = 1_000_000;

    /** How many such steps a pad of each rank costs. */
    private static final int[] GRADES = {0, 1, 32, 1024};

    /** Copies the lists. */
    BusRequest {
        nets = List.copyOf(nets);
        pads = List.copyOf(pads);
        there = List.copyOf(there);
    }

    /** Separates the nets that are already on one of the pads. */
    static BusRequest of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            WantedDriver driver) {
        List<Net> toServe = new ArrayList<>();
        List<Integer> mayTake = new ArrayList<>(pads);
        List<Bus.Left> there = new ArrayList<>();
        for (Net net : nets) {
            Optional<Integer> on = padOn(design, net, pads);
            if (on.isPresent()) {
                mayTake.remove(on.get());
                String pad = design.fabric().pads().get(on.get()).name();
                there.add(new Bus.Left(net, "it is already on pad " + pad, false));
            } else {
                toServe.add(net);
            }
        }
        return new BusRequest(design, toServe, mayTake, aim, ports, driver, there);
    }

    private static Optional<Integer> padOn(Design design, Net net, List<Integer> pads) {
        return pads.stream()
                .filter(
                        p ->
                                net.route().placeOf(design.fabric().pads().get(p).vertex())
                                        != Fabric.NOTHING)
                .findFirst();
    }

    /** The question about a net and a pad, by their positions. */
    Question question(int net, int pad) {
        return new Question(design, nets.get(net), pads.get(pad), Corner.SLOW, driver);
    }

    /** Whether a pad, by its position, may be taken: no port has it, or ports may lose theirs. */
    boolean isAllowed(int pad) {
        return ports == Bus.Ports.MAY_DISCONNECT || design.findPortOn(pads.get(pad)).isEmpty();
    }

    /**
     * A pad for each net according to the aim; {@link Matching#NONE} for nets without one. Pads
     * that cost somebody something are only taken where the free ones are not enough.
     */
    int[] choose(int[][] costs) {
        return byAim(withCheapestPads(costs, 1), aim);
    }

    /** The same with the smallest sum, unless the nets have to be in order. */
    int[] chooseLeastSum(int[][] costs, int scale) {
        return byAim(withCheapestPads(costs, scale), aim == Bus.Aim.ORDER ? aim : Bus.Aim.SUM);
    }

    private static int[] byAim(int[][] costs, Bus.Aim aim) {
        return switch (aim) {
            case MOST, SUM -> Matching.leastSum(costs);
            case WORST -> Matching.leastWorst(costs);
            case SKEW -> Matching.leastSpread(costs);
            case ORDER -> Matching.inOrder(costs);
        };
    }

    /**
     * The costs without the pads that need not be taken: what a pad costs does not depend on the
     * net, so the cheapest choice that serves the most nets shows which of them are enough.
     *
     * @param scale what the costs are divided by to decide between pads of the same price
     */
    private int[][] withCheapestPads(int[][] costs, int scale) {
        int[] grades = new int[pads.size()];
        for (int j = 0; j < grades.length; j++) {
            grades[j] = grade(j);
        }
        int[][] priced = new int[costs.length][grades.length];
        for (int i = 0; i < costs.length; i++) {
            for (int j = 0; j < grades.length; j++) {
                boolean none = costs[i][j] == Matching.NONE || !isAllowed(j);
                int delay = Math.min(GRADE - 1, costs[i][j] / scale);
                priced[i][j] = none ? Matching.NONE : grades[j] * GRADE + delay;
            }
        }
        boolean order = aim == Bus.Aim.ORDER;
        int[] cheapest = order ? Matching.inOrder(priced) : Matching.leastSum(priced);
        boolean[] enough = new boolean[grades.length];
        for (int column : cheapest) {
            if (column != Matching.NONE) {
                enough[column] = true;
            }
        }
        int[][] result = new int[costs.length][grades.length];
        for (int i = 0; i < costs.length; i++) {
            for (int j = 0; j < grades.length; j++) {
                boolean taken = enough[j] || grades[j] == 0;
                result[i][j] =
                        priced[i][j] == Matching.NONE || !taken ? Matching.NONE : costs[i][j];
            }
        }
        return result;
    }

    /** What a pad costs as a number: each rank counts more than many of those before. */
    private int grade(int pad) {
        return GRADES[rank(pad)];
    }

    /**
     * What a pad costs, whatever the net: 0 for nothing, 1 for a port, 2 for a part that follows, 3
     * for one that drives.
     */
    int rank(int pad) {
        if (nets.isEmpty()) {
            return 0;
        }
        Price price = Price.ofPad(question(0, pad));
        if (!price.drives().isEmpty() || price.takesInput()) {
            return 3;
        }
        if (!price.follows().isEmpty()) {
            return 2;
        }
        return price.ports().isEmpty() ? 0 : 1;
    }
}
