package padward.breakout.verify;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.EntryReplay;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.unblock.move.DelayChange;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.FanOut;
import padward.unblock.release.LostEndpoint;
import padward.unblock.release.PortBranch;
import padward.unblock.release.QuestionContext;

/**
 * What kept edits cost, worked out from them alone: the price of the answer that they came from. It
 * is calculated again wherever a ledger is read, so that what it says holds for the design at hand.
 * One object belongs to one entry.
 */
public final class KeptPrice {
    private final Design before;
    private final List<Edit> edits;
    private final List<Question> questions;

    /** The design once all that leaves has left, which is what moves are compared with. */
    private final Design cleared;

    private final List<DelayChange> moved = new ArrayList<>();
    private final Set<LostEndpoint> lost = new LinkedHashSet<>();

    private KeptPrice(Design before, List<Edit> edits) {
        this.before = before;
        this.edits = edits;
        this.questions = Question.ofBreakOuts(before, edits);
        List<Edit> leaving = edits.stream().filter(KeptPrice::leaves).toList();
        this.cleared =
                Outcome.of(before, leaving) instanceof Outcome.Applied applied
                        ? applied.design()
                        : before;
    }

    /**
     * The price of edits that were kept together. O(what they touch and feed).
     *
     * @param before the design before them
     */
    public static Price of(Design before, List<Edit> edits) {
        Price pads = Price.ofPads(before, edits);
        return new KeptPrice(before, edits).more(pads);
    }

    /** The price of entries, each on the design with those before it, as far as they fit. */
    public static Price ofAll(Design base, List<LedgerEntry> entries) {
        EntryReplay replay = new EntryReplay(base);
        Price price = Price.NOTHING;
        for (LedgerEntry entry : entries) {
            Design before = replay.design();
            if (replay.add(entry.edits()).isEmpty()) {
                price = price.plus(of(before, entry.edits()));
            }
        }
        return price;
    }

    private static boolean leaves(Edit edit) {
        return edit instanceof Edit.DisconnectPort
                || edit instanceof Edit.RemoveNet
                || edit instanceof Edit.RemoveCell;
    }

    private Price more(Price pads) {
        Reading reading = new Reading(inTheWay());
        List<Price.Cleared> obstacles = new ArrayList<>();
        edits.forEach(e -> obstacles.addAll(e.accept(reading)));
        return pads.plus(
                new Price(List.of(), List.of(), List.of(), obstacles, moved, List.copyOf(lost)));
    }

    /** The obstacles that an edit removes or moves; notes what is delayed and lost by that. */
    private final class Reading implements Edit.Visitor<List<Price.Cleared>, RuntimeException> {
        private final IntSet inTheWay;

        Reading(IntSet inTheWay) {
            this.inTheWay = inTheWay;
        }

        /** A net that a port drives goes with the port. */
        @Override
        public List<Price.Cleared> disconnectPort(Edit.DisconnectPort edit) {
            return before.findPort(edit.port()).stream()
                    .flatMap(p -> before.netsAtPort(p.id()).stream())
                    .filter(
                            n ->
                                    n.driver() instanceof Terminal.PortEnd end
                                            && before.ports()
                                                    .get(end.port())
                                                    .name()
                                                    .equals(edit.port()))
                    .map(n -> removed(new Occupant.ByNet(n)))
                    .toList();
        }

        @Override
        public List<Price.Cleared> removeNet(Edit.RemoveNet edit) {
            return before.findNet(edit.net()).stream()
                    .map(n -> removed(new Occupant.ByNet(n)))
                    .toList();
        }

        @Override
        public List<Price.Cleared> removeCell(Edit.RemoveCell edit) {
            return before.findCell(edit.cell()).stream()
                    .map(c -> removed(new Occupant.ByCell(c)))
                    .toList();
        }

        /** A net on other wires: it was in the way itself, or gives way to one that was. */
        @Override
        public List<Price.Cleared> routeNet(Edit.RouteNet edit) {
            boolean broughtOut =
                    questions.stream().anyMatch(q -> q.net().name().equals(edit.net()));
            Optional<Net> net = cleared.findNet(edit.net());
            if (broughtOut || net.isEmpty()) {
                return List.of();
            }
            delayed(edit, Optional.empty());
            return before.findNet(edit.net()).stream()
                    .filter(n -> inTheWay.contains(net.get().id()))
                    .map(n -> new Price.Cleared(new Occupant.ByNet(n), Price.Fate.MOVABLE))
                    .toList();
        }

        @Override
        public List<Price.Cleared> relocateCell(Edit.RelocateCell edit) {
            edit.nets().forEach(n -> delayed(n, Optional.of(edit)));
            return movable(edit.cell());
        }

