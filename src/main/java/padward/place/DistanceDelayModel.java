package padward.place;

import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.BitSet;
import java.util.Random;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/**
 * The delay of a connection by its distance, before it is routed: a straight line fitted by least
 * squares to the fastest routes between random pins of the empty fabric.
 *
 * @param basePs delay at distance 0, slow corner
 * @param perTilePs delay of each tile of distance, at least a hundredth of a picosecond
 */
record DistanceDelayModel(double basePs, double perTilePs) {
    private static final int SAMPLES = 40;
    private static final int TRIES = 400;
    private static final double LEAST = 0.01;

    double at(int distance) {
        return basePs + perTilePs * distance;
    }

    static DistanceDelayModel of(Fabric fabric, BitSet closed, Random random, Progress progress) {
        if (fabric.siteCount() == 0) {
            return new DistanceDelayModel(0, 1);
        }
        PathSearch search = new PathSearch(fabric);
        double n = 0;
        double sumX = 0;
        double sumY = 0;
        double sumXx = 0;
        double sumXy = 0;
        for (int i = 0; i < TRIES && n < SAMPLES; i++) {
            if (progress.cancelled()) {
                throw new CancellationException("measuring the fabric");
            }
            int from = pin(fabric, random, PinDirection.OUT);
            int to = pin(fabric, random, PinDirection.IN);
            if (from == Fabric.NOTHING || to == Fabric.NOTHING) {
                continue;
            }
            IntSet goalIsOpen = closed.get(to) ? IntSets.singleton(to) : IntSets.EMPTY_SET;
            CostModel model = new FreeOnlyCost(new BlockedVertices(closed, goalIsOpen));
            SearchOutcome outcome =
                    search.run(
                            new SearchSources(new int[] {from}, new long[1]),
                            to,
                            Corner.SLOW,
                            model,
                            LowerBound.NONE,
                            progress);
            if (outcome instanceof SearchOutcome.Found found) {
                double x = distance(fabric, fabric.tile(from), fabric.tile(to));
                n++;
                sumX += x;
                sumY += found.cost();
                sumXx += x * x;
                sumXy += x * found.cost();
            }
        }
        double spread = n * sumXx - sumX * sumX;
        double slope = spread == 0 ? 1 : (n * sumXy - sumX * sumY) / spread;
        slope = Math.max(LEAST, slope);
        return new DistanceDelayModel(n == 0 ? 0 : Math.max(0, (sumY - slope * sumX) / n), slope);
    }

    /** Tiles along the axes. */
    static int distance(Fabric fabric, int a, int b) {
        return Math.abs(fabric.column(a) - fabric.column(b))
                + Math.abs(fabric.row(a) - fabric.row(b));
    }

    private static int pin(Fabric fabric, Random random, PinDirection direction) {
        SiteView site = fabric.site(random.nextInt(fabric.siteCount()));
        int offset = site.pins().isEmpty() ? 0 : random.nextInt(site.pins().size());
        for (int i = 0; i < site.pins().size(); i++) {
            int pin = (offset + i) % site.pins().size();
            if (site.pins().get(pin).direction() == direction) {
                return site.firstPin() + pin;
            }
        }
        return Fabric.NOTHING;
    }
}
