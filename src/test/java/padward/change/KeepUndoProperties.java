package padward.change;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.example.RandomDesigns;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.format.design.Digest;
import padward.route.bound.LowerBound;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.timing.TreeDelays;

/**
 * Random sequences of trials, keeps, undos (of the last and in any order) and redos on random
 * designs: whatever the entries that are left do not list keeps every wire and every delay, and
 * when all is undone the design is byte for byte the one at the start.
 */
class KeepUndoProperties {
    private static final int SAMPLE = 1_000;
    private static final int MANY = 10_000;

    /** Sequences on each design. */
    private static final int EACH = 50;

    private static final int STEPS = 8;

    @Test
    void aSampleLeavesNothingBehind() throws Exception {
        run(SAMPLE);
    }

    @Test
    @Tag("slow")
    void tenThousandLeaveNothingBehind() throws Exception {
        run(MANY);
    }

    private static void run(int sequences) throws Exception {
        int kept = 0;
        int undone = 0;
        int withDependents = 0;
        for (int d = 0; d < sequences / EACH; d++) {
            Random random = new Random(d);
            Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(d));
            Design base = RandomDesigns.on(fabric, 12, random);
            String digest = Digest.of(base);
            for (int s = 0; s < EACH; s++) {
                Sequence sequence = new Sequence(base, random, "design " + d + ", sequence " + s);
                for (int i = 0; i < STEPS; i++) {
                    sequence.step();
                }
                sequence.checkUntouched();
                sequence.undoAll();
                assertThat(Digest.of(sequence.now())).isEqualTo(digest);
                kept += sequence.kept;
                undone += sequence.undone;
                withDependents += sequence.withDependents;
            }
        }
        // The sequences are worth something only if much was really kept, undone, and depended on.
        assertThat(kept).isGreaterThan(2 * sequences);
        assertThat(undone).isGreaterThan(2 * sequences);
        assertThat(withDependents).isGreaterThan(sequences / 100);
    }

    private static final class Sequence {
        private final Design base;
        private final Random random;
        private final String name;
        private final PathSearch search;
        private final Deque<Ledger> before = new ArrayDeque<>();
        private final Deque<Ledger> again = new ArrayDeque<>();
        private Ledger ledger = new Ledger("d", "-", List.of());
        private int kept;
        private int undone;
        private int withDependents;
        private int ports;

        Sequence(Design base, Random random, String name) {
            this.base = base;
            this.random = random;
            this.name = name;
            this.search = new PathSearch(base.fabric());
        }

        Design now() {
            Ledger.Applied applied = ledger.applyTo(base);
            assertThat(applied).as(name).isInstanceOf(Ledger.Applied.Fits.class);
            return ((Ledger.Applied.Fits) applied).design();
        }

        void step() {
            int dice = random.nextInt(10);
            if (dice < 6) {
                keep();
            } else if (dice < 7 && !before.isEmpty()) {
                again.push(ledger);
                ledger = before.pop();
                undone++;
            } else if (dice < 8 && !again.isEmpty()) {
                before.push(ledger);
                ledger = again.pop();
            } else if (!ledger.entries().isEmpty()) {
                undoAny();
            }
        }

        private void keep() {
            Design now = now();
            List<Edit> edits = whatIf(now);
            EntryReplay replay = new EntryReplay(now);
            // A trial that does not fit is refused with reasons, and one that fits is applied
            // whole.
            if (!edits.isEmpty() && replay.add(edits).isEmpty()) {
                change(ledger.with(new LedgerEntry("t", "w", "", "n", "p", edits)));
                kept++;
            }
        }

        private void change(Ledger next) {
            before.push(ledger);
            again.clear();
            ledger = next;
        }

        private void undoAny() {
            int index = random.nextInt(ledger.entries().size());
            EntryRemoval undoing = EntryRemoval.of(ledger, base, index);
            int gone = 1 + undoing.dependents().size();
            assertThat(undoing.rest().entries()).hasSize(ledger.entries().size() - gone);
            assertThat(undoing.dependents()).allMatch(c -> c.index() > index);
            withDependents += undoing.isAlone() ? 0 : 1;
            change(undoing.rest());
            undone++;
        }

        void undoAll() {
            while (!ledger.entries().isEmpty()) {
                undoAny();
            }
        }

        private List<Edit> whatIf(Design now) {
            List<Edit> edits = new ArrayList<>();
            int dice = random.nextInt(6);
            if (dice == 0 && !now.ports().isEmpty()) {
                edits.add(new Edit.DisconnectPort(any(now.ports()).name()));
            } else if (dice == 1 && !now.cells().isEmpty()) {
                edits.add(new Edit.RemoveCell(any(now.cells()).name()));
            } else if (dice == 2 && !now.nets().isEmpty()) {
                edits.add(new Edit.RemoveNet(any(now.nets()).name()));
            } else if (dice == 3 && !now.cells().isEmpty()) {
                String value = random.nextBoolean() ? "open" : "shut";
                edits.add(new Edit.SetCell(any(now.cells()).name(), "through", value));
            } else if (!now.nets().isEmpty()) {
                breakOut(now, edits);
            }
            return edits;
        }

        private <T> T any(Collection<T> all) {
            return List.copyOf(all).get(random.nextInt(all.size()));
        }

        private void breakOut(Design now, List<Edit> edits) {
            Net net = any(now.nets());
            int pad = random.nextInt(now.fabric().pads().size());
            Design freed = now;
            if (now.findPortOn(pad).isPresent()) {
                edits.add(new Edit.DisconnectPort(now.findPortOn(pad).get().name()));
                freed = Outcome.apply(now, edits);
            }
            if (freed.findNet(net.name()).isEmpty()) {
                return;
            }
            int[] starts = freed.findNet(net.name()).get().route().toVertices();
            SearchOutcome outcome =
                    search.run(
                            new SearchSources(starts, new long[starts.length]),
                            now.fabric().pads().get(pad).vertex(),
                            Corner.SLOW,
                            new FreeOnlyCost(freed.occupancy().toBits()),
                            LowerBound.NONE,
                            Progress.NONE);
            if (outcome instanceof SearchOutcome.Found found && found.path().size() > 1) {
                List<Integer> route = new ArrayList<>();
                for (int i = 0; i < found.path().size(); i++) {
                    route.add(found.path().vertex(i));
                }
                String name = now.fabric().pads().get(pad).name();
                edits.add(new Edit.BreakOut(net.name(), "new" + ports++, name, "", route));
            }
        }

        /**
         * What the entries' edits do not name, or reach by a cell or port they name, is as it was.
         */
        void checkUntouched() {
            Set<String> nets = new HashSet<>();
            Set<String> cells = new HashSet<>();
            Set<String> gonePorts = new HashSet<>();
            for (LedgerEntry entry : ledger.entries()) {
                for (Edit edit : entry.edits()) {
                    if (edit instanceof Edit.DisconnectPort go) {
                        gonePorts.add("port " + go.port());
                    } else if (edit instanceof Edit.RemoveCell free) {
                        cells.add(free.cell());
                    } else if (edit instanceof Edit.SetCell set) {
                        cells.add(set.cell());
                    } else if (edit instanceof Edit.RemoveNet free) {
                        nets.add(free.net());
                    } else if (edit instanceof Edit.BreakOut out) {
                        nets.add(out.net());
                    }
                }
            }
            Design now = now();
            for (Net net : base.nets()) {
                boolean touched =
                        nets.contains(net.name())
                                || net.ends().stream()
                                        .map(base::textOf)
                                        .anyMatch(e -> gonePorts.contains(e) || isAt(e, cells));
                if (!touched) {
                    Net same = now.findNet(net.name()).orElseThrow();
                    assertThat(same.route()).as(name).isEqualTo(net.route());
                    TreeDelays one = TreeDelays.of(base.fabric(), net.route());
                    TreeDelays other = TreeDelays.of(now.fabric(), same.route());
                    for (int place = 0; place < net.route().size(); place++) {
                        assertThat(other.at(place)).as(name).isEqualTo(one.at(place));
                    }
                }
            }
            for (Cell cell : base.cells()) {
                if (!cells.contains(cell.name())) {
                    Cell same = now.findCell(cell.name()).orElseThrow();
                    assertThat(same.site()).as(name).isEqualTo(cell.site());
                    assertThat(same.settings()).as(name).isEqualTo(cell.settings());
                }
            }
        }

        private static boolean isAt(String end, Set<String> cells) {
            return cells.contains(end.substring(0, Math.max(0, end.lastIndexOf('.'))));
        }
    }
}
