package padward.watch.place;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.List;
import java.util.Optional;

/**
 * Gives each element a site of its own, if that is possible: a bipartite matching by augmenting
 * paths (Berge 1957).
 */
final class FreeSiteMatching {
    private final List<List<FreeSite>> candidates;
    private final Int2IntOpenHashMap elementOn = new Int2IntOpenHashMap();
    private final FreeSite[] at;
    private int matched;

    FreeSiteMatching(List<List<FreeSite>> candidates) {
        this.candidates = candidates;
        this.at = new FreeSite[candidates.size()];
        elementOn.defaultReturnValue(-1);
        for (int e = 0; e < at.length; e++) {
            matched += place(e, new IntOpenHashSet()) ? 1 : 0;
        }
    }

    private boolean place(int element, IntSet tried) {
        for (FreeSite freeSite : candidates.get(element)) {
            int site = freeSite.site().id();
            if (tried.add(site)) {
                int there = elementOn.get(site);
                if (there < 0 || place(there, tried)) {
                    elementOn.put(site, element);
                    at[element] = freeSite;
                    return true;
                }
            }
        }
        return false;
    }

    /** How many elements find a site. */
    int matched() {
        return matched;
    }

    /** A site for each element; empty when there are not enough. */
    Optional<FreeSite[]> assigned() {
        return matched == at.length ? Optional.of(at.clone()) : Optional.empty();
    }
}