        @Override
        public List<Price.Cleared> setCell(Edit.SetCell edit) {
            return Cell.letsThrough(edit.setting(), edit.value())
                    ? movable(edit.cell())
                    : List.of();
        }

        // What a pad costs is in the price already, and what is added takes nothing from anybody.

        @Override
        public List<Price.Cleared> breakOut(Edit.BreakOut edit) {
            return List.of();
        }

        @Override
        public List<Price.Cleared> setDriver(Edit.SetDriver edit) {
            return List.of();
        }

        @Override
        public List<Price.Cleared> tieEnable(Edit.TieEnable edit) {
            return List.of();
        }

        @Override
        public List<Price.Cleared> addCell(Edit.AddCell edit) {
            return List.of();
        }

        @Override
        public List<Price.Cleared> addNet(Edit.AddNet edit) {
            return List.of();
        }

        @Override
        public List<Price.Cleared> addSink(Edit.AddSink edit) {
            return List.of();
        }

        @Override
        public List<Price.Cleared> addInput(Edit.AddInput edit) {
            return List.of();
        }
    }

    /** Something that leaves: removable where it only serves a port that loses its pad. */
    private Price.Cleared removed(Occupant occupant) {
        List<List<LostEndpoint>> losing = new ArrayList<>();
        for (Question question : questions) {
            FanOut fanOut = fanOut(question);
            if (fanOut.isRemovable(occupant.number())) {
                return new Price.Cleared(occupant, Price.Fate.REMOVABLE);
            }
            losing.add(fanOut.losing(occupant.number()));
        }
        // What is removed for a group is removed for the line to which it means the least.
        losing.stream().min(Comparator.comparing(List::size)).ifPresent(lost::addAll);
        return new Price.Cleared(occupant, Price.Fate.LOSES_FUNCTION);
    }

    private FanOut fanOut(Question question) {
        return new FanOut(
                before,
                before.findNet(question.net().name()).orElseGet(() -> added(question.net().name())),
                PortBranch.find(before, question.pad()).map(DisconnectedBranch::port),
                question.padValue());
    }

    /** Stands for a net that the entry adds: nothing before it is or drives that net. */
    private static Net added(String name) {
        return new Net(
                Fabric.NOTHING,
                name,
                new Terminal.PortEnd(Fabric.NOTHING),
                List.of(),
                RouteTree.of(0),
                false);
    }

    private List<Price.Cleared> movable(String cell) {
        return before.findCell(cell).stream()
                .map(c -> new Price.Cleared(new Occupant.ByCell(c), Price.Fate.MOVABLE))
                .toList();
    }

    private void delayed(Edit.RouteNet edit, Optional<Edit.RelocateCell> with) {
        cleared.findNet(edit.net())
                .filter(n -> n.route().size() > 1)
                .map(n -> DelayChange.of(cleared, n, edit, with))
                .ifPresent(moved::add);
    }

    /** The nets that use what the new branches need, by number, once what leaves has left. */
    private IntSet inTheWay() {
        IntSet result = new IntOpenHashSet();
        Occupancy occupancy = cleared.occupancy();
        Fabric fabric = cleared.fabric();
        Set<Integer> sites = new HashSet<>();
        for (Edit edit : edits) {
            if (!(edit instanceof Edit.BreakOut out)) {
                continue;
            }
            List<Integer> route = out.route();
            for (int i = 1; i < route.size(); i++) {
                occupancy.findNetOn(route.get(i)).ifPresent(n -> result.add(n.id()));
                sites.add(fabric.siteOf(route.get(i)));
            }
            for (Question question : questions) {
                if (question.padValue().name().equals(out.pad())) {
                    sites.add(question.padValue().enableSite());
                    excluded(question, route, result);
                }
            }
        }
        sites.remove(Fabric.NOTHING);
        for (int site : sites) {
            SiteView view = fabric.site(site);
            for (int pin = 0; pin < view.pins().size(); pin++) {
                occupancy.findNetOn(view.firstPin() + pin).ifPresent(n -> result.add(n.id()));
            }
        }
        return result;
    }

    /** Adds the nets over switches that cannot be on together with those of a branch. */
    private void excluded(Question question, List<Integer> route, IntSet result) {
        if (cleared.fabric().switchGroups().isEmpty()) {
            return;
        }
        Optional<Net> own = cleared.findNet(question.net().name());
        if (own.isEmpty()) {
            return;
        }
        QuestionContext context = new QuestionContext(cleared, own.get(), Optional.empty());
        for (int i = 1; i < route.size(); i++) {
            int user = context.switchUser(route.get(i - 1), route.get(i));
            if (user != Fabric.NOTHING) {
                result.add(user);
            }
        }
    }
}
