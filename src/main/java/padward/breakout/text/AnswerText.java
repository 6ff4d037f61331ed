package padward.breakout.text;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Listing;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.Terminal;
import padward.design.board.Attachment;
import padward.design.board.Board;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.route.search.SwitchGroupSearch;
import padward.unblock.UnblockExplanation;
import padward.unblock.move.Consequence;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.weigh.Removal;

/** Answers in words. */
public final class AnswerText {
    private AnswerText() {}

    /** The answer as a sentence or two that a person understands. */
    public static String sentence(Answer answer) {
        return String.join(" ", reasons(answer));
    }

    /** The same one by one: what the answer is, then its reasons and what follows from it. */
    public static List<String> reasons(Answer answer) {
        List<String> parts = new ArrayList<>();
        if (answer instanceof Answer.FreeRoute free) {
            parts.add(reaches(free));
            parts.addAll(notProven(free.route(), "a free route may be faster"));
            parts.addAll(disconnected(free, "is disconnected from the pad", Set.of()));
            parts.addAll(PriceText.onTheBoard(Price.of(answer)));
        } else if (answer instanceof Answer.Blocked blocked) {
            parts.addAll(blocked(blocked));
            parts.addAll(disconnected(blocked, "then has no pad", removed(blocked)));
            parts.addAll(PriceText.onTheBoard(Price.of(answer)));
        } else if (answer instanceof Answer.NoRoute none) {
            parts.add(noRoute(none));
            parts.addAll(nearby(none));
        }
        return List.copyOf(parts);
    }

    /** The sentence without the word that it begins with, for places that show the word apart. */
    public static String explanation(Answer answer) {
        String text = sentence(answer);
        String rest = text.substring(text.indexOf(": ") + 2);
        boolean beginsWithName = rest.startsWith(answer.question().net().name());
        return beginsWithName ? rest : Character.toUpperCase(rest.charAt(0)) + rest.substring(1);
    }

    /** The kind of answer in a word or a few. */
    public static String word(Answer answer) {
        boolean tied =
                answer instanceof Answer.FreeRoute && AnswerEdits.tiesEnable(answer.question());
        boolean proven = answer.findRoute().map(Route::proven).orElse(true);
        return AnswerKind.of(answer).toText()
                + (tied ? " once the enable is tied on" : "")
                + (proven ? "" : ", not proven");
    }

    private static String reaches(Answer.FreeRoute free) {
        Route route = free.route();
        if (AnswerEdits.isThere(free)) {
            return String.format(
                    Locale.ROOT,
                    "Open: %s is already on %s, %s after its driver.",
                    netName(free),
                    padText(free.question()),
                    route.total().toText());
        }
        return String.format(
                Locale.ROOT,
                "%s: %s reaches %s in %s, over %s from %s.",
                word(free),
                netName(free),
                padText(free.question()),
                route.total().toText(),
                hops(route),
                route.hops().get(route.branchHop()).name());
    }

    private static List<String> blocked(Answer.Blocked blocked) {
        List<String> parts = new ArrayList<>();
        parts.add(
                String.format(
                        Locale.ROOT,
                        "%s: no free route from %s to %s%s.",
                        word(blocked),
                        netName(blocked),
                        padText(blocked.question()),
                        blocked.route().proven() ? "" : " was found"));
        parts.addAll(notProven(blocked.route(), "one may exist"));
        parts.addAll(blocked.why().map(w -> why(blocked, w)).orElseGet(() -> quick(blocked)));
        return parts;
    }

    /** What a search left open that stopped among switches that exclude each other. */
    private static List<String> notProven(Route route, String what) {
        return route.proven()
                ? List.of()
                : List.of(
                        String.format(
                                Locale.ROOT,
                                "This is not proven: %d routes with switches that exclude each"
                                        + " other were looked at; %s.",
                                SwitchGroupSearch.MOST_SEARCHES,
                                what));
    }

    private static List<String> quick(Answer.Blocked blocked) {
        String obstacles =
                blocked.obstacles().stream()
                        .map(AnswerText::obstacle)
                        .collect(Collectors.joining("; "));
        String steps = blocked.obstacles().size() == 1 ? "removing it" : "removing them";
        return List.of("On the best route, " + obstacles + ".", opens(blocked, List.of(steps)));
    }

    /** What must go, what it means, how sure that is. */
    private static List<String> why(Answer.Blocked blocked, WhyBlocked why) {
        UnblockExplanation explanation = why.explanation();
        List<String> parts = new ArrayList<>(WhyText.mustGo(explanation));
        List<Removal> removals = explanation.best().removals();
        Set<Occupant> occupants = new HashSet<>();
        explanation.chokepoints().forEach(c -> c.occupant().ifPresent(occupants::add));
        if (!removals.stream().allMatch(r -> occupants.contains(r.occupant()))) {
            String obstacles =
                    blocked.obstacles().stream()
                            .map(AnswerText::obstacle)
                            .collect(Collectors.joining("; "));
            parts.add("On the best route, " + obstacles + ".");
        }
        for (Removal removal : removals) {
            parts.add(WhyText.consequenceSentence(blocked, removal));
        }
        parts.add(opens(blocked, removals.stream().map(WhyText::doing).toList()));
        return parts;
    }

