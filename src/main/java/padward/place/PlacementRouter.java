package padward.place;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;

/**
 * Routes the nets of a placement: first all together, then those that failed again, without the
 * sinks that cannot be reached. Gives a reason for each net or sink that stays unrouted.
 */
final class PlacementRouter {
    private final Fabric fabric;
    private final BitSet closed;
    private final BitSet bothWays;

    /**
     * A net to route.
     *
     * @param name its name
     * @param root vertex of its driver
     * @param sinks vertices of its sinks
     * @param alike for each sink the pins at which it may be instead, where none ends
     */
    record Job(String name, int root, int[] sinks, List<List<Integer>> alike) {}

    /**
     * What was routed.
     *
     * @param trees a tree for each job, if it found one
     * @param sinks for each job the vertices of its sinks, of which some went to pins that are
     *     alike
     * @param reasons why not, for those that did not or that lost sinks
     */
    record Result(
            List<Optional<RouteTree>> trees,
            List<int[]> sinks,
            List<PlaceRouteResult.Unrouted> reasons) {}

    /**
     * @param closed what no net may enter, unless it ends there
     * @param bothWays of these, the pads at which one net ends while another one begins there
     */
    PlacementRouter(Fabric fabric, BitSet closed, BitSet bothWays) {
        this.bothWays = bothWays;
        this.fabric = fabric;
        this.closed = closed;
    }

    Result route(List<Job> jobs, int rounds, Progress caller) {
        Progress progress = new Plain(caller, "routing " + jobs.size() + " nets");
        // a net without sinks uses only its driver's vertex
        List<Integer> wanted = new ArrayList<>();
        List<Optional<RouteTree>> trees = new ArrayList<>(Collections.nCopies(jobs.size(), null));
        for (int j = 0; j < jobs.size(); j++) {
            trees.set(j, Optional.of(RouteTree.of(jobs.get(j).root)));
            if (jobs.get(j).sinks.length > 0) {
                wanted.add(j);
            }
        }
        List<RouteJob> first =
                wanted.stream()
                        .map(j -> new RouteJob(jobs.get(j).root, jobs.get(j).sinks))
                        .toList();
        List<Optional<RouteTree>> found =
                new NegotiatedRouter(fabric, closed)
                        .sharing(bothWays)
                        .route(first, rounds, progress);
        BitSet used = (BitSet) closed.clone();
        List<Integer> failed = new ArrayList<>();
        for (int i = 0; i < found.size(); i++) {
            trees.set(wanted.get(i), found.get(i));
            found.get(i).ifPresent(t -> use(used, t));
            if (found.get(i).isEmpty()) {
                failed.add(wanted.get(i));
            }
        }
        List<PlaceRouteResult.Unrouted> reasons = new ArrayList<>();
        List<int[]> sinks = new ArrayList<>();
        BitSet ends = new BitSet();
        for (Job job : jobs) {
            sinks.add(job.sinks.clone());
            IntStream.of(job.sinks).forEach(ends::set);
        }
        for (int j : failed) {
            List<RouteTree> others = trees.stream().flatMap(Optional::stream).toList();
            swap(jobs.get(j), sinks.get(j), used, ends, progress);
            trees.set(j, again(jobs.get(j), sinks.get(j), used, others, rounds, reasons, progress));
            trees.get(j).ifPresent(t -> use(used, t));
        }
        return new Result(trees, sinks, reasons);
    }

    /** Sinks that are shut off go to pins that are alike and can be reached. */
    private void swap(Job job, int[] sinks, BitSet used, BitSet ends, Progress progress) {
        BitSet free = Reachability.from(job.root, fabric.edgesOut(), used, progress);
        for (int s = 0; s < sinks.length; s++) {
            for (int other : free.get(sinks[s]) ? List.<Integer>of() : job.alike.get(s)) {
                if (free.get(other) && !ends.get(other)) {
                    ends.set(other);
                    sinks[s] = other;
                    break;
                }
            }
        }
    }

    /** Reports the stage, not each search. */
    private record Plain(Progress caller, String message) implements Progress {
        @Override
        public void report(double fraction, String ignored) {
            caller.report(-1, message);
        }

        @Override
        public boolean cancelled() {
            return caller.cancelled();
        }
    }

    private static void use(BitSet used, RouteTree tree) {
        for (int place = 0; place < tree.size(); place++) {
            used.set(tree.vertex(place));
        }
    }

    private Optional<RouteTree> again(
            Job job,
            int[] sinks,
            BitSet used,
            List<RouteTree> others,
            int rounds,
            List<PlaceRouteResult.Unrouted> reasons,
            Progress progress) {
        BitSet free = Reachability.from(job.root, fabric.edgesOut(), used, progress);
        BitSet ever = Reachability.from(job.root, fabric.edgesOut(), closed, progress);
        IntArrayList left = new IntArrayList();
        IntArrayList never = new IntArrayList();
        IntArrayList occupied = new IntArrayList();
        for (int sink : sinks) {
            (free.get(sink) ? left : ever.get(sink) ? occupied : never).add(sink);
        }
        if (!never.isEmpty()) {
            reasons.add(reason(job, never, "no wires lead from its driver to "));
        }
        if (!occupied.isEmpty()) {
            reasons.add(reason(job, occupied, "other nets use the wires to "));
        }
        if (left.isEmpty()) {
            return Optional.empty();
        }
        RouteJob rest = new RouteJob(job.root, left.toIntArray());
        Optional<RouteTree> tree =
                new NegotiatedRouter(fabric, used, others, Optional.empty())
                        .sharing(bothWays)
                        .route(List.of(rest), rounds, progress)
                        .get(0);
        if (tree.isEmpty()) {
            reasons.add(reason(job, left, "other nets use the wires to "));
        }
        return tree;
    }

    private PlaceRouteResult.Unrouted reason(Job job, IntArrayList sinks, String why) {
        String first = fabric.vertexName(sinks.getInt(0));
        int more = sinks.size() - 1;
        return new PlaceRouteResult.Unrouted(
                job.name, why + first + (more > 0 ? " and " + more + " other sinks" : ""));
    }
}
