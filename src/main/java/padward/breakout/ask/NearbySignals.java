package padward.breakout.ask;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.Fabric;

/**
 * The signals nearest to one that has no route out, through the cells both up and down, that do
 * have one to the same pad; each with what sets it apart.
 */
final class NearbySignals {
    private static final int MOST_ASKED = 24;
    private static final int MOST_GIVEN = 3;
    private static final int FARTHEST = 3;

    private final Design design;
    private final Deque<Step> open = new ArrayDeque<>();
    private final Set<Net> seen = new HashSet<>();

    private record Step(Net net, List<String> differences, int up, int down) {}

    private NearbySignals(Design design) {
        this.design = design;
    }

    /** The nearest ones, open before blocked. */
    static List<NearbySignal> of(Asker asker, Question question, Progress progress) {
        NearbySignals search = new NearbySignals(question.design());
        List<NearbySignal> result = new ArrayList<>();
        int asked = 0;
        search.open.add(new Step(question.net(), List.of(), 0, 0));
        search.seen.add(question.net());
        while (!search.open.isEmpty() && asked < MOST_ASKED) {
            Step step = search.open.poll();
            if (!step.differences().isEmpty()) {
                asked++;
                Question other = question.on(question.design(), step.net());
                Answer answer = asker.answer(other, progress);
                if (!(answer instanceof Answer.NoRoute)) {
                    String difference = String.join("; ", step.differences());
                    result.add(new NearbySignal(step.net(), difference, answer));
                }
            }
            search.goOn(step);
        }
        result.sort(Comparator.comparing(s -> !(s.answer() instanceof Answer.Open)));
        return result.stream().limit(MOST_GIVEN).toList();
    }

    private void goOn(Step step) {
        if (step.differences().size() == FARTHEST) {
            return;
        }
        // Going up and then down again would lead to a signal of quite another meaning.
        if (step.up() == 0) {
            step.net().sinks().forEach(sink -> down(step, sink));
        }
        if (step.down() == 0) {
            up(step);
        }
    }

    private void down(Step step, Terminal sink) {
        if (!(sink instanceof Terminal.CellPin at)) {
            return;
        }
        Cell cell = design.cells().get(at.cell());
        if (!step.net().clock()) {
            design.netsDrivenBy(cell.id()).forEach(n -> add(step, n, downstream(cell), 0, 1));
        }
    }

    private void up(Step step) {
        if (step.net().driverCell() == Fabric.NOTHING) {
            return;
        }
        Cell cell = design.cells().get(step.net().driverCell());
        for (Net net : design.netsAt(cell.id())) {
            for (Terminal sink : net.sinks()) {
                if (sink instanceof Terminal.CellPin to && to.cell() == cell.id() && !net.clock()) {
                    add(step, net, upstream(cell), 1, 0);
                }
            }
        }
    }

    private void add(Step step, Net net, String difference, int up, int down) {
        if (seen.add(net)) {
            List<String> differences = new ArrayList<>(step.differences());
            differences.add(difference);
            open.add(new Step(net, differences, step.up() + up, step.down() + down));
        }
    }

    private String downstream(Cell cell) {
        if (holdsState(cell)) {
            return "registered copy, one clock later if always enabled";
        }
        if ("not".equals(cell.settings().get("function"))) {
            return "inverted";
        }
        long inputs =
                design.netsAt(cell.id()).stream().filter(n -> n.driverCell() != cell.id()).count();
        return inputs > 1
                ? "after cell " + cell.name() + ", combined with other signals"
                : "after cell " + cell.name();
    }

    private String upstream(Cell cell) {
        if (holdsState(cell)) {
            return "before a register, one clock earlier if always enabled";
        }
        return "not".equals(cell.settings().get("function"))
                ? "inverted"
                : "before cell " + cell.name();
    }

    private boolean holdsState(Cell cell) {
        return design.fabric().info().holdsState(cell.kind());
    }
}
