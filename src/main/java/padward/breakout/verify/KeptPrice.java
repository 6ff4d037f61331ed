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
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.unblock.move.DelayChange;
import padward.unblock.release.Endpoint;
import padward.unblock.release.FanOut;
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

    private final List<Price.Cleared> obstacles = new ArrayList<>();
    private final List<DelayChange> moved = new ArrayList<>();
    private final Set<Endpoint> lost = new LinkedHashSet<>();

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
        for (Edit edit : edits) {
            if (edit instanceof Edit.DisconnectPort go) {
                drivenBy(go.port()).forEach(n -> removed(new Occupant.ByNet(n)));
            } else if (edit instanceof Edit.RemoveCell cell) {
                before.findCell(cell.cell()).ifPresent(c -> removed(new Occupant.ByCell(c)));
            } else if (edit instanceof Edit.RemoveNet net) {
                before.findNet(net.net()).ifPresent(n -> removed(new Occupant.ByNet(n)));
            }
        }
        IntSet inTheWay = inTheWay();
        for (Edit edit : edits) {
            if (edit instanceof Edit.RouteNet net) {
                rerouted(net, inTheWay);
            } else if (edit instanceof Edit.RelocateCell cell) {
                before.findCell(cell.cell()).ifPresent(this::movable);
                cell.nets().forEach(n -> delayed(n, Optional.of(cell)));
            } else if (edit instanceof Edit.SetCell set
                    && Cell.letsThrough(set.setting(), set.value())) {
                before.findCell(set.cell()).ifPresent(this::movable);
            }
        }
        return pads.plus(
                new Price(List.of(), List.of(), List.of(), obstacles, moved, List.copyOf(lost)));
    }

    private List<Net> drivenBy(String port) {
        return before.findPort(port).stream()
                .flatMap(p -> before.netsAtPort(p.id()).stream())
                .filter(
                        n ->
                                n.driver() instanceof Terminal.PortEnd end
                                        && before.ports().get(end.port()).name().equals(port))
                .toList();
    }

    /** Something that leaves: removable where it only serves a port that loses its pad. */
    private void removed(Occupant occupant) {
        List<List<Endpoint>> losing = new ArrayList<>();
        for (Question question : questions) {
            FanOut fanOut = fanOut(question);
            if (fanOut.isRemovable(occupant.number())) {
                obstacles.add(new Price.Cleared(occupant, Price.Fate.REMOVABLE));
                return;
            }
            losing.add(fanOut.losing(occupant.number()));
        }
        // What several lines of a group need is lost to the one for which it serves the least.
        losing.stream().min(Comparator.comparing(List::size)).ifPresent(lost::addAll);
        obstacles.add(new Price.Cleared(occupant, Price.Fate.LOSES_FUNCTION));
    }

    private FanOut fanOut(Question question) {
        // A circuit's own nets are in no design before it, and nothing depends on them yet.
        Net net = before.findNet(question.net().name()).orElse(question.net());
        return new FanOut(
                new QuestionContext(
                        before, net, PortBranch.find(before, question.pad()), question.padValue()),
                question.padValue());
    }

    private void movable(Cell cell) {
        obstacles.add(new Price.Cleared(new Occupant.ByCell(cell), Price.Fate.MOVABLE));
    }

    /** A net on other wires: it was in the way itself, or gives way to one that was. */
    private void rerouted(Edit.RouteNet edit, IntSet inTheWay) {
        boolean broughtOut = questions.stream().anyMatch(q -> q.net().name().equals(edit.net()));
        Optional<Net> net = cleared.findNet(edit.net());
        if (broughtOut || net.isEmpty()) {
            return;
        }
        if (inTheWay.contains(net.get().id())) {
            before.findNet(edit.net())
                    .map(n -> new Price.Cleared(new Occupant.ByNet(n), Price.Fate.MOVABLE))
                    .ifPresent(obstacles::add);
        }
        delayed(edit, Optional.empty());
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
