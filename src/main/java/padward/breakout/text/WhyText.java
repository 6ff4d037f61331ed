package padward.breakout.text;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import padward.breakout.ask.Answer;
import padward.change.Edit;
import padward.design.Occupant;
import padward.unblock.Explanation;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.Endpoint;
import padward.unblock.weigh.Removal;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;

/** Explanations in words. */
public final class WhyText {
    private static final int MOST_NAMED = 4;

    private WhyText() {}

    /** An occupant with what it is: {@code cell pump/hold}. */
    public static String who(Occupant occupant) {
        return (occupant instanceof Occupant.ByCell ? "cell " : "net ") + occupant.name();
    }

    /** One sentence for each held chokepoint. */
    public static List<String> mustGo(Answer.Blocked blocked, Explanation explanation) {
        List<String> result = new ArrayList<>();
        for (Chokepoint choke : explanation.chokepoints()) {
            choke.occupant()
                    .ifPresent(
                            occupant ->
                                    result.add(
                                            choke.resourceKind().equals("pad")
                                                    ? sentence(
                                                            who(occupant)
                                                                    + " holds the pad itself.")
                                                    : "Every way into pad "
                                                            + blocked.question().padValue().name()
                                                            + " passes "
                                                            + choke.resourceKind()
                                                            + " "
                                                            + choke.resource()
                                                            + "; "
                                                            + who(occupant)
                                                            + " holds it."));
        }
        return result;
    }

    /** What every free way passes beside the pad itself, as a sentence; empty for nothing. */
    public static String everyFreeRoute(Answer.Open open) {
        List<String> names =
                open.chokepoints().stream()
                        .filter(c -> !c.resourceKind().equals("pad"))
                        .map(c -> c.resourceKind() + " " + c.resource())
                        .toList();
        return names.isEmpty() ? "" : "Every free way passes " + named(names) + ".";
    }

    private static String sentence(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    /** The narrowest place, as a sentence; empty when there is none to tell. */
    public static String oneOfThese(Explanation explanation) {
        List<Occupant> used = explanation.oneOfThese();
        if (used.isEmpty()) {
            return "";
        }
        if (used.size() == 1) {
            return "All ways pass what " + who(used.get(0)) + " holds.";
        }
        return "All ways pass what one of these holds: "
                + named(used.stream().map(WhyText::who).toList())
                + ".";
    }

    /** How sure the number of obstacles is. */
    public static String proof(Explanation explanation) {
        int count = explanation.best().removals().size();
        if (explanation.provenFewest()) {
            return count == 1
                    ? "Proven fewest: nothing opens a way for free."
                    : "Proven fewest: no way opens with less than " + count + " obstacles freed.";
        }
        return "Not proven to be the fewest: at least "
                + explanation.atLeast()
                + " must go, "
                + count
                + " are enough.";
    }

    /** What freeing an obstacle means, as a clause. */
    public static String consequence(Answer.Blocked blocked, Removal removal) {
        Consequence consequence = removal.consequence();
        if (consequence instanceof Consequence.Removable) {
            return removable(blocked, removal);
        }
        if (consequence instanceof Consequence.Movable movable) {
            return movable(removal, movable);
        }
        List<Endpoint> lost = ((Consequence.LosesFunction) consequence).lost();
        String reason = "costly: it cannot be moved, and ";
        if (lost.isEmpty()) {
            return "costly: it cannot be moved";
        }
        return reason
                + (lost.size() == 1
                        ? "1 endpoint loses its signal: "
                        : lost.size() + " endpoints lose their signal: ")
                + named(lost.stream().map(Endpoint::toText).toList());
    }

    private static String removable(Answer.Blocked blocked, Removal removal) {
        boolean feedsNothing = removal.vertices().isEmpty();
        String port = blocked.disconnected().map(l -> l.port().name()).orElse("");
        if (feedsNothing) {
            return port.isEmpty()
                    ? "spare: it only switches this pad's driver"
                    : "spare: it only switches this pad's driver for port "
                            + port
                            + ", which is given up";
        }
        return port.isEmpty()
                ? "spare: it feeds nothing"
                : "spare: all that it feeds ends in port " + port + ", which is given up";
    }

    private static String movable(Removal removal, Consequence.Movable movable) {
        String how =
                switch (movable.means()) {
                    case OTHER_WIRES ->
                            removal.occupant() instanceof Occupant.ByCell
                                    ? "movable: its net can be laid over other wires"
                                    : "movable: it can be laid over other wires";
                    case LET_THROUGH ->
                            "movable: set through = open there, and it lets the signal pass;"
                                    + " its own signals stay";
                    case OTHER_SITE -> "movable: it can go to site " + otherSite(movable);
                };
        List<DelayChange> delayChanges = movable.delayChanges();
        if (delayChanges.isEmpty()) {
            return how;
        }
        List<String> parts = new ArrayList<>();
        delayChanges.stream().limit(MOST_NAMED).forEach(s -> parts.add(delayChange(s, removal)));
        if (delayChanges.size() > MOST_NAMED) {
            parts.add((delayChanges.size() - MOST_NAMED) + " more nets move with it");
        }
        return how + "; " + String.join("; ", parts);
    }

    private static String otherSite(Consequence.Movable movable) {
        return movable.edits().stream()
                .filter(e -> e instanceof Edit.RelocateCell)
                .map(e -> ((Edit.RelocateCell) e).site())
                .collect(Collectors.joining());
    }

    private static String delayChange(DelayChange delayChange, Removal removal) {
        boolean itself = delayChange.net().equals(removal.occupant().name());
        String subject = itself ? "" : "net " + delayChange.net() + " moves, ";
        String change =
                delayChange.after().equals(delayChange.before())
                        ? " as before"
                        : " instead of " + delayChange.before().toText();
        return subject
                + "at "
                + delayChange.sink()
                + " "
                + delayChange.after().toText()
                + change
                + slack(delayChange);
    }

    private static String slack(DelayChange delayChange) {
        OptionalInt after = delayChange.slackAfterPs();
        if (after.isEmpty()) {
            return "";
        }
        String text =
                String.format(
                        ", slack %d ps instead of %d ps",
                        after.getAsInt(), delayChange.slackBeforePs().orElse(0));
        return delayChange.breaksTiming() ? text + ", too late" : text;
    }

    /** One clearance as a phrase: {@code remove cell A and net B}. */
    public static String option(UnblockOption option) {
        return option.removals().stream()
                .map(
                        r ->
                                (r.consequence() instanceof Consequence.Movable ? "move " : "free ")
                                        + who(r.occupant()))
                .collect(Collectors.joining(", "));
    }

    private static String verb(Consequence consequence) {
        if (!(consequence instanceof Consequence.Movable movable)) {
            return "free ";
        }
        return movable.means() == Consequence.Means.LET_THROUGH ? "pass through " : "move ";
    }

    /** The first few of a list, and how many more. */
    static String named(List<String> names) {
        String few = names.stream().limit(MOST_NAMED).collect(Collectors.joining(", "));
        int more = names.size() - MOST_NAMED;
        return more > 0 ? few + " and " + more + " more" : few;
    }
}