    /** What it takes to open the answer's route, and the delay of that route. */
    private static String opens(Answer.Blocked blocked, List<String> steps) {
        List<String> all = new ArrayList<>(steps);
        blocked.question().losingPort().ifPresent(p -> all.add("disconnecting port " + p.name()));
        return WhyText.capital(Listing.all(all))
                + " opens a route: "
                + blocked.route().total().toText()
                + ".";
    }

    /** An obstacle as a clause: who uses what. */
    public static String obstacle(Obstacle obstacle) {
        if (obstacle.resourceKind().equals(Obstacle.SWITCH_GROUP)) {
            boolean cell = obstacle.occupant() instanceof Occupant.ByCell;
            return (cell ? "a net of " : "")
                    + WhyText.who(obstacle.occupant())
                    + " uses switch group "
                    + obstacle.resource()
                    + ", which is set to "
                    + obstacle.switchOn();
        }
        return WhyText.who(obstacle.occupant())
                + (obstacle.withItsNets() ? " and its nets use " : " uses ")
                + obstacle.resourceKind()
                + " "
                + obstacle.resource()
                + more(obstacle);
    }

    private static String more(Obstacle obstacle) {
        boolean wires = obstacle.resourceKind().equals("wire");
        int others = obstacle.hops().size() - 1;
        if (!wires || others == 0) {
            return "";
        }
        return " and " + others + (others == 1 ? " more wire" : " more wires");
    }

    private static String noRoute(Answer.NoRoute noRoute) {
        String pad = padText(noRoute.question());
        String net = netName(noRoute);
        return switch (noRoute.reason()) {
            case INPUT_ONLY_PAD ->
                    "No route: "
                            + pad
                            + " is input-only; it has no driver, so no net can be brought out there.";
            case NO_FITTING_SETTING ->
                    "No route: no driver setting of "
                            + pad
                            + " fits the voltage of its bank; see the cautions.";
            case OWN_DRIVER_ON_ENABLE ->
                    "No route: "
                            + switching(noRoute.question())
                            + " switches the driver of "
                            + pad
                            + " on and off, so the pin cannot show the signal.";
            case LOCKED ->
                    "No route: "
                            + net
                            + " cannot be brought out on "
                            + pad
                            + ", because "
                            + noRoute.detail();
            case UNUSABLE_ON_ROUTE ->
                    "No route: every route from "
                            + net
                            + " to "
                            + pad
                            + " needs something unusable: "
                            + noRoute.detail();
            case NEVER_LEAVES_ITS_SITE ->
                    "No route: "
                            + net
                            + " is internal to its site; none of its pins reaches the routing.";
            case CLOCK_WIRES_ONLY ->
                    "No route: clock "
                            + net
                            + " runs on clock wires only, which lead to no pad. "
                            + noRoute.detail();
            case DEDICATED_WIRES ->
                    "No route: "
                            + net
                            + " reaches dedicated wires only, which lead to no pad. "
                            + noRoute.detail();
            case NOTHING_LEADS_TO_PAD -> "No route: no wire of the fabric leads to " + pad + ".";
            case SWITCHES_EXCLUDE ->
                    (noRoute.detail().isEmpty() ? "No route: all" : "No route found: the")
                            + " routes from "
                            + net
                            + " to "
                            + pad
                            + " use two switches of one switch group, of which only one can be on."
                            + (noRoute.detail().isEmpty() ? "" : " " + noRoute.detail());
            case OWN_PASS_THROUGH ->
                    "No route from "
                            + net
                            + " to "
                            + pad
                            + ": the net blocks itself. "
                            + noRoute.detail();
            case PAD_OUT_OF_REACH ->
                    "No route: not even an empty fabric has a route from "
                            + net
                            + " to "
                            + pad
                            + ".";
        };
    }

    /** What of a net switches the driver of the pad: the cell that drives it, or it itself. */
    private static String switching(Question question) {
        int cell = question.net().driverCell();
        Design design = question.design();
        boolean ofCell =
                cell != Fabric.NOTHING
                        && design.cells().get(cell).site() == question.padValue().enableSite();
        String net = question.net().name();
        return ofCell
                ? "cell " + design.cells().get(cell).name() + ", which drives " + net + ", also"
                : net + " itself";
    }

    private static List<String> nearby(Answer.NoRoute noRoute) {
        if (noRoute.nearby().isEmpty()) {
            return List.of();
        }
        return List.of(
                noRoute.nearby().stream()
                        .map(
                                s ->
                                        s.net().name()
                                                + " ("
                                                + s.difference()
                                                + ", "
                                                + word(s.answer()).toLowerCase(Locale.ROOT)
                                                + ")")
                        .collect(
                                Collectors.joining(
                                        ", ", "Related signals with a route to this pad: ", ".")));
    }

