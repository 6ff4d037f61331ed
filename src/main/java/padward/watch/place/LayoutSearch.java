package padward.watch.place;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Random;
import padward.base.Progress;

/**
 * Finds layouts with short connections: up to four elements by trying all combinations of the
 * nearest sites, more of them by simulated annealing (Kirkpatrick, Gelatt and Vecchi, Science 220,
 * 1983). Deterministic.
 */
final class LayoutSearch {
    /** Up to this many elements all combinations are tried. */
    static final int MOST_TRIED_WHOLE = 4;

    /** Nearest sites of each element that are combined, by the number of elements. */
    private static final int[] NEAREST = {0, 400, 120, 48, 22};

    private static final int KEPT = 3_000;
    private static final int NEAREST_ANNEALED = 48;
    private static final int MOVES_EACH = 600;
    private static final double COOLING = 0.9;

    private final Estimate estimate;
    private final List<List<FreeSite>> candidates = new ArrayList<>();

    /**
     * @param sites where each element can be placed
     * @param awkward what stands against a site, in tiles: pins that are hard to reach
     */
    LayoutSearch(Estimate estimate, List<List<FreeSite>> sites, Awkward awkward) {
        this.estimate = estimate;
        int count = sites.size();
        int nearest = count <= MOST_TRIED_WHOLE ? NEAREST[count] : NEAREST_ANNEALED + 3 * count;
        for (int e = 0; e < count; e++) {
            int element = e;
            // Ranked by distance first, so that only the nearest are looked at more closely.
            List<FreeSite> ranked = ranked(sites.get(e), s -> rank(element, s), 2 * nearest);
            Int2IntOpenHashMap against = new Int2IntOpenHashMap();
            ranked.forEach(s -> against.put(s.outVertex(), awkward.of(s)));
            candidates.add(
                    ranked(ranked, s -> rank(element, s) + against.get(s.outVertex()), nearest));
        }
    }

    /** What stands against a site. */
    interface Awkward {
        int of(FreeSite site);
    }

    private interface Rank {
        int of(FreeSite site);
    }

    private int rank(int element, FreeSite site) {
        int tile = site.site().tile();
        return 2 * estimate.toFixed(element, tile) + estimate.toAllFixed(tile);
    }

    /** The first of some sites by rank, then by site. O(sites · log most). */
    private static List<FreeSite> ranked(List<FreeSite> sites, Rank rank, int most) {
        record Ranked(FreeSite site, int rank) {}
        Comparator<Ranked> order =
                Comparator.comparingInt(Ranked::rank).thenComparingInt(r -> r.site().site().id());
        PriorityQueue<Ranked> first = new PriorityQueue<>(order.reversed());
        for (FreeSite site : sites) {
            int own = rank.of(site);
            if (first.size() < most || own <= first.peek().rank()) {
                first.add(new Ranked(site, own));
                if (first.size() > most) {
                    first.poll();
                }
            }
        }
        return first.stream().sorted(order).map(Ranked::site).toList();
    }

    /** Layouts, those with the shortest connections first. */
    List<Layout> best(Progress progress) {
        if (candidates.size() > MOST_TRIED_WHOLE) {
            return annealed(0, progress).stream().toList();
        }
        Combinations all = new Combinations();
        all.add(0, 0, progress);
        return all.sorted();
    }

    /** All combinations of the candidates, the best kept. */
    private final class Combinations {
        private final PriorityQueue<Layout> kept =
                new PriorityQueue<>(Comparator.comparingDouble(Layout::cost).reversed());
        private final List<FreeSite> chosen = new ArrayList<>();
        private final IntSet taken = new IntOpenHashSet();

        void add(int element, double cost, Progress progress) {
            if (kept.size() == KEPT && cost >= kept.peek().cost()) {
                return;
            }
            if (element == candidates.size()) {
                kept.add(new Layout(chosen, cost));
                if (kept.size() > KEPT) {
                    kept.poll();
                }
                return;
            }
            check(progress);
            for (FreeSite site : candidates.get(element)) {
                if (taken.add(site.site().id())) {
                    double more = estimate.toFixed(element, site.site().tile());
                    for (int other : estimate.neighbours(element)) {
                        if (other < element) {
                            more +=
                                    estimate.between(
                                            site.site().tile(), chosen.get(other).site().tile());
                        }
                    }
                    chosen.add(site);
                    add(element + 1, cost + more, progress);
                    chosen.remove(element);
                    taken.remove(site.site().id());
                }
            }
        }

