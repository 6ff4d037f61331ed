package padward.breakout.verify;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.change.Part;
import padward.design.Design;

/**
 * Whether a ledger's entries changed what they list and nothing else. Two independent things are
 * set side by side: what the entries' edits say that they touch, and what really differs between
 * the design before and the design after, with every wire compared and every delay calculated
 * again.
 *
 * @param diff what really differs
 * @param touched each net, cell and port that differs and is listed, with the entries that list it
 * @param unlisted what differs though no entry lists it, in words; must be empty
 */
public record ChangeAudit(DesignDiff diff, List<Touched> touched, List<String> unlisted) {
    /** Copies the lists. */
    public ChangeAudit {
        touched = List.copyOf(touched);
        unlisted = List.copyOf(unlisted);
    }

    /**
     * Something that an entry lists and that differs.
     *
     * @param kind what it is
     * @param name its name
     * @param how how it differs
     * @param entries numbers of the entries that list it, from 1
     */
    public record Touched(Part.Kind kind, String name, Difference how, List<Integer> entries) {
        /** Copies the entries. */
        public Touched {
            entries = List.copyOf(entries);
        }
    }

    /**
     * Checks entries against what they led to.
     *
     * @param before the design without them
     * @param after the design with them, read or made independently of this check
     * @throws IllegalArgumentException when an entry does not fit, or the designs are on two
     *     fabrics
     */
    public static ChangeAudit of(Design before, List<LedgerEntry> entries, Design after) {
        return of(before, entries, after, Progress.NONE);
    }

    /**
     * The same, for large designs.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static ChangeAudit of(
            Design before, List<LedgerEntry> entries, Design after, Progress progress) {
        Map<Part, Set<Integer>> listed = listed(before, entries);
        DesignDiff diff = DesignDiff.between(before, after, progress);
        List<Touched> touched = new ArrayList<>();
        List<String> unlisted = new ArrayList<>();
        diff.nets().forEach(n -> sort(Part.Kind.NET, n.name(), n.how(), listed, touched, unlisted));
        diff.cells()
                .forEach(c -> sort(Part.Kind.CELL, c.name(), c.how(), listed, touched, unlisted));
        diff.ports()
                .forEach(p -> sort(Part.Kind.PORT, p.name(), p.how(), listed, touched, unlisted));
        return new ChangeAudit(diff, touched, unlisted);
    }

    private static void sort(
            Part.Kind kind,
            String name,
            Difference how,
            Map<Part, Set<Integer>> listed,
            List<Touched> touched,
            List<String> unlisted) {
        Set<Integer> entries = listed.getOrDefault(new Part(kind, name), Set.of());
        if (entries.isEmpty()) {
            unlisted.add(kind.label() + " " + name + " is " + how.label());
        } else {
            touched.add(new Touched(kind, name, how, List.copyOf(entries)));
        }
    }

    private static Map<Part, Set<Integer>> listed(Design before, List<LedgerEntry> entries) {
        Map<Part, Set<Integer>> result = new TreeMap<>();
        Design now = before;
        for (int number = 1; number <= entries.size(); number++) {
            Outcome outcome = Outcome.of(now, entries.get(number - 1).edits());
            if (outcome instanceof Outcome.Refused refused) {
                throw new IllegalArgumentException(
                        "entry "
                                + number
                                + " does not fit: "
                                + String.join("; ", refused.reasons()));
            }
            Outcome.Applied applied = (Outcome.Applied) outcome;
            for (Part part : applied.touched()) {
                result.computeIfAbsent(part, p -> new TreeSet<>()).add(number);
            }
            now = applied.design();
        }
        return result;
    }

    /** Whether nothing differs but what the entries list. */
    public boolean holds() {
        return unlisted.isEmpty();
    }

    /** The verdict as a sentence, with what was compared. */
    public String sentence() {
        DesignDiff.Same same = diff.same();
        if (!holds()) {
            return "Unexpected changes: "
                    + unlisted.size()
                    + (unlisted.size() == 1 ? " difference" : " differences")
                    + " that no entry lists: "
                    + String.join("; ", unlisted.subList(0, Math.min(8, unlisted.size())))
                    + ".";
        }
        return "Recalculated from the files: all other "
                + same.nets()
                + " nets keep every wire ("
                + same.steps()
                + " switches, fixed connections and pass-throughs compared) and every delay ("
                + same.delays()
                + " compared); all other "
                + same.cells()
                + " cells keep their sites and settings, all other "
                + same.ports()
                + " ports their pads.";
    }
}