    /** What an answer removes from the design: cells and nets that it does not merely move. */
    private static Set<Occupant> removed(Answer.Blocked blocked) {
        return blocked.why()
                .map(
                        w ->
                                w.explanation().best().removals().stream()
                                        .filter(
                                                r ->
                                                        !(r.consequence()
                                                                instanceof Consequence.Movable))
                                        .map(Removal::occupant))
                .orElseGet(() -> blocked.obstacles().stream().map(Obstacle::occupant))
                .collect(Collectors.toSet());
    }

    /** What becomes of the port on the pad and of the net that feeds it; empty without a port. */
    private static List<String> disconnected(Answer answer, String port, Set<Occupant> removed) {
        Optional<Port> loses = answer.question().losingPort();
        if (loses.isEmpty()) {
            return List.of();
        }
        String beginning = "Port " + loses.get().name() + " " + port;
        if (answer.disconnected().isEmpty()) {
            return List.of(beginning + ".");
        }
        DisconnectedBranch branch = answer.disconnected().get();
        int also = branch.vertices().size() - 1;
        String free =
                also <= 0
                        ? ""
                        : ", and "
                                + (also == 1 ? "1 wire or pin" : also + " wires and pins")
                                + " that served only this port "
                                + (also == 1 ? "becomes free" : "become free");
        String enables =
                branch.enables().stream()
                        .map(e -> "; net " + e.net().name() + " no longer switches its driver")
                        .collect(Collectors.joining());
        Design design = answer.question().design();
        String read =
                design.netsAtPort(branch.port().id()).stream()
                        .filter(branch::takesAlong)
                        .map(n -> "; net " + n.name() + ", which the port reads, loses its source")
                        .collect(Collectors.joining());
        return List.of(
                beginning
                        + free
                        + "; net "
                        + branch.net().name()
                        + fate(design, branch, removed)
                        + read
                        + enables
                        + ".");
    }

    /** What is left of the net that fed the port. O(its sinks). */
    private static String fate(Design design, DisconnectedBranch branch, Set<Occupant> removed) {
        Net net = branch.net();
        boolean gone =
                removed.contains(new Occupant.ByNet(net))
                        || net.driverCell() != Fabric.NOTHING
                                && removed.contains(
                                        new Occupant.ByCell(design.cells().get(net.driverCell())));
        if (gone) {
            return " is removed";
        }
        boolean feeds =
                net.sinks().stream()
                        .anyMatch(
                                s ->
                                        s instanceof Terminal.CellPin at
                                                ? !removed.contains(
                                                        new Occupant.ByCell(
                                                                design.cells().get(at.cell())))
                                                : !((Terminal.PortEnd) s).isOf(branch.port()));
        return feeds ? " keeps its other sinks" : " then feeds nothing";
    }

    private static String hops(Route route) {
        int count = route.hops().size() - 1 - route.branchHop();
        return count == 1 ? "1 new hop" : count + " new hops";
    }

    private static String netName(Answer answer) {
        return answer.question().net().name();
    }

    /**
     * What the design would lose at the most, for a column: {@code port motor}, {@code 3
     * endpoints}; empty for nothing.
     */
    public static String wouldLose(Answer answer) {
        if (answer instanceof Answer.NoRoute) {
            return "";
        }
        List<String> parts = new ArrayList<>();
        answer.question().losingPort().ifPresent(p -> parts.add("port " + p.name()));
        if (answer instanceof Answer.Blocked blocked) {
            int ends = blocked.obstacles().stream().mapToInt(Obstacle::wouldLose).sum();
            if (ends > 0) {
                parts.add(ends == 1 ? "1 endpoint" : ends + " endpoints");
            }
        }
        return String.join(", ", parts);
    }

    /** The names of what stands in the way, for a column; empty unless blocked. */
    public static String obstacleNames(Answer answer) {
        return answer instanceof Answer.Blocked blocked
                ? blocked.obstacles().stream()
                        .map(o -> o.occupant().name())
                        .collect(Collectors.joining(", "))
                : "";
    }

    /** What the board has on a question's pad, for a column: unknown is not nothing. */
    public static String onBoard(Question question) {
        Board board = question.design().board();
        return board.findWiring(question.pad())
                .map(PadWiring::attachments)
                .map(a -> a.stream().map(Attachment::toText).collect(Collectors.joining(", ")))
                .orElse(board.isKnown() ? "not described" : "");
    }

    /** A pad by its package pin, else its name; and what the board calls it. */
    public static String padText(Question question) {
        Pad pad = question.padValue();
        String place = pad.packagePin().isEmpty() ? "pad " + pad.name() : "pin " + pad.packagePin();
        return question.design()
                .board()
                .findWiring(question.pad())
                .map(PadWiring::net)
                .filter(n -> !n.isEmpty())
                .map(n -> place + " (" + n + ")")
                .orElse(place);
    }
}
