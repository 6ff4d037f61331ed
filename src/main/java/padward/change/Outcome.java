package padward.change;

import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import padward.design.Design;

/** What comes of applying edits to a design: exactly one of two. */
public sealed interface Outcome {
    /**
     * They fit.
     *
     * @param design the design with them
     * @param touched every net, cell and port that they put, change or remove
     */
    record Applied(Design design, Set<Part> touched) implements Outcome {
        /** Copies the parts, in order. */
        public Applied {
            touched = Collections.unmodifiableSet(new TreeSet<>(touched));
        }
    }

    /**
     * They do not fit, and nothing is changed.
     *
     * @param reasons what stands against them, as clauses; at least one
     */
    record Refused(List<String> reasons) implements Outcome {
        /** Copies the reasons. */
        public Refused {
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * The edits applied together, as one entry of a ledger: first what makes room (ports
     * disconnected, nets and cells removed, settings changed), then what is routed; each group in
     * the given order. Nets and cells that move leave their old places before any takes its new
     * one, so two may change places. O(what the edits touch + the differences from the design that
     * was read).
     */
    static Outcome of(Design design, List<Edit> edits) {
        Draft draft = new Draft(design);
        edits.stream().filter(Edit::makesRoom).forEach(e -> e.applyTo(draft));
        edits.stream().filter(e -> !e.makesRoom()).forEach(e -> e.applyTo(draft));
        return draft.finish();
    }

    /**
     * The design after edits that fit.
     *
     * @throws IllegalArgumentException when they do not fit, with the reasons
     */
    static Design apply(Design design, List<Edit> edits) {
        Outcome outcome = of(design, edits);
        if (outcome instanceof Refused refused) {
            throw new IllegalArgumentException(String.join("; ", refused.reasons()));
        }
        return ((Applied) outcome).design();
    }
}
