package padward.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What was measured next to what is promised; belongs to one run of a benchmark. */
public final class Promises {
    private record Promise(String what, double measured, double promised, boolean atLeast) {
        boolean isMet() {
            return atLeast ? measured >= promised : measured <= promised;
        }

        /** Below 1 where the promise is kept, as long as it is not something and 0. */
        double ratio() {
            return atLeast ? promised / measured : measured / promised;
        }
    }

    private final List<Promise> all = new ArrayList<>();

    /** A figure that should not be greater than promised. */
    public void atMost(String what, double measured, double promised) {
        all.add(new Promise(what, measured, promised, false));
    }

    /** A figure that should not be less than promised. */
    public void atLeast(String what, double measured, double promised) {
        all.add(new Promise(what, measured, promised, true));
    }

    /**
     * Prints each figure with what is promised and their ratio, which is above 1 where it is
     * missed.
     *
     * @return the status that the benchmark ends with: 0 when all are met, else 1
     */
    public int report() {
        System.out.printf("%nPromised%n");
        for (Promise promise : all) {
            System.out.printf(
                    Locale.ROOT,
                    "  %-7s %-76s %10.2f (%s %.2f, ratio %.2f)%n",
                    promise.isMet() ? "met" : "MISSED",
                    promise.what(),
                    promise.measured(),
                    promise.atLeast() ? "at least" : "at most",
                    promise.promised(),
                    promise.ratio());
        }
        return all.stream().allMatch(Promise::isMet) ? 0 : 1;
    }
}
