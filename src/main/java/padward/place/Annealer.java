package padward.place;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.Fabric;

/**
 * Improves a placement by simulated annealing: Kirkpatrick, Gelatt and Vecchi, "Optimization by
 * Simulated Annealing", Science 220 (1983), 671-680, with their schedule: the temperature falls by
 * a factor of 0.9; at each there are moves until ten a block were accepted or a hundred a block
 * tried; it is frozen when three temperatures in a row accept too few. (The numbers are cited from
 * memory.) Moves reach only so far that about 0.44 of them are accepted, which Lam and Delosme,
 * "Performance of a new annealing schedule" (DAC 1988), found best. Deterministic for a seed.
 */
final class Annealer {
    private static final double COOLING = 0.9;
    private static final int ACCEPTED_PER_BLOCK = 10;
    private static final int TRIED_PER_BLOCK = 100;

    /** Least number of moves at each temperature: affordable for small circuits, and better. */
    private static final int LEAST = 4_000;

    private static final int FROZEN = 3;
    private static final double WANTED = 0.44;
    private static final double STRETCH = 1.15;
    private static final double FIRST_ACCEPTED = 0.8;
    private static final int MOST_TEMPERATURES = 400;

    private final Fabric fabric;
    private final PackedNetlist packed;
    private final PlacementSites sites;
    private final PlacementCost cost;
    private final ArrivalTimes times;
    private final Placement placement;
    private final Random random;
    private final NearbySites[] nearby;
    private final int[] movable;

    /** What a net too many on a wire costs: as much as a net across the whole fabric. */
    private final double sharingCost;

    private final double[] costOfNet;
    private final double[] newCost;
    private final int[] touched;
    private final int[] stamp;
    private int stamps;
    private int touchedCount;
    private double range;

    Annealer(
            Fabric fabric,
            PackedNetlist packed,
            PlacementSites sites,
            PlacementCost cost,
            ArrivalTimes times,
            Placement placement,
            Random random) {
        this.fabric = fabric;
        this.packed = packed;
        this.sites = sites;
        this.cost = cost;
        this.times = times;
        this.placement = placement;
        this.random = random;
        this.nearby = new NearbySites[packed.groups().size()];
        for (int g = 0; g < nearby.length; g++) {
            nearby[g] = new NearbySites(fabric, sites, g);
        }
        List<Integer> free = new ArrayList<>();
        for (int b = 0; b < packed.blockCount(); b++) {
            if (!placement.isFixed(b)) {
                free.add(b);
            }
        }
        this.movable = free.stream().mapToInt(Integer::intValue).toArray();
        this.costOfNet = new double[cost.netCount()];
        this.newCost = new double[cost.netCount()];
        this.touched = new int[cost.netCount()];
        this.stamp = new int[cost.netCount()];
        this.range = Math.max(fabric.columns(), fabric.rows());
        this.sharingCost = cost.across(fabric.columns() + fabric.rows());
    }

    /**
     * Anneals.
     *
     * @param effort share of the moves of the published schedule
     * @throws CancellationException when {@code progress} is cancelled
     */
    void run(double effort, Progress progress) {
        if (movable.length == 0) {
            return;
        }
        weigh();
        double temperature = startTemperature();
        long accepts =
                Math.max(LEAST / 10, Math.round(effort * ACCEPTED_PER_BLOCK * movable.length));
        long tries = Math.max(LEAST, Math.round(effort * TRIED_PER_BLOCK * movable.length));
        int poor = 0;
        for (int step = 0; step < MOST_TEMPERATURES && poor < FROZEN; step++) {
            progress.report(-1, "placing, temperature " + (step + 1));
            long accepted = 0;
            long tried = 0;
            while (accepted < accepts && tried < tries) {
                if ((tried++ & 0xfff) == 0 && progress.cancelled()) {
                    throw new CancellationException("placing");
                }
                accepted += move(temperature) ? 1 : 0;
            }
            double rate = (double) accepted / tried;
            poor = accepted < accepts ? poor + 1 : 0;
            range *= rate > WANTED ? STRETCH : 1 / STRETCH;
            range = Math.max(1, Math.min(range, Math.max(fabric.columns(), fabric.rows())));
            temperature *= COOLING;
            weigh();
        }
        for (long i = 0; i < tries; i++) {
            move(0);
        }
    }

    private void weigh() {
        cost.weigh(times);
        for (int n = 0; n < costOfNet.length; n++) {
            costOfNet[n] = cost.of(n);
        }
    }

    /** Such that an average move for the worse is accepted four times out of five. */
    private double startTemperature() {
        double sum = 0;
        int worse = 0;
        for (int i = 0; i < 10 * movable.length; i++) {
            double change = propose();
            if (!Double.isNaN(change)) {
                accept();
                sum += Math.max(0, change);
                worse += change > 0 ? 1 : 0;
            }
        }
        return worse == 0 ? 1 : sum / worse / -Math.log(FIRST_ACCEPTED);
    }

    private int movedBlock;
    private int oldSpot;

    private boolean move(double temperature) {
        double change = propose();
        if (Double.isNaN(change)) {
            return false;
        }
        boolean accept =
                change <= 0
                        || temperature > 0 && random.nextDouble() < Math.exp(-change / temperature);
        if (accept) {
            accept();
        } else {
            placement.swap(movedBlock, oldSpot);
        }
        return accept;
    }

    /** Makes a random move; its change of cost, NaN when no move was possible. */
    private double propose() {
        int block = movable[random.nextInt(movable.length)];
        int group = packed.groupOfBlock()[block];
        int spot = placement.siteOf(block);
        int tile = sites.tile(spot);
        int target =
                nearby[group].draw(
                        fabric.column(tile), fabric.row(tile), (int) Math.round(range), random);
        if (target == Fabric.NOTHING || target == spot) {
            return Double.NaN;
        }
        int other = placement.blockOn(target);
        boolean blocked =
                other != Fabric.NOTHING
                        && (placement.isFixed(other)
                                || !sites.accepts(spot, packed.groupOfBlock()[other]));
        if (blocked) {
            return Double.NaN;
        }
        movedBlock = block;
        oldSpot = spot;
        int tooMany = placement.tooManyOnWires();
        placement.swap(block, target);
        touchedCount = 0;
        stamps++;
        touch(block);
        if (other != Fabric.NOTHING) {
            touch(other);
        }
        double change = (placement.tooManyOnWires() - tooMany) * sharingCost;
        for (int i = 0; i < touchedCount; i++) {
            int net = touched[i];
            newCost[net] = cost.of(net);
            change += newCost[net] - costOfNet[net];
        }
        return change;
    }

    private void touch(int block) {
        for (int net : cost.netsOf(block)) {
            if (stamp[net] != stamps) {
                stamp[net] = stamps;
                touched[touchedCount++] = net;
            }
        }
    }

    private void accept() {
        for (int i = 0; i < touchedCount; i++) {
            costOfNet[touched[i]] = newCost[touched[i]];
        }
    }

    /** Cost of the placement now. */
    double total() {
        return Arrays.stream(costOfNet).sum();
    }
}