        List<Layout> sorted() {
            return kept.stream().sorted(Comparator.comparingDouble(Layout::cost)).toList();
        }
    }

    /** A layout by annealing; empty when there are not enough sites. */
    Optional<Layout> annealed(long seed, Progress progress) {
        Optional<FreeSite[]> start = new FreeSiteMatching(candidates).assigned();
        return start.map(s -> new Annealing(s, new Random(seed)).run(progress));
    }

    private final class Annealing {
        private final FreeSite[] at;
        private final Random random;
        private final Int2IntOpenHashMap elementOn = new Int2IntOpenHashMap();

        Annealing(FreeSite[] start, Random random) {
            this.at = start;
            this.random = random;
            elementOn.defaultReturnValue(-1);
            for (int e = 0; e < at.length; e++) {
                elementOn.put(at[e].site().id(), e);
            }
        }

        Layout run(Progress progress) {
            double temperature = Math.max(1, cost() / at.length);
            int steps = (int) Math.ceil(Math.log(0.05 / temperature) / Math.log(COOLING));
            int moves = Math.max(20, MOVES_EACH * at.length / Math.max(1, steps));
            FreeSite[] best = at.clone();
            double cost = cost();
            double least = cost;
            for (int step = 0; step <= steps; step++) {
                check(progress);
                boolean last = step == steps;
                for (int i = 0; i < moves; i++) {
                    cost += move(last ? 0 : temperature);
                    if (cost < least - 1e-9) {
                        least = cost;
                        System.arraycopy(at, 0, best, 0, at.length);
                    }
                }
                temperature *= COOLING;
            }
            return new Layout(List.of(best), least);
        }

        private double cost() {
            double sum = 0;
            for (int e = 0; e < at.length; e++) {
                sum += own(e) + toOthers(e) / 2.0;
            }
            return sum;
        }

        private double own(int element) {
            return estimate.toFixed(element, at[element].site().tile());
        }

        private double toOthers(int element) {
            double sum = 0;
            for (int other : estimate.neighbours(element)) {
                sum += estimate.between(at[element].site().tile(), at[other].site().tile());
            }
            return sum;
        }

        /** Moves an element, or lets two change places; the change of the cost. */
        private double move(double temperature) {
            int element = random.nextInt(at.length);
            List<FreeSite> own = candidates.get(element);
            FreeSite to = own.get(random.nextInt(own.size()));
            int there = elementOn.get(to.site().id());
            if (there == element) {
                return 0;
            }
            FreeSite from = at[element];
            Optional<FreeSite> back =
                    there < 0
                            ? Optional.empty()
                            : candidates.get(there).stream()
                                    .filter(s -> s.site().id() == from.site().id())
                                    .findFirst();
            if (there >= 0 && back.isEmpty()) {
                return 0;
            }
            FreeSite was = there < 0 ? to : at[there];
            double before = own(element) + toOthers(element);
            before += there < 0 ? 0 : own(there) + toOthers(there);
            at[element] = to;
            back.ifPresent(s -> at[there] = s);
            double after = own(element) + toOthers(element);
            after += there < 0 ? 0 : own(there) + toOthers(there);
            double change = after - before;
            if (change <= 0
                    || temperature > 0 && random.nextDouble() < Math.exp(-change / temperature)) {
                elementOn.put(to.site().id(), element);
                if (there < 0) {
                    elementOn.remove(from.site().id());
                } else {
                    elementOn.put(from.site().id(), there);
                }
                return change;
            }
            at[element] = from;
            if (there >= 0) {
                at[there] = was;
            }
            return 0;
        }
    }

    private static void check(Progress progress) {
        progress.check();
    }
}
