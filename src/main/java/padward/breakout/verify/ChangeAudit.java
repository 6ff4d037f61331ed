package padward.breakout.verify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import padward.change.Edit;
import padward.change.EntryReplay;
import padward.change.LedgerEntry;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;

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

    /** Kinds of thing that can be touched. */
    public enum Kind {
        /** A net. */
        NET,
        /** A cell. */
        CELL,
        /** A port. */
        PORT;

        /** The word used in files and on screens. */
        public String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * Something that an entry lists and that differs.
     *
     * @param kind what it is
     * @param name its name
     * @param how how it differs
     * @param entries numbers of the entries that list it, from 1
     */
    public record Touched(Kind kind, String name, Difference how, List<Integer> entries) {
        /** Copies the entries. */
        public Touched {
            entries = List.copyOf(entries);
        }
    }

    private record Part(Kind kind, String name) {}

    /**
     * Checks entries against what they led to.
     *
     * @param before the design without them
     * @param after the design with them, read or made independently of this check
     * @throws IllegalArgumentException when an entry does not fit, or the designs are on two
     *     fabrics
     */
    public static ChangeAudit of(Design before, List<LedgerEntry> entries, Design after) {
        Map<Part, Set<Integer>> listed = listed(before, entries);
        DesignDiff diff = DesignDiff.between(before, after);
        List<Touched> touched = new ArrayList<>();
        List<String> unlisted = new ArrayList<>();
        diff.nets().forEach(n -> sort(Kind.NET, n.name(), n.how(), listed, touched, unlisted));
        diff.cells().forEach(c -> sort(Kind.CELL, c.name(), c.how(), listed, touched, unlisted));
        diff.ports().forEach(p -> sort(Kind.PORT, p.name(), p.how(), listed, touched, unlisted));
        return new ChangeAudit(diff, touched, unlisted);
    }

    private static void sort(
            Kind kind,
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
        Map<Part, Set<Integer>> result =
                new TreeMap<>(Comparator.comparing(Part::kind).thenComparing(Part::name));
        EntryReplay replay = new EntryReplay(before);
        int number = 0;
        for (LedgerEntry entry : entries) {
            number++;
            for (Edit edit : entry.edits()) {
                for (Part part : partsOf(replay.design(), edit)) {
                    result.computeIfAbsent(part, p -> new TreeSet<>()).add(number);
                }
            }
            List<String> reasons = replay.add(entry.edits());
            if (!reasons.isEmpty()) {
                throw new IllegalArgumentException(
                        "entry " + number + " does not fit: " + String.join("; ", reasons));
            }
        }
        return result;
    }

    /** What an edit says that it touches, and what goes with that by the rules of edits. */
    private static Set<Part> partsOf(Design design, Edit edit) {
        Set<Part> result = new LinkedHashSet<>();
        if (edit instanceof Edit.DisconnectPort go) {
            result.add(new Part(Kind.PORT, go.port()));
            design.nets().stream()
                    .filter(n -> n.ends().stream().anyMatch(t -> isPort(design, t, go.port())))
                    .forEach(n -> result.add(new Part(Kind.NET, n.name())));
        } else if (edit instanceof Edit.RemoveNet free) {
            result.add(new Part(Kind.NET, free.net()));
        } else if (edit instanceof Edit.RemoveCell free) {
            result.add(new Part(Kind.CELL, free.cell()));
            design.findCell(free.cell())
                    .map(Cell::id)
                    .map(design::netsAt)
                    .orElse(List.<Net>of())
                    .forEach(n -> result.add(new Part(Kind.NET, n.name())));
        } else if (edit instanceof Edit.RouteNet route) {
            result.add(new Part(Kind.NET, route.net()));
        } else if (edit instanceof Edit.RelocateCell move) {
            result.add(new Part(Kind.CELL, move.cell()));
            move.nets().forEach(n -> result.add(new Part(Kind.NET, n.net())));
        } else if (edit instanceof Edit.SetCell set) {
            result.add(new Part(Kind.CELL, set.cell()));
        } else if (edit instanceof Edit.BreakOut out) {
            result.add(new Part(Kind.NET, out.net()));
            result.add(new Part(Kind.PORT, out.port()));
        }
        return result;
    }

    private static boolean isPort(Design design, Terminal end, String port) {
        return end instanceof Terminal.PortEnd at
                && design.ports().get(at.port()).name().equals(port);
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
