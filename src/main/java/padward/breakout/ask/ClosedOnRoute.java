package padward.breakout.ask;

import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Locks;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;

/**
 * What is locked on a route that has the fewest of it, where none has nothing of it; where none is
 * without anything unusable either, that too. O(edges reached).
 */
final class ClosedOnRoute {
    private static final int MOST_NAMED = 4;

    private final Design design;
    private final Fabric fabric;
    private final Locks locks;
    private final QuestionContext situation;
    private final int goal;
    private final boolean overUnusable;
    private final IntSet barred;

    private ClosedOnRoute(QuestionContext situation, int goal, boolean overUnusable) {
        this.situation = situation;
        this.design = situation.design();
        this.fabric = design.fabric();
        this.locks = design.locks();
        this.goal = goal;
        this.overUnusable = overUnusable;
        this.barred = situation.closedVertices();
    }

    /** The reason with what stands on the route; empty when that is not why there is none. */
    static Optional<NoRouteDiagnosis> find(
            QuestionContext situation, SearchSources starts, int goal, Progress progress) {
        if (situation.design().locks().closed().isEmpty()) {
            return Optional.empty();
        }
        // What could be unlocked is named rather than what nobody can use.
        return new ClosedOnRoute(situation, goal, false)
                .find(starts, progress)
                .or(() -> new ClosedOnRoute(situation, goal, true).find(starts, progress));
    }

    private Optional<NoRouteDiagnosis> find(SearchSources starts, Progress progress) {
        return named(
                CheapestRoute.find(fabric, starts, goal, this::isBarred, this::isClosed, progress));
    }

    /** Whether the question itself keeps a route from a vertex. */
    private boolean isBarred(int vertex) {
        boolean otherPad = vertex != goal && fabric.kind(vertex) == VertexKind.PAD;
        return otherPad
                || !overUnusable && fabric.unusable().isVertex(vertex)
                || barred.contains(vertex);
    }

    private boolean isClosed(int from, int to) {
        return locks.closed().get(to) || locks.keeps(situation.switchUser(from, to));
    }

    private Optional<NoRouteDiagnosis> named(IntList route) {
        Set<String> locked = new LinkedHashSet<>();
        Set<String> unusable = new LinkedHashSet<>();
        for (int i = 0; i + 1 < route.size(); i++) {
            int at = route.getInt(i);
            int user = situation.switchUser(route.getInt(i + 1), at);
            if (locks.keeps(user)) {
                why(user).ifPresent(locked::add);
            }
            if (fabric.unusable().isVertex(at)) {
                unusable.add(nameOf(at) + " is unusable");
            } else if (locks.closed().get(at)) {
                whyClosed(at).ifPresent(locked::add);
            }
        }
        if (locked.isEmpty() && unusable.isEmpty()) {
            return Optional.empty();
        }
        NoRouteReason reason =
                locked.isEmpty() ? NoRouteReason.UNUSABLE_ON_ROUTE : NoRouteReason.LOCKED;
        Set<String> all = new LinkedHashSet<>(locked);
        all.addAll(unusable);
        return Optional.of(new NoRouteDiagnosis(reason, sentence(List.copyOf(all))));
    }

    private String nameOf(int vertex) {
        int site = fabric.siteOf(vertex);
        return site == Fabric.NOTHING
                ? "wire " + fabric.vertexName(vertex)
                : "site " + fabric.site(site).name();
    }

    private Optional<String> whyClosed(int vertex) {
        Optional<String> ofUser = why(design.occupancy().occupantId(vertex));
        return ofUser.isPresent()
                ? ofUser
                : design.occupancy().findNetOn(vertex).flatMap(locks::whyKept);
    }

    private Optional<String> why(int occupant) {
        if (occupant == Fabric.NOTHING) {
            return Optional.empty();
        }
        return Occupant.isCell(occupant)
                ? locks.whyKept(design.cells().get(Occupant.cellOf(occupant)))
                : locks.whyKept(design.nets().get(Occupant.netOf(occupant)));
    }

    /** Clauses as the end of a sentence. */
    private static String sentence(List<String> clauses) {
        String few = clauses.stream().limit(MOST_NAMED).collect(Collectors.joining(", "));
        int more = clauses.size() - MOST_NAMED;
        return few + (more > 0 ? ", and " + more + " more" : "") + ".";
    }
}
